import { join } from "node:path";
import { chooseGear } from "../../api/plans/choose-gear.ts";
import { openDemo } from "../../api/plans/open-demo.ts";
import { openStore } from "../../api/store/open-store.ts";
import type { Figure } from "./figure.ts";

const limitSeconds = 1;
const today = "2026-11-25";
const demo = join(import.meta.dirname, "../../importers/demo");
const candidates = ["T54 ST", "T58 ST", "VG-52", "VG-60", "SK-56", "QW-58"];

/** Measures choosing among six makes of winch on the demo fleet, first and warm, with what would turn the verdict. */
export async function chooseFigures(): Promise<Figure[]> {
  const store = await openStore({ db: ":memory:", env: {} });
  try {
    await openDemo(store, demo, { who: "bench", at: `${today}T12:00:00Z` });
    const ask = () =>
      chooseGear(
        store,
        {
          vessel: "Ysolvane",
          replace: ["Primary winch, port forward"],
          candidates,
          rates: { GBP: 1.17, USD: 0.92 },
        },
        today,
      );
    const seconds: number[] = [];
    let weighed = 0;
    let turns = 0;
    for (let run = 0; run < 5; run++) {
      const begin = performance.now();
      const answer = await ask();
      seconds.push((performance.now() - begin) / 1000);
      weighed = answer.candidates.length;
      turns = answer.turning.length;
    }
    const [first = 0, ...rest] = seconds;
    const warm = rest.toSorted((a, b) => a - b)[Math.floor(rest.length / 2)] ?? 0;
    const held = (name: string, value: number): Figure => ({
      name,
      value,
      unit: "s",
      target: `< ${limitSeconds}`,
      meets: value < limitSeconds,
    });
    return [
      held("six makes of winch on the demo fleet, first answer", first),
      held("the same again, median", warm),
      {
        name: "makes weighed",
        value: weighed,
        unit: "of 6",
        target: "6",
        meets: weighed === 6,
      },
      { name: "turning points found", value: turns, unit: "", target: "shown", meets: true },
    ];
  } finally {
    await store.close();
  }
}
