import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { simulationAnswer } from "../../api/contract/simulation.contract.ts";
import { planKit } from "../../api/plans/plan-kit.ts";
import { simulateCrossing } from "../../api/plans/simulate-crossing.ts";
import type { GraphStore } from "../../api/store/graph-store.ts";
import { openStore } from "../../api/store/open-store.ts";
import { GraphSketch } from "../tools/graph-sketch.ts";

let store: GraphStore;
beforeEach(async () => {
  store = await openStore({ db: ":memory:", env: {} });
});
afterEach(() => store.close());

const today = "2026-11-25";
const twentyDays = { daysExpected: 16, daysLongest: 20, departs: "2027-01-10" } as const;
/** One item running 24 h a day for 20 days is exposed for 480 h. */
const ratePer1000Hours = (mean: number): number => mean / 0.48;

/** Two alike winches of which one is needed, a part in each of mean 0.5 that stops it, no stock; plus more if asked. */
async function twoWinches(fittableAtSea = true): Promise<void> {
  const sketch = new GraphSketch();
  const boat = sketch.vessel("Ysolvane");
  const model = sketch.model("Winch");
  const items = ["Port", "Starboard"].map((name) =>
    sketch.item(name, boat, model, { hoursPerDay: 24 }),
  );
  sketch.duty("Sheet the jib", boat, "passage", 1, items);
  sketch.link("USES", model, sketch.part("W-1"), {
    quantity: 1,
    failureEffect: "stop",
    fittableAtSea,
    rate: ratePer1000Hours(0.5),
    rateBasis: "1000 hours",
    rateSource: "maker",
  });
  await sketch.into(store);
}

describe("a crossing played many times", () => {
  test("gives the two-winch function what is worked out by hand", async () => {
    await twoWinches();
    const answer = await simulateCrossing(
      store,
      { ...twentyDays, crossings: 100_000, seed: 5, targets: { passage: 0.5 } },
      today,
    );
    const [duty] = answer.functions;
    // Own derivation. As counted: D ~ Poisson(2 x 0.5), kept when D <= 1: 2/e. As lived: lost when both stop,
    // each with chance 1 - e^-0.5 on its own, since a stopped winch rests and nothing is left to rob.
    const within = (interval: { low: number; high: number }, value: number): void => {
      const margin = 1.3 * (interval.high - interval.low);
      expect(value).toBeGreaterThan(interval.low - margin);
      expect(value).toBeLessThan(interval.high + margin);
    };
    within(duty?.withAboard.asCounted ?? { low: 9, high: 9 }, 2 / Math.E);
    within(duty?.withAboard.asLived ?? { low: 9, high: 9 }, 1 - (1 - Math.exp(-0.5)) ** 2);
    expect(duty?.withAboard.computed).toBeCloseTo(2 / Math.E, 9);
  });

  test("lets failures that no spare mends stop their item, as lived only", async () => {
    await twoWinches(false);
    const answer = await simulateCrossing(store, { ...twentyDays, crossings: 20_000 }, today);
    const [duty] = answer.functions;
    expect(duty?.withKit.asCounted.value).toBe(1);
    expect(duty?.withKit.asLived.value).toBeCloseTo(1 - (1 - Math.exp(-0.5)) ** 2, 1);
  });

  test("is the same for a seed on any number of threads, and another for another seed", async () => {
    await twoWinches();
    const asked = { ...twentyDays, crossings: 23_456, seed: 11 };
    const one = await simulateCrossing(store, asked, today, { threads: 1 });
    const two = await simulateCrossing(store, asked, today, { threads: 2 });
    const other = await simulateCrossing(store, { ...asked, seed: 12 }, today);
    expect(two).toEqual(one);
    expect(other.functions).not.toEqual(one.functions);
  });

  test("judges the kit that the same request gives, and says its cautions and differences", async () => {
    await twoWinches();
    const kit = await planKit(store, twentyDays, today);
    const answer = await simulateCrossing(store, { ...twentyDays, crossings: 2000 }, today);
    expect(simulationAnswer.parse(answer)).toEqual(answer);
    expect(answer.parts.map(({ part, buy }) => [part.id, buy])).toEqual(
      kit.lines.map(({ part, buy }) => [part.id, buy]),
    );
    expect(answer.tiers[1]?.withKit.computed).toBeCloseTo(kit.tiers[1]?.withKit ?? -1, 12);
    expect(answer.cautions).toEqual(kit.cautions);
    expect(answer.differences.length).toBeGreaterThan(2);
    expect(answer.sentence).toContain("Ysolvane");
  });

  test("tells how far it is, and stops when asked", async () => {
    await twoWinches();
    const stop = new AbortController();
    let last = 0;
    const answer = simulateCrossing(store, { ...twentyDays, crossings: 10_000_000 }, today, {
      signal: stop.signal,
      progress: (done, total) => {
        expect(done).toBeGreaterThan(last);
        expect(total).toBe(10_000_000);
        last = done;
        stop.abort(new Error("enough"));
      },
    });
    await expect(answer).rejects.toThrow("enough");
    expect(last).toBeLessThan(10_000_000);
  });

  test("refuses rates that would fail for ever", async () => {
    const sketch = new GraphSketch();
    const boat = sketch.vessel("Ysolvane");
    const model = sketch.model("Winch");
    sketch.item("Port", boat, model, { hoursPerDay: 24 });
    sketch.link("USES", model, sketch.part("W-1"), {
      quantity: 1,
      rate: 9e5,
      rateBasis: "1000 hours",
    });
    await sketch.into(store);
    await expect(simulateCrossing(store, twentyDays, today)).rejects.toMatchObject({
      code: "rate-invalid",
    });
  });
});
