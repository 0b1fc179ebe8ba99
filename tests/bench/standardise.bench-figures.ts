import { join } from "node:path";
import { openDemo } from "../../api/plans/open-demo.ts";
import { standardiseGear } from "../../api/plans/standardise-gear.ts";
import type { GraphStore } from "../../api/store/graph-store.ts";
import { openStore } from "../../api/store/open-store.ts";
import type { Figure } from "./figure.ts";
import { variedFleet } from "./varied-fleet.ts";

const today = "2026-11-25";
const demo = join(import.meta.dirname, "../../importers/demo");

/** Measures standardising the demo fleet to the proof, and a generated fleet of 2 000 items to a stated gap. */
export async function standardiseFigures(): Promise<Figure[]> {
  const figures: Figure[] = [];
  const add = (name: string, value: number, unit: string, target: string, meets: boolean): void => {
    figures.push({ name, value, unit, target, meets });
  };
  await withStore(async (store) => {
    await openDemo(store, demo, { who: "bench", at: `${today}T12:00:00Z` });
    for (const [name, kitYearlyMinor] of [
      ["usual charges", 2_500],
      ["dear kits", 60_000],
    ] as const) {
      const begin = performance.now();
      const answer = await standardiseGear(
        store,
        { rates: { GBP: 1.17, USD: 0.92 }, kitYearlyMinor },
        today,
      );
      const seconds = (performance.now() - begin) / 1000;
      add(`demo fleet, ${name}`, seconds, "s", "< 10", seconds < 10);
      const proven = answer.status === "optimal" ? 1 : 0;
      add(`demo fleet, ${name}, proven`, proven, "yes = 1", "1", proven === 1);
    }
  });
  await withStore(async (store) => {
    await variedFleet(store, { vessels: 5, categories: 40, makes: 4, items: 2_000 });
    const request = {
      daysExpected: 20,
      daysLongest: 24,
      departs: "2027-01-10",
      seconds: 35,
      kitYearlyMinor: 20_000,
      budgetMinor: 6_000_000,
    };
    const begin = performance.now();
    let heard = 0;
    const answer = await standardiseGear(store, request, today, {
      progress: () => {
        heard += 1;
      },
    });
    const seconds = (performance.now() - begin) / 1000;
    add("2 000 items, whole answer", seconds, "s", "< 60", seconds < 60);
    add(
      "2 000 items, gap in the planning model",
      100 * answer.model.gap,
      "%",
      "< 2",
      answer.model.gap < 0.02,
    );
    add("2 000 items, positions that may change", answer.model.positions, "", "shown", true);
    add("2 000 items, changes", answer.changes.length, "", "shown", true);
    add("2 000 items, progress told", heard, "times", "> 0", heard > 0);
    const cancel = new AbortController();
    const stopped = performance.now();
    setTimeout(() => cancel.abort(new Error("cancelled")), 8_000);
    const late = await standardiseGear(store, request, today, { signal: cancel.signal }).then(
      () => Number.NaN,
      () => (performance.now() - stopped) / 1000 - 8,
    );
    add("2 000 items, ends after cancelling", late, "s", "< 5", late < 5);
  });
  return figures;
}

async function withStore(use: (store: GraphStore) => Promise<void>): Promise<void> {
  const store = await openStore({ db: ":memory:", env: {} });
  try {
    await use(store);
  } finally {
    await store.close();
  }
}
