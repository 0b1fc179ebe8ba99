import { afterEach, beforeEach, expect, test } from "vitest";
import { planKit } from "../../api/plans/plan-kit.ts";
import type { GraphStore } from "../../api/store/graph-store.ts";
import { openStore } from "../../api/store/open-store.ts";
import { GraphSketch } from "../tools/graph-sketch.ts";

let store: GraphStore;
beforeEach(async () => {
  store = await openStore({ db: ":memory:", env: {} });
  const sketch = new GraphSketch();
  const boat = sketch.vessel("Ysolvane");
  const model = sketch.model("P-1");
  const part = sketch.part("IMPELLER", { massKg: 2, description: "Impeller" });
  const pump = sketch.item("Pump", boat, model, { hoursPerDay: 24 });
  sketch.duty("Keep her dry", boat, "safety", 1, [pump]);
  sketch.link("USES", model, part, {
    quantity: 1,
    rate: 0.1 / 0.024,
    rateBasis: "1000 hours",
    rateSource: "maker",
  });
  sketch.link("OFFERS", sketch.supplier("Nordquay Stores"), part, {
    priceMinor: 1000,
    currency: "EUR",
  });
  await sketch.into(store);
});
afterEach(async () => {
  await store.close();
});

const asked = {
  departs: "2027-01-10",
  daysExpected: 16,
  daysLongest: 20,
  objective: "mass",
} as const;
const today = "2026-11-25";

test("the sentence speaks in the units asked for; the figures stay in kilograms", async () => {
  const metric = await planKit(store, asked, today);
  const imperial = await planKit(store, { ...asked, units: "imperial" }, today);
  const { massKg, buyPieces } = metric.total;
  expect(massKg).toBe(2 * buyPieces);
  expect(metric.sentence).toContain(` and ${massKg} kg,`);
  // NIST SP 811 (2008), appendix B.9: 1 lb = 0.453 592 4 kg.
  expect(imperial.sentence).toContain(` and ${Math.round(massKg / 0.453_592_4)} lb,`);
  expect(imperial.sentence).not.toMatch(/\bkg\b/);
  expect({ ...imperial, sentence: "", units: "" }).toEqual({ ...metric, sentence: "", units: "" });
});

test("what a cap lacks is worded in the units asked for", async () => {
  const short = await planKit(
    store,
    { ...asked, units: "imperial", caps: { massKg: 1 }, targets: { safety: 0.99 } },
    today,
  );
  const [lack] = short.sale.shortfalls;
  expect(lack?.words).toMatch(/ needs [\d.]+ lb of mass; the cap allows 2\.205 lb, /);
  expect(lack?.inTheWay[0]?.words).toMatch(/ lb$/);
  expect(short.sale.caps[0]).toMatchObject({ unit: "kg", allowed: 1 });
});
