import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { kitAnswer } from "../../api/contract/kit.contract.ts";
import { planKit } from "../../api/plans/plan-kit.ts";
import type { GraphStore } from "../../api/store/graph-store.ts";
import { openStore } from "../../api/store/open-store.ts";
import { GraphSketch } from "../tools/graph-sketch.ts";

let folder = "";
let store: GraphStore;
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), "kit-plan-"));
  store = await openStore({ db: join(folder, "graph.db"), env: {} });
});
afterEach(async () => {
  await store.close();
  rmSync(folder, { recursive: true, force: true });
});

const today = "2026-11-25";
const twentyDays = { daysExpected: 16, daysLongest: 20, departs: "2027-01-10" } as const;
/** Pr(Poisson(mean) <= k), by plain summation. */
const poissonAtMost = (mean: number, k: number): number => {
  let term = Math.exp(-mean);
  let sum = term;
  for (let i = 1; i <= k; i++) {
    term *= mean / i;
    sum += term;
  }
  return sum;
};

/** One item running 24 h a day for 20 days is exposed for 480 h. */
const ratePer1000Hours = (mean: number): number => mean / 0.48;

describe("the least kit from the graph", () => {
  // CHECK-VALUES, least-cost allocation: Poisson demands .5, 1, .25, 2 at unit costs 100, 40, 250, 15 (derived).
  test.each([
    [0.8, 505],
    [0.9, 645],
    [0.95, 700],
    [0.99, 1065],
  ])("four Poisson parts reach %d at the published least cost", async (target, cost) => {
    const sketch = new GraphSketch();
    const boat = sketch.vessel("Ysolvane");
    const model = sketch.model("Gear one");
    sketch.item("Only gear", boat, model, { hoursPerDay: 24 });
    const supplier = sketch.supplier("Nordquay Stores");
    for (const [name, mean, price] of [
      ["A", 0.5, 100],
      ["B", 1, 40],
      ["C", 0.25, 250],
      ["D", 2, 15],
    ] as const) {
      const part = sketch.part(`000-${name}`);
      sketch.link("USES", model, part, {
        quantity: 1,
        rate: ratePer1000Hours(mean),
        rateBasis: "1000 hours",
        rateSource: "maker",
      });
      sketch.link("OFFERS", supplier, part, { priceMinor: price, currency: "EUR" });
    }
    await sketch.into(store);
    const kit = await planKit(store, { ...twentyDays, targets: { passage: target } }, today);
    expect(kitAnswer.parse(kit).status).toBe("optimal");
    expect(kit.total.cost).toEqual({ minor: cost, currency: "EUR" });
    expect(kit.total.lowerBound).toBe(cost);
    const passage = kit.tiers.find((tier) => tier.tier === "passage");
    expect(passage?.withKit).toBeGreaterThanOrEqual(target);
  });

  // Trivedi, ch. 6 problem 2 (after Barlow and Proschan): pooled mean 8 needs 12 for .90; here as three items.
  test("gear that shares a part pools its demand", async () => {
    const sketch = new GraphSketch();
    const boat = sketch.vessel("Ysolvane");
    const part = sketch.part("BRG-8");
    const hours = [1300, 1500, 1200];
    hours.forEach((h, i) => {
      const model = sketch.model(`Gear ${i}`);
      sketch.item(`Item ${i}`, boat, model, { hoursPerDay: h / 100 });
      sketch.link("USES", model, part, {
        quantity: 1,
        rate: 2,
        rateBasis: "1000 hours",
        rateSource: "published",
      });
    });
    await sketch.into(store);
    const kit = await planKit(
      store,
      { daysExpected: 100, daysLongest: 100, departs: today, targets: { passage: 0.9 } },
      today,
    );
    expect(kit.lines[0]?.buy).toBe(12);
    expect(kit.lines[0]?.meanDemand).toBeCloseTo(8, 6);
    expect(1 - (kit.lines[0]?.shortWithKit ?? 0)).toBeCloseTo(0.936203, 5);
  });

  test("four alike winches of which two are needed lend two items' parts; the safety tier lends none", async () => {
    const sketch = new GraphSketch();
    const boat = sketch.vessel("Ysolvane");
    const model = sketch.model("Winch 40", "winch");
    const pawl = sketch.part("PAWL-1");
    sketch.link("USES", model, pawl, {
      quantity: 3,
      rate: 1,
      rateBasis: "year",
      rateSource: "maker",
    });
    const winches = [1, 2, 3, 4].map((n) => sketch.item(`Winch ${n}`, boat, model));
    sketch.duty("Trim sails", boat, "passage", 2, winches);
    const pump = sketch.model("Pump 9", "bilge pump");
    const valve = sketch.part("VALVE-1");
    sketch.link("USES", pump, valve, {
      quantity: 3,
      rate: 1,
      rateBasis: "year",
      rateSource: "maker",
    });
    const pumps = [1, 2].map((n) => sketch.item(`Pump ${n}`, boat, pump));
    sketch.duty("Pump the bilge", boat, "safety", 1, pumps);
    await sketch.into(store);
    const kit = await planKit(store, twentyDays, today);
    const line = kit.lines.find((one) => one.partNumber === "PAWL-1");
    expect(line?.credit).toBe(6);
    const mean = (4 * 3 * 20) / 365.25;
    expect(line?.shortWithNone).toBeCloseTo(1 - poissonAtMost(mean, 6), 9);
    const safe = kit.lines.find((one) => one.partNumber === "VALVE-1");
    expect(safe).toMatchObject({ credit: 0, safety: true, tier: "safety" });
    expect(safe?.shortWithNone).toBeCloseTo(1 - poissonAtMost((2 * 3 * 20) / 365.25, 0), 5);
    const alone = await planKit(store, { ...twentyDays, robbing: false }, today);
    expect(alone.lines.find((one) => one.partNumber === "PAWL-1")?.credit).toBe(0);
  });

  test("expired, undated perishable and unfit stock does not count; dated stock does", async () => {
    const sketch = new GraphSketch();
    const boat = sketch.vessel("Ysolvane");
    const model = sketch.model("Heads");
    sketch.item("Forward heads", boat, model);
    const seal = sketch.part("SEAL-1", { shelfLifeMonths: 24 });
    sketch.link("USES", model, seal, {
      quantity: 1,
      rate: 1,
      rateBasis: "year",
      rateSource: "maker",
    });
    // Arrival 2027-01-30: a last day on arrival itself does not fall after it.
    sketch.stock(seal, boat, 1, { expires: "2027-01-30" });
    sketch.stock(seal, boat, 2, {});
    sketch.stock(seal, boat, 4, { expires: "2028-01-01", condition: "unserviceable" });
    sketch.stock(seal, boat, 8, { made: "2025-02-28" });
    sketch.stock(seal, boat, 16, { made: "2025-01-29", expires: "2029-01-01" });
    await sketch.into(store);
    const kit = await planKit(store, twentyDays, today);
    expect(kit.lines[0]).toMatchObject({ aboard: 8, notUsable: 23 });
  });

  test("an own history pools the exposure of all items before it is mixed", async () => {
    const sketch = new GraphSketch();
    const boat = sketch.vessel("Ysolvane");
    const model = sketch.model("Pump");
    for (const n of [1, 2, 3]) sketch.item(`Pump ${n}`, boat, model);
    const part = sketch.part("DIA-1");
    sketch.link("USES", model, part, {
      quantity: 2,
      usedCount: 4,
      usedOverYears: 10,
      rarity: "now and then",
    });
    await sketch.into(store);
    const kit = await planKit(store, twentyDays, today);
    // Negative binomial, shape .5 + 4, p = (5 + 10) / (5 + 10 + 6 * 20 / 365.25): Pr(0) = p^4.5.
    const p = 15 / (15 + (6 * 20) / 365.25);
    expect(1 - (kit.lines[0]?.shortWithNone ?? 0)).toBeCloseTo(p ** 4.5, 5);
    expect(kit.lines[0]?.evidence).toBe("own history");
  });

  test("a failure that cannot be mended at sea buys no spare and is listed with its chance", async () => {
    const sketch = new GraphSketch();
    const boat = sketch.vessel("Ysolvane");
    const model = sketch.model("Rudder");
    sketch.item("Rudder", boat, model);
    const stock = sketch.part("STOCK-1");
    sketch.link("USES", model, stock, {
      quantity: 1,
      rate: 0.1,
      rateBasis: "year",
      fittableAtSea: false,
      rateSource: "published",
    });
    const unknown = sketch.part("PIN-1");
    sketch.link("USES", model, unknown, { quantity: 1 });
    await sketch.into(store);
    const kit = await planKit(store, twentyDays, today);
    expect(kit.lines).toEqual([]);
    expect(kit.unsparable[0]?.chance).toBeCloseTo(1 - Math.exp(-(0.1 * 20) / 365.25), 9);
    expect(kit.withoutEvidence[0]?.part.name).toBe("PIN-1");
    expect(kit.sentence).toContain("no kit can be worked out");
  });

  test("a service falling due on passage puts its parts in the kit", async () => {
    const sketch = new GraphSketch();
    const boat = sketch.vessel("Ysolvane");
    const model = sketch.model("Diesel", "diesel");
    const engine = sketch.item("Engine", boat, model, { hoursPerDay: 10, hoursRun: 1000 });
    const filter = sketch.part("FILT-1");
    sketch.link("USES", model, filter, { quantity: 1 });
    const task = sketch.node("ServiceTask", "Change oil filter", {
      name: "Change oil filter",
      intervalHours: 100,
    });
    sketch.link("SERVICE_OF", task, model);
    sketch.link("CONSUMES", task, filter, { quantity: 2 });
    sketch.link("SERVICED", engine, task, { lastDoneHours: 950, lastDone: "2026-10-01" });
    await sketch.into(store);
    const kit = await planKit(store, twentyDays, today);
    // 200 h ahead, 50 h already on the clock: due at 50 h and 150 h (counted by hand).
    expect(kit.lines[0]).toMatchObject({ buy: 4, evidence: "scheduled" });
    expect(kit.withoutEvidence).toEqual([]);
  });

  test("a target out of reach is an answer that names what stands in the way", async () => {
    const sketch = new GraphSketch();
    const boat = sketch.vessel("Ysolvane");
    sketch.node("Crossing", "Long haul", {
      name: "Long haul",
      departs: "2027-01-10",
      daysExpected: 16,
      daysLongest: 20,
    });
    const model = sketch.model("Gear");
    sketch.item("Gear", boat, model, { hoursPerDay: 24 });
    const part = sketch.part("P-1");
    sketch.link("USES", model, part, {
      quantity: 1,
      rate: 1,
      rateBasis: "1000 hours",
      rateSource: "maker",
    });
    await sketch.into(store);
    const kit = await planKit(store, { targets: { passage: 1 - 2 ** -53 } }, today);
    expect(kit.status).toBe("infeasible");
    expect(kit.sentence).toMatch(/No stock carries Ysolvane over Long haul/);
    await expect(planKit(store, { vessel: "Nobody" }, today)).rejects.toMatchObject({
      code: "not-found",
    });
  });
});
