import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { kitAnswer } from "../../api/contract/kit.contract.ts";
import { planKit } from "../../api/plans/plan-kit.ts";
import type { GraphStore } from "../../api/store/graph-store.ts";
import { openStore } from "../../api/store/open-store.ts";
import type { Properties } from "../../graph-schema/index.ts";
import { GraphSketch } from "../tools/graph-sketch.ts";

let store: GraphStore;
beforeEach(async () => {
  store = await openStore({ db: ":memory:", env: {} });
});
afterEach(async () => {
  await store.close();
});

const today = "2026-11-25";
const twentyDays = { daysExpected: 16, daysLongest: 20, departs: "2027-01-10" } as const;
/** Makes a mean of twenty days at 24 h a day. */
const mean = (pieces: number): Properties => ({
  rate: pieces / 0.48,
  rateBasis: "1000 hours",
  rateSource: "maker",
});
const round = (value: number): number => Number(value.toFixed(9));

describe("what can't be spared", () => {
  test("a failure that can't be mended is listed with its chance and the functions it stops", async () => {
    const sketch = new GraphSketch();
    const boat = sketch.vessel("Ysolvane");
    const gearbox = sketch.model("GB-1");
    const alternator = sketch.model("ALT-1");
    const item = sketch.item("Gearbox", boat, gearbox, { hoursPerDay: 24 });
    const pair = ["Alternator port", "Alternator starboard"].map((name) =>
      sketch.item(name, boat, alternator, { hoursPerDay: 24 }),
    );
    const shaft = sketch.part("SHAFT");
    const rotor = sketch.part("ROTOR");
    const no = { quantity: 1, fittableAtSea: false } as const;
    sketch.link("USES", gearbox, shaft, { ...no, failureEffect: "stop", ...mean(0.1) });
    sketch.link("USES", alternator, rotor, { ...no, failureEffect: "stop", ...mean(0.05) });
    sketch.duty("Drive the shaft", boat, "passage", 1, [item]);
    sketch.duty("Charge", boat, "passage", 1, pair);
    await sketch.into(store);
    const kit = kitAnswer.parse(await planKit(store, twentyDays, today));
    expect(
      kit.unsparable.map(({ part, chance, stopsFunctions }) => [
        part.name,
        round(chance),
        stopsFunctions.map(({ name }) => name),
      ]),
    ).toEqual(
      [
        // Pr(D ≥ 1) = 1 - e^-mean; two alternators of mean .05 each, of which one is enough.
        ["ROTOR", round(1 - Math.exp(-0.1)), []],
        ["SHAFT", round(1 - Math.exp(-0.1)), ["Drive the shaft"]],
      ].sort((a, b) => Number(b[1]) - Number(a[1])),
    );
    expect(kit.singlePoints).toMatchObject([
      { part: { name: "SHAFT" }, why: "no mending at sea", function: { name: "Drive the shaft" } },
    ]);
  });

  test("one piece is a single point only without spare, donor or successor", async () => {
    const sketch = new GraphSketch();
    const boat = sketch.vessel("Ysolvane");
    const windlass = sketch.model("WL-1");
    const winch = sketch.model("WN-1");
    const item = sketch.item("Windlass", boat, windlass, { hoursPerDay: 24 });
    const winches = ["Port primary", "Starboard primary"].map((name) =>
      sketch.item(name, boat, winch, { hoursPerDay: 24 }),
    );
    const part = (name: string) => sketch.part(name, { description: `${name} of steel` });
    const [bare, stocked, old, fresh, spring, badge] = [
      "BARE",
      "STOCKED",
      "OLD",
      "NEW",
      "SPRING",
      "BADGE",
    ].map(part);
    if (!bare || !stocked || !old || !fresh || !spring || !badge) expect.unreachable();
    const stop = { quantity: 1, failureEffect: "stop" } as const;
    for (const one of [bare, stocked, old]) {
      sketch.link("USES", windlass, one, { ...stop, ...mean(0.001) });
    }
    sketch.link("USES", windlass, badge, { quantity: 1, failureEffect: "none", ...mean(0.001) });
    sketch.link("USES", windlass, spring, { ...stop, ...mean(0.001) });
    sketch.link("USES", winch, spring, { ...stop, quantity: 2, ...mean(0.001) });
    sketch.link("SUPERSEDED_BY", old, fresh);
    sketch.stock(stocked, boat, 1);
    sketch.stock(fresh, boat, 1);
    sketch.duty("Anchor", boat, "passage", 1, [item]);
    sketch.duty("Sheet the headsails", boat, "passage", 1, winches);
    await sketch.into(store);
    const kit = await planKit(store, { ...twentyDays, targets: { passage: 0.5 } }, today);
    expect(kit.total.buyPieces).toBe(0);
    expect(kit.singlePoints.map((point) => [point.part.name, point.why])).toEqual([
      ["BARE", "no spare"],
    ]);
    expect(round(kit.singlePoints[0]?.chance ?? 0)).toBe(round(1 - Math.exp(-0.001)));
    // One of the two winches can be given up, with both of its springs.
    expect(kit.donors).toHaveLength(1);
    expect(kit.donors[0]).toMatchObject({
      parts: [{ part: { name: "SPRING" }, pieces: 2 }],
      functions: [{ name: "Sheet the headsails" }],
    });
    expect(kit.donors[0]?.words).toMatch(/primary can give its SPRING of steel \(2\)/);
    const without = await planKit(
      store,
      { ...twentyDays, targets: { passage: 0.5 }, robbing: false },
      today,
    );
    expect(without.donors).toEqual([]);
    expect(without.singlePoints.map(({ part: { name } }) => name).sort()).toEqual([
      "BARE",
      "SPRING",
    ]);
  });
});
