import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { chooseGear } from "../../api/plans/choose-gear.ts";
import { measureCommonality } from "../../api/plans/measure-commonality.ts";
import { planKit } from "../../api/plans/plan-kit.ts";
import { rankSuppliers } from "../../api/plans/rank-suppliers.ts";
import type { GraphStore } from "../../api/store/graph-store.ts";
import { openStore } from "../../api/store/open-store.ts";
import type { NodeId } from "../../graph-schema/index.ts";
import { GraphSketch } from "../tools/graph-sketch.ts";

let store: GraphStore;
beforeEach(async () => {
  store = await openStore({ db: ":memory:", env: {} });
});
afterEach(async () => {
  await store.close();
});

const today = "2026-11-25";
const crossing = { daysExpected: 16, daysLongest: 20, departs: "2027-01-10" } as const;
const failing = { quantity: 1, rate: 0.4 / 0.48, rateBasis: "1000 hours", rateSource: "maker" };

/**
 * A boat whose pump (safety) takes PUMP-1 and whose fan (comfort) takes FAN-1, each failing 0.4 times in twenty days;
 * nine pieces of SPARE-1 and of SPARE-2, which nothing takes by itself, are aboard.
 */
function boat(pumpTier = "safety") {
  const sketch = new GraphSketch();
  const vessel = sketch.vessel("Ysolvane");
  const parts = new Map<string, NodeId>();
  const part = (name: string, properties = {}): NodeId => {
    const id = parts.get(name) ?? sketch.part(name, properties);
    parts.set(name, id);
    return id;
  };
  const gear = (kind: string, tier: string): NodeId => {
    const model = sketch.model(`${kind} of old`, kind);
    const item = sketch.item(`${kind} aft`, vessel, model, { hoursPerDay: 24 });
    sketch.duty(`Work the ${kind}`, vessel, tier, 1, [item]);
    sketch.link("USES", model, part(`${kind.toUpperCase()}-1`), failing);
    return model;
  };
  const models = { pump: gear("pump", pumpTier), fan: gear("fan", "comfort") };
  const supplier = sketch.supplier("Nordquay Stores");
  for (const name of ["PUMP-1", "FAN-1"])
    sketch.link("OFFERS", supplier, part(name), { priceMinor: 900, currency: "EUR" });
  for (const name of ["SPARE-1", "SPARE-2"]) sketch.stock(part(name), vessel, 9);
  const pair = (a: string, b: string, sure?: string): void =>
    sketch.link(
      "INTERCHANGES_WITH",
      part(a),
      part(b),
      sure === undefined ? {} : { confidence: sure },
    );
  return { sketch, vessel, part, models, pair };
}

async function kitFor(name: string, more = {}) {
  const kit = await planKit(store, { ...crossing, ...more }, today);
  const line = kit.lines.find((one) => one.partNumber === name);
  const apart = kit.notices.filter(({ code }) => code === "interchange-safety-apart");
  if (line === undefined) throw new Error(`${name} is not asked for`);
  return { kit, line, apart: apart.map(({ text }) => text) };
}

describe("a pair that is not confirmed", () => {
  test.each(["likely", undefined])(
    "marked %s pools comfort gear, but not safety gear",
    async (sure) => {
      const { sketch, pair } = boat();
      pair("PUMP-1", "SPARE-1", sure);
      pair("FAN-1", "SPARE-2", sure);
      await sketch.into(store);
      const { line, apart } = await kitFor("PUMP-1");
      expect(line.aboard).toBe(0);
      expect(line.buy).toBeGreaterThan(0);
      expect((await kitFor("FAN-1")).line.aboard).toBe(9);
      expect(apart).toEqual([
        "1 interchange touches safety gear and is not confirmed, so these parts are kept apart: Quillmark PUMP-1 and Quillmark SPARE-1. Confirm it if the maker says so; their stock, demand and offers then count together.",
      ]);
    },
  );

  test("pools once it is confirmed", async () => {
    const { sketch, pair } = boat();
    pair("PUMP-1", "SPARE-1", "confirmed");
    await sketch.into(store);
    const { line, apart } = await kitFor("PUMP-1");
    expect([line.aboard, apart]).toEqual([9, []]);
  });

  test("pools where nothing of safety rests on the pump", async () => {
    const { sketch, pair } = boat("passage");
    pair("PUMP-1", "SPARE-1", "likely");
    await sketch.into(store);
    expect((await kitFor("PUMP-1")).line.aboard).toBe(9);
  });

  test.each([0, 1])(
    "brings no stranger in behind a confirmed one, said in order %i",
    async (order) => {
      const { sketch, pair } = boat();
      const said = [
        () => pair("PUMP-1", "SPARE-1", "confirmed"),
        () => pair("SPARE-1", "SPARE-2", "likely"),
      ];
      for (const say of order === 0 ? said : said.toReversed()) say();
      await sketch.into(store);
      const { line, apart } = await kitFor("PUMP-1");
      expect(line.aboard).toBe(9);
      expect(apart).toHaveLength(1);
      expect(apart[0]).toContain("Quillmark SPARE-1 and Quillmark SPARE-2");
    },
  );

  test("keeps apart what is marked as safety gear, what its service takes, what a new number ties to it", async () => {
    const { sketch, pair, part, models } = boat();
    part("MARKED", { isSafety: true });
    pair("FAN-1", "MARKED");
    const service = sketch.node("ServiceTask", "S", { name: "Yearly", intervalMonths: 12 });
    sketch.link("SERVICE_OF", service, models.pump);
    sketch.link("CONSUMES", service, part("SEAL"), { quantity: 1 });
    pair("SEAL", "SPARE-1", "likely");
    sketch.link("SUPERSEDED_BY", part("PUMP-1"), part("PUMP-2"));
    pair("PUMP-2", "SPARE-2", "likely");
    await sketch.into(store);
    const { apart } = await kitFor("PUMP-1");
    expect(apart).toHaveLength(1);
    expect(apart[0]).toMatch(/^3 interchanges touch safety gear and are not confirmed/);
    for (const name of ["MARKED", "SEAL", "PUMP-2"]) expect(apart[0]).toContain(name);
    expect((await kitFor("FAN-1")).line.alternates).toEqual([]);
  });

  test("is left out with all others where only confirmed ones are wanted", async () => {
    const { sketch, pair } = boat();
    pair("PUMP-1", "SPARE-1", "likely");
    await sketch.into(store);
    const { kit, apart } = await kitFor("PUMP-1", { confirmedOnly: true });
    expect(apart).toEqual([]);
    expect(kit.notices.map(({ code }) => code)).toContain("interchange-unconfirmed");
  });
});

describe("the same classes everywhere", () => {
  test("commonality and suppliers tell of the pair, and a vessel's figures are its own", async () => {
    const { sketch, models, pair } = boat();
    pair("PUMP-1", "FAN-1", "likely");
    // Another boat with the same makes, on which nothing of safety rests on the pump.
    const other = sketch.vessel("Quorrelind");
    for (const [kind, model] of Object.entries(models)) sketch.item(`${kind} fore`, other, model);
    await sketch.into(store);
    const fleet = await measureCommonality(store, {});
    expect(fleet.whole.distinctParts).toBe(2);
    const suppliers = await rankSuppliers(store, {});
    expect(suppliers.gear.parts).toBe(2);
    for (const { notices } of [fleet, suppliers])
      expect(notices.map(({ code }) => code)).toContain("interchange-safety-apart");
    for (const [vessel, parts] of [
      ["Ysolvane", 2],
      ["Quorrelind", 1],
    ] as const) {
      const alone = await measureCommonality(store, { vessel });
      expect(alone.whole.distinctParts, vessel).toBe(parts);
      expect(fleet.vessels.find((one) => one.vessel.name === vessel)).toMatchObject(alone.whole);
    }
  });

  test("gear tried where safety rests on it shares no unconfirmed stock", async () => {
    const { sketch, pair, part } = boat();
    const rival = sketch.model("pump of another make", "pump");
    sketch.link("USES", rival, part("RIVAL-1"), failing);
    // Said to fit the rival pump, of which no spare is aboard by its own number.
    pair("RIVAL-1", "SPARE-1", "likely");
    await sketch.into(store);
    const choice = await chooseGear(
      store,
      { ...crossing, vessel: "Ysolvane", replace: ["pump aft"], turning: false },
      today,
    );
    const tried = choice.candidates.find(({ model }) => model.name.includes("another make"));
    const { kit: after, apart } = await kitFor("RIVAL-1", {
      whatIf: { replace: [{ item: "pump aft", model: "pump of another make" }] },
    });
    expect(tried?.kit?.cost).toEqual(after.total.cost);
    expect(after.lines.find(({ partNumber }) => partNumber === "RIVAL-1")?.aboard).toBe(0);
    expect(apart).toHaveLength(1);
  });
});
