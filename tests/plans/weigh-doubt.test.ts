import { afterEach, beforeEach, expect, test } from "vitest";
import { doubtAnswer } from "../../api/contract/doubt.contract.ts";
import { planKit } from "../../api/plans/plan-kit.ts";
import { weighDoubt } from "../../api/plans/weigh-doubt.ts";
import type { GraphStore } from "../../api/store/graph-store.ts";
import { openStore } from "../../api/store/open-store.ts";
import { GraphSketch } from "../tools/graph-sketch.ts";

const stores: GraphStore[] = [];
beforeEach(() => {
  stores.length = 0;
});
afterEach(() => Promise.all(stores.map((store) => store.close())));

const today = "2026-11-25";
const passage = { departs: "2027-01-10", daysExpected: 16, daysLongest: 20 } as const;

const rates = { pawl: 1.2, spring: 0.7, seal: 0.3, belt: 2.5 } as const;
type Named = keyof typeof rates;

/** Two winches with four parts at stated rates per year, a guessed one, and prices; `factor` multiplies one rate. */
async function fleet(
  factor: Partial<Record<Named, number>> = {},
  isSuperseded = false,
): Promise<GraphStore> {
  const store = await openStore({ db: ":memory:", env: {} });
  stores.push(store);
  const sketch = new GraphSketch();
  const boat = sketch.vessel("Ysolvane");
  const shop = sketch.supplier("Nordquay");
  const winch = sketch.model("W 40", "winch");
  const ids = new Map<string, ReturnType<GraphSketch["part"]>>();
  for (const [at, name] of (Object.keys(rates) as Named[]).entries()) {
    const part = sketch.part(name, { description: name });
    ids.set(name, part);
    sketch.link("USES", winch, part, {
      quantity: 2,
      failureEffect: "stop",
      fittableAtSea: true,
      rate: rates[name] * (factor[name] ?? 1),
      rateBasis: "year",
      rateSource: name === "seal" ? "class assumption" : "maker",
    });
    sketch.link("OFFERS", shop, part, {
      priceMinor: [1900, 350, 720, 2600][at] ?? 0,
      currency: "EUR",
    });
  }
  sketch.duty("Sheet", boat, "passage", 2, [
    sketch.item("Port winch", boat, winch),
    sketch.item("Starboard winch", boat, winch),
  ]);
  const [older, newer] = [ids.get("pawl"), ids.get("belt")];
  if (isSuperseded && older !== undefined && newer !== undefined) {
    sketch.link("SUPERSEDED_BY", older, newer);
  }
  await sketch.into(store);
  return store;
}

test.each([
  ["parts apart", false],
  ["one part superseded by another", true],
])("halves and doubles each rate as if it had been entered so: %s", async (_name, isSuperseded) => {
  const store = await fleet({}, isSuperseded);
  const answer = await weighDoubt(store, passage, today);
  doubtAnswer.parse(answer);
  const plain = await planKit(store, passage, today);
  expect(answer.kit.money).toEqual(plain.total.cost);
  expect(answer.rates).toHaveLength(4);
  let changing = 0;
  for (const name of Object.keys(rates) as Named[]) {
    const row = answer.rates.find(({ part }) => part.name === name);
    for (const [factor, swung] of [
      [0.5, row?.halved],
      [2, row?.doubled],
    ] as const) {
      const entered = await planKit(await fleet({ [name]: factor }, isSuperseded), passage, today);
      expect(swung?.cost).toBe(entered.total.cost.minor - plain.total.cost.minor);
      expect(swung?.pieces).toBe(entered.total.buyPieces - plain.total.buyPieces);
      if (swung?.cost !== 0) changing += 1;
    }
  }
  // The rates are chosen so that the comparison is not of nothing with nothing.
  expect(changing).toBeGreaterThan(2);
  const spans = answer.rates.map(({ halved, doubled }) => doubled.cost - halved.cost);
  expect(spans).toEqual(spans.toSorted((a, b) => b - a));
});

test("says what rests on guesses, and the range that leaves", async () => {
  const answer = await weighDoubt(await fleet(), passage, today);
  // Expected pieces are 4 x rate x 20 / 365.25; the seal's rate alone is assumed.
  expect(answer.assumed.demand).toBeCloseTo(0.3 / (1.2 + 0.7 + 0.3 + 2.5), 3);
  const [, tier] = answer.tiers;
  expect(tier?.withKitRange.low).toBeLessThan(tier?.withKit ?? 0);
  expect(tier?.withKitRange.high).toBeGreaterThan(tier?.withKit ?? 1);
  const doubled = await planKit(await fleet({ seal: 2 }), passage, today);
  expect(answer.assumed.cost.high).toBe(doubled.total.cost.minor);
});

test("a kit for rough passages keeps its targets on them and costs no less; even passages are plain ones", async () => {
  const store = await fleet();
  const answer = await weighDoubt(store, { ...passage, roughShape: 0.4 }, today);
  const [, tier] = answer.tiers;
  expect(tier?.roughWithKit).toBeLessThan(tier?.withKit ?? 0);
  expect(answer.rough.reached).toBe(true);
  expect(answer.rough.cost).toBeGreaterThan(0);
  // The larger kit asked for by its plain target, judged on rough passages again.
  const asked = tier?.roughNominal ?? 0;
  expect(asked).toBeGreaterThan(0.95);
  const larger = await weighDoubt(
    store,
    { ...passage, roughShape: 0.4, targets: { passage: asked } },
    today,
  );
  expect(larger.kit.cost).toBe(answer.kit.cost + answer.rough.cost);
  expect(larger.tiers[1]?.roughWithKit).toBeGreaterThanOrEqual(0.95);
  const even = await weighDoubt(store, { ...passage, roughShape: 1e6 }, today);
  expect(even.tiers[1]?.roughWithKit).toBeCloseTo(even.tiers[1]?.withKit ?? 0, 5);
});

test("tells how far it has come, and stops when told", async () => {
  const store = await fleet();
  const told: number[] = [];
  await weighDoubt(store, passage, today, { progress: (done) => told.push(done) });
  expect(told).toEqual([1, 2, 3, 4]);
  const stop = new AbortController();
  stop.abort(new Error("enough"));
  await expect(weighDoubt(store, passage, today, { signal: stop.signal })).rejects.toThrow(
    "enough",
  );
});

test("is set beside the doubt about an imagined graph", async () => {
  const whatIf = { rates: [{ part: "seal", times: 4 }] };
  const answer = await weighDoubt(await fleet(), { ...passage, whatIf }, today);
  doubtAnswer.parse(answer);
  const entered = await weighDoubt(await fleet({ seal: 4 }), passage, today);
  expect(answer.kit).toEqual(entered.kit);
  const risk = answer.comparison?.figures.find(({ figure }) => figure.includes("assumed"));
  expect(risk?.after).toBeCloseTo(entered.assumed.risk, 12);
  expect(risk?.before).not.toBe(risk?.after);
});
