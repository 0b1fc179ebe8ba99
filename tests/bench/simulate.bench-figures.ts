import { fileURLToPath } from "node:url";
import { choosePassage } from "../../api/plans/kit/choose-passage.ts";
import { openDemo } from "../../api/plans/open-demo.ts";
import { simulateInThreads } from "../../api/plans/simulate/simulate-in-threads.ts";
import { vesselKit } from "../../api/scoring/provision/vessel-kit.ts";
import { bindCrossing } from "../../api/scoring/simulation/bind-crossing.ts";
import { openStore } from "../../api/store/open-store.ts";
import type { Figure } from "./figure.ts";

const crossings = 200_000;
const demoFolder = fileURLToPath(new URL("../../importers/demo", import.meta.url));

/**
 * Measures how many crossings a minute are played of each vessel of the demo fleet, with what is aboard and with the
 * kit, on two threads; starting the threads is counted.
 */
export async function simulateFigures(): Promise<Figure[]> {
  const store = await openStore({ db: ":memory:", env: {} });
  const figures: Figure[] = [];
  try {
    await openDemo(store, demoFolder, { who: "bench", at: "2026-11-25T00:00:00.000Z" });
    for (const { id, properties } of await store.list("Vessel", 0, 100)) {
      const { passage } = await choosePassage(store, { vessel: id }, "2026-11-25");
      const snapshot = await store.snapshot(id);
      const vessel = snapshot.vessels.id.indexOf(id);
      const kit = vesselKit(snapshot, vessel, passage, {
        targets: [0.99, 0.95, 0.8],
        objective: "cost",
        rule: "kit",
        robbing: true,
        rates: {},
      });
      const model = bindCrossing(snapshot, vessel, passage, kit, true);
      const stocks = [
        Int32Array.from(kit.rows, (row) => row.usable),
        Int32Array.from(kit.rows, (row) => row.usable + row.buy),
      ];
      const begin = performance.now();
      const tally = await simulateInThreads(model, stocks, { crossings, seed: 1, threads: 2 });
      const minutes = (performance.now() - begin) / 60_000;
      const value = tally.crossings / minutes;
      figures.push({
        name: `crossings of ${String(properties["name"])} (${kit.rows.length} part classes), two threads`,
        value,
        unit: "a minute",
        target: "≥ 1 000 000",
        meets: value >= 1_000_000,
      });
    }
  } finally {
    await store.close();
  }
  return figures;
}
