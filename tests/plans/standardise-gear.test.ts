import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import {
  type StandardiseAnswer,
  standardiseAnswer,
} from "../../api/contract/standardise.contract.ts";
import { openDemo } from "../../api/plans/open-demo.ts";
import { standardiseGear } from "../../api/plans/standardise-gear.ts";
import type { GraphStore } from "../../api/store/graph-store.ts";
import { openStore } from "../../api/store/open-store.ts";
import { GraphSketch } from "../tools/graph-sketch.ts";
import { kitAnew } from "../tools/kit-anew.ts";

const today = "2026-11-25";

describe("standardising the demo fleet", () => {
  let store: GraphStore;
  let answer: StandardiseAnswer;
  const ask = (more: Partial<Parameters<typeof standardiseGear>[1]> = {}) =>
    standardiseGear(store, { kitYearlyMinor: 90_000, ...more }, today);

  beforeAll(async () => {
    store = await openStore({ db: ":memory:", env: {} });
    await openDemo(store, join(import.meta.dirname, "../../importers/demo"), {
      who: "test",
      at: `${today}T12:00:00Z`,
    });
    answer = standardiseAnswer.parse(await ask());
  }, 60_000);
  afterAll(async () => {
    await store.close();
  });

  test("is proven, changes something where kits are dear, and saves over its cost", () => {
    expect(answer.status).toBe("optimal");
    expect(answer.model.gap).toBe(0);
    expect(answer.changes.length).toBeGreaterThan(0);
    expect(answer.saving?.minor).toBeGreaterThan(0);
    expect(answer.after.kits).toBeLessThan(answer.before.kits);
    const total = (answer.before.total?.minor ?? 0) - (answer.after.total?.minor ?? 0);
    expect(answer.saving?.minor).toBe(total);
  });

  // The reference is each vessel's kit solved from scratch, on the graph as it is and as imagined.
  test("tells the kits solved from scratch before and after, at the same targets", async () => {
    let before = 0;
    let after = 0;
    for (const vessel of ["Quorrelind", "Umberwhist", "Ysolvane"]) {
      before += (await kitAnew(store, vessel, [])).total.cost.minor;
      const replace = answer.changes
        .filter((change) => change.vessel.name === vessel)
        .flatMap(({ positions, to }) => positions.map((item) => ({ item, model: to.id })));
      const kit = await kitAnew(store, vessel, replace);
      expect(kit.status).toBe("optimal");
      after += kit.total.cost.minor;
      for (const { withKit, target } of kit.tiers) expect(withKit).toBeGreaterThanOrEqual(target);
    }
    expect(answer.before.kit?.minor).toBe(before);
    expect(answer.after.kit?.minor).toBe(after);
  }, 120_000);

  test("leaves safety gear as it is", async () => {
    const safety = new Set<string>();
    const snapshot = await store.snapshot();
    snapshot.items.id.forEach((_, item) => {
      for (
        let e = snapshot.serves.start[item] ?? 0;
        e < (snapshot.serves.start[item + 1] ?? 0);
        e++
      )
        if (snapshot.functions.tier[snapshot.serves.target[e] ?? 0] === 0)
          safety.add(snapshot.items.position[item] ?? "");
    });
    expect(safety.size).toBeGreaterThan(5);
    for (const { positions } of answer.changes) {
      for (const position of positions) expect(safety).not.toContain(position);
    }
    expect(answer.held[0]?.positions).toBeGreaterThan(0);
    expect(answer.held.map(({ reason }) => reason).join()).toMatch(/never thinned out/);
  });

  test("the steps add up to the whole", () => {
    const sum = (of: (step: StandardiseAnswer["sequence"][number]) => number): number =>
      answer.sequence.reduce((total, step) => total + of(step), 0);
    expect(sum(({ cost }) => cost.minor)).toBe(answer.changeCost.minor);
    expect(sum(({ kitSaving }) => kitSaving.minor)).toBe(
      (answer.before.kit?.minor ?? 0) - (answer.after.kit?.minor ?? 0),
    );
    expect(sum(({ yearlySaving }) => yearlySaving.minor)).toBe(
      answer.before.yearly.minor - answer.after.yearly.minor,
    );
  });

  test("a budget holds, and a budget of nothing is answered", async () => {
    const some = await ask({ budgetMinor: 300_000 });
    expect(some.changeCost.minor).toBeLessThanOrEqual(300_000);
    expect(some.saving?.minor).toBeLessThanOrEqual(answer.saving?.minor ?? 0);
    const none = await ask({ budgetMinor: 0 });
    expect(none.status).toBe("optimal");
    expect(none.changes).toEqual([]);
    expect(none.after).toEqual(none.before);
    expect(none.sentence).toMatch(/budget of nothing, nothing can change/);
  }, 120_000);

  test("only the kinds asked about may change, and gear without a rate is left out aloud", async () => {
    const toilets = await ask({ categories: ["Toilet"] });
    expect(toilets.changes.every(({ category }) => category === "toilet")).toBe(true);
    expect(toilets.opportunities.every(({ category }) => category === "toilet")).toBe(true);
    expect(answer.notices.find(({ code }) => code === "currency-without-rate")?.text).toMatch(
      /GBP/,
    );
    const rated = await ask({ rates: { GBP: 1.17, USD: 0.92 } });
    expect(rated.notices.map(({ code }) => code)).not.toContain("currency-without-rate");
  });

  test("says what was assumed, and what standardising risks", () => {
    expect(answer.notices.find(({ code }) => code === "charges-assumed")?.text).toMatch(
      /100.00 EUR a year for each supplier/,
    );
    expect(answer.counterweight.join()).toMatch(/shared defect/);
  });

  test("stops when told to", async () => {
    const stop = new AbortController();
    stop.abort(new Error("enough"));
    await expect(standardiseGear(store, {}, today, { signal: stop.signal })).rejects.toThrow(
      "enough",
    );
  });
});

describe("standardising, worked by hand", () => {
  /** Three pumps, two makes, a part each of mean 0.5 an item; the price of B; one seal costs 40.00. */
  async function threePumps(price: number): Promise<StandardiseAnswer> {
    const store = await openStore({ db: ":memory:", env: {} });
    const sketch = new GraphSketch();
    const boat = sketch.vessel("Ysolvane");
    const shop = sketch.supplier("Nordquay");
    for (const [name, count] of [
      ["A", 1],
      ["B", 2],
    ] as const) {
      const model = sketch.node("Model", name, {
        designation: name,
        category: "pump",
        priceMinor: price,
        currency: "EUR",
      });
      sketch.link("MADE_BY", model, sketch.maker());
      const part = sketch.part(`SEAL-${name}`);
      sketch.link("USES", model, part, {
        quantity: 1,
        rate: 0.5 / 0.48,
        rateBasis: "1000 hours",
        rateSource: "maker",
      });
      sketch.link("OFFERS", shop, part, { priceMinor: 4000, currency: "EUR" });
      for (let at = 0; at < count; at++)
        sketch.item(`Pump ${name} ${at}`, boat, model, { hoursPerDay: 24 });
    }
    await sketch.into(store);
    const answer = await standardiseGear(
      store,
      {
        departs: "2027-01-10",
        daysExpected: 20,
        daysLongest: 20,
        targets: { passage: 0.95 },
        horizonYears: 2,
        kitYearlyMinor: 1000,
        supplierYearlyMinor: 0,
      },
      today,
    );
    await store.close();
    return answer;
  }

  // Standard tables: two makes, means .5 and 1: the least seals for .95 are 2 + 3 (.9856 x .9810 = .9669), or 3 + 2
  // (.9982 x .9197 = .918, too few), so 5 seals, 200.00. One make, mean 1.5: F(3) = .9344, F(4) = .9814, so 4 seals,
  // 160.00. One kit fewer saves 10.00 a year for 2 years. A change of one pump so saves 40.00 + 20.00.
  test("one pump is changed where it costs 59.00 and not where it costs 61.00", async () => {
    const cheap = await threePumps(5900);
    expect(cheap.before.kit?.minor).toBe(20_000);
    expect(cheap.changes).toMatchObject([
      { from: { name: "Quillmark A" }, to: { name: "Quillmark B" }, positions: ["Pump A 0"] },
    ]);
    expect(cheap.after.kit?.minor).toBe(16_000);
    expect(cheap.saving?.minor).toBe(100);
    // 59.00 less 40.00 on the kit leaves 19.00 at 10.00 a year.
    expect(cheap.paybackYears).toBeCloseTo(1.9, 10);
    const dear = await threePumps(6100);
    expect(dear.changes).toEqual([]);
    expect(dear.opportunities[0]).toMatchObject({
      by: { name: "Quillmark B" },
      kitSaving: { minor: 4000 },
      partsVanishing: 1,
      partsAdded: 0,
      kitsVanishing: 1,
    });
  });
});
