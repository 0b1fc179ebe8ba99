import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { prepareAnswer } from "../../api/contract/prepare.contract.ts";
import { readinessAnswer } from "../../api/contract/readiness.contract.ts";
import { dueAnswer } from "../../api/contract/stock.contract.ts";
import { voyageAnswer } from "../../api/contract/voyage.contract.ts";
import type { Comparison, WhatIf } from "../../api/contract/what-if.contract.ts";
import { listDue } from "../../api/plans/list-due.ts";
import { planKit } from "../../api/plans/plan-kit.ts";
import { planVoyage } from "../../api/plans/plan-voyage.ts";
import { prepareDeparture } from "../../api/plans/prepare-departure.ts";
import { surveyReadiness } from "../../api/plans/survey-readiness.ts";
import type { GraphStore } from "../../api/store/graph-store.ts";
import { openStore } from "../../api/store/open-store.ts";
import { fitForGood } from "../tools/fit-for-good.ts";
import { GraphSketch } from "../tools/graph-sketch.ts";
import { randomFleet } from "../tools/random-fleet.ts";

const today = "2026-11-25";
const departs = "2027-01-10";

let store: GraphStore;
beforeEach(async () => {
  store = await openStore({ db: ":memory:", env: {} });
});
afterEach(async () => {
  await store.close();
});

const legs = [
  { to: "Praia", days: 3, longestDays: 5, stayDays: 4, country: "Cabo Verde" },
  { to: "Bridgetown", days: 15, longestDays: 20 },
];

interface Answered {
  readonly comparison?: Comparison | undefined;
}

/** Each plan asked of a store, its answer read by its own contract, and the day on which it fits new gear. */
const plans: Readonly<
  Record<
    string,
    {
      readonly fittedOn: string;
      readonly ask: (of: GraphStore, days: number, whatIf?: WhatIf) => Promise<Answered>;
    }
  >
> = {
  prepare: {
    fittedOn: departs,
    ask: async (of, days, whatIf) =>
      prepareAnswer.parse(
        await prepareDeparture(
          of,
          { departs, daysExpected: days, daysLongest: days, whatIf },
          today,
        ),
      ),
  },
  voyage: {
    fittedOn: departs,
    ask: async (of, _days, whatIf) =>
      voyageAnswer.parse(await planVoyage(of, { departs, from: "Mindelo", legs, whatIf }, today)),
  },
  // No crossing lies ahead of these fleets, so both go by today.
  due: {
    fittedOn: today,
    ask: async (of, _days, whatIf) => dueAnswer.parse(await listDue(of, { whatIf }, today)),
  },
  overview: {
    fittedOn: today,
    ask: async (of, _days, whatIf) =>
      readinessAnswer.parse(await surveyReadiness(of, { whatIf }, today)),
  },
};

// The reference is the graph changed in earnest and asked again.
describe.each(Object.entries(plans))("what if: %s", (_name, { fittedOn, ask }) => {
  test.each([1, 2, 3, 4, 5])(
    "says what the graph changed in earnest says, fleet %i",
    async (seed) => {
      const { sketch, days } = randomFleet(seed);
      await sketch.into(store);
      const snapshot = await store.snapshot();
      const item = String(snapshot.items.id[0]);
      const now = snapshot.models.id[snapshot.items.model[0] ?? 0];
      const model = snapshot.models.id.map(String).find((id) => id !== now) ?? String(now);
      const sequence = await store.sequence();
      const before = await ask(store, days);
      const { comparison, ...imagined } = await ask(store, days, { replace: [{ item, model }] });
      expect(await store.sequence()).toBe(sequence);
      await fitForGood(store, item, model, fittedOn);
      expect(imagined).toEqual(await ask(store, days));
      expect(comparison?.changes).toHaveLength(1);
      const moved = JSON.stringify(imagined) !== JSON.stringify(before);
      const { figures = [], parts = [], listed = [] } = comparison ?? {};
      if (!moved) {
        expect(figures.filter(({ difference }) => difference !== 0 && difference !== null)).toEqual(
          [],
        );
        expect([parts, listed]).toEqual([[], []]);
      }
    },
  );

  test("imagines nothing and finds no difference", async () => {
    const { sketch, days } = randomFleet(2);
    await sketch.into(store);
    const { comparison, ...imagined } = await ask(store, days, {});
    expect(imagined).toEqual(await ask(store, days));
    expect(comparison).toMatchObject({ changes: ["Nothing is changed."], parts: [] });
    expect(comparison?.listed ?? []).toEqual([]);
    expect(comparison?.figures.length).toBeGreaterThan(3);
    for (const { before, after } of comparison?.figures ?? []) expect(after).toBe(before);
  });

  test("refuses an item that is not there, naming what is", async () => {
    const { sketch, days } = randomFleet(2);
    await sketch.into(store);
    await expect(ask(store, days, { remove: [{ item: "Mizzen" }] })).rejects.toMatchObject({
      code: "not-found",
      message: expect.stringMatching(/There are: "F0/),
    });
  });
});

/** Two engines whose 250 h service takes a filter; the generator was never serviced, its rival has no services at all. */
async function engineBoat(): Promise<void> {
  const sketch = new GraphSketch();
  const boat = sketch.vessel("Ysolvane");
  const other = sketch.vessel("Tamarisk");
  const engine = sketch.model("BR-1", "engine");
  const rival = sketch.model("NV-2", "engine");
  const filter = sketch.part("FILTER");
  const impeller = sketch.part("IMPELLER");
  const quay = sketch.supplier("Nordquay");
  for (const part of [filter, impeller])
    sketch.link("OFFERS", quay, part, { priceMinor: 1200, currency: "EUR" });
  const service = sketch.node("ServiceTask", "250 h", { name: "Filters", intervalHours: 250 });
  sketch.link("SERVICE_OF", service, engine);
  sketch.link("CONSUMES", service, filter, { quantity: 2 });
  for (const model of [engine, rival])
    sketch.link("USES", model, impeller, { quantity: 1, rate: 2, rateBasis: "year" });
  const port = sketch.item("Port engine", boat, engine, { hoursPerDay: 10, hoursRun: 300 });
  sketch.item("Generator", boat, engine, { hoursPerDay: 4, hoursRun: 800 });
  sketch.item("Engine of Tamarisk", other, engine, { hoursPerDay: 10, hoursRun: 300 });
  sketch.link("SERVICED", port, service, { lastDone: "2026-06-01", lastDoneHours: 250 });
  for (const [name, sails, leaves] of [
    ["Westward", boat, "2026-12-05"],
    ["Southward", other, "2027-03-01"],
  ] as const) {
    const crossing = sketch.node("Crossing", name, {
      name,
      departs: leaves,
      daysExpected: 16,
      daysLongest: 24,
    });
    sketch.link("SAILED_BY", crossing, sails);
  }
  await sketch.into(store);
}

const difference = ({ comparison }: Answered, figure: string): number | null | undefined =>
  comparison?.figures.find((one) => one.figure === figure)?.difference;

test("new gear counts as serviced when fitted, so its service goes from the list", async () => {
  await engineBoat();
  const before = await listDue(store, { vessel: "Ysolvane" }, today);
  // The generator's service was never written down: due at once. The port engine has 50 h of 250 behind it and
  // runs 10 a day of the 24 of the longest case.
  expect(before.services.map(({ item, dueOn }) => [item.name, dueOn])).toEqual([
    ["Generator", null],
    ["Port engine", "2026-12-25"],
  ]);
  const after = dueAnswer.parse(
    await listDue(
      store,
      { vessel: "Ysolvane", whatIf: { replace: [{ item: "Generator", model: "BR-1" }] } },
      today,
    ),
  );
  // New on the day of departure, 4 h a day for 24 days: 96 h of 250.
  expect(after.services.map(({ item }) => item.name)).toEqual(["Port engine"]);
  expect(difference(after, "services that fall due")).toBe(-1);
  expect(difference(after, "pieces they use up")).toBe(-2);
  expect(after.comparison?.listed).toMatchObject([
    { what: "Generator, Filters", before: expect.stringMatching(/not known/), after: null },
  ]);
  expect(after.comparison?.notices[0]).toContain("2026-12-05");
});

test("gear that is added brings its services, and gear of another make takes them along", async () => {
  await engineBoat();
  const added = await listDue(
    store,
    {
      until: "2027-06-01",
      whatIf: { add: [{ position: "Tamarisk: Genset", model: "BR-1", hoursPerDay: 24 }] },
    },
    today,
  );
  expect(added.comparison?.listed?.map(({ what, before }) => [what, before])).toEqual([
    ["Genset, Filters", null],
  ]);
  const changed = await listDue(
    store,
    { whatIf: { replace: [{ item: "Ysolvane: Port engine", model: "NV-2" }] } },
    today,
  );
  expect(changed.comparison?.listed?.find(({ what }) => what.startsWith("Port"))?.after).toBe(null);
});

test("readiness is that of the kit as imagined, and moves for the vessel concerned only", async () => {
  await engineBoat();
  const whatIf: WhatIf = {
    rates: [{ part: "IMPELLER", times: 30 }],
    remove: [{ item: "Ysolvane: Generator" }],
  };
  const answer = readinessAnswer.parse(await surveyReadiness(store, { whatIf }, today));
  for (const one of answer.vessels) {
    const kit = await planKit(store, { vessel: one.vessel.id, whatIf }, today);
    expect(one.toBuy.pieces).toBe(kit.total.buyPieces);
    expect(one.tiers.map(({ withAboard }) => withAboard)).toEqual(
      kit.tiers.map(({ withAboard }) => withAboard),
    );
  }
  expect(difference(answer, "Ysolvane: items fitted")).toBe(-1);
  expect(difference(answer, "Tamarisk: items fitted")).toBe(0);
  const alone = await surveyReadiness(
    store,
    { whatIf: { remove: [{ item: "Generator" }] } },
    today,
  );
  expect(alone.comparison?.sentence).toMatch(/^With the change Ysolvane/);
  expect(alone.comparison?.sentence).not.toContain("Tamarisk");
  expect(difference(alone, "Tamarisk: pieces to buy")).toBe(0);
  expect(alone.comparison?.listed?.every(({ what }) => what.startsWith("Ysolvane"))).toBe(true);
});

test("a supplier lost on a voyage is lost at its port of call too", async () => {
  const sketch = new GraphSketch();
  const boat = sketch.vessel("Ysolvane");
  const pump = sketch.model("P-1", "pump");
  const part = sketch.part("IMPELLER");
  sketch.link("USES", pump, part, { quantity: 1, rate: 12, rateBasis: "year" });
  sketch.item("Raw water pump", boat, pump);
  const home = sketch.node("Supplier", "Homequay", { name: "Homequay", country: "Portugal" });
  const away = sketch.node("Supplier", "Ilhaquay", { name: "Ilhaquay", country: "Cabo Verde" });
  for (const supplier of [home, away])
    sketch.link("OFFERS", supplier, part, { priceMinor: 1000, currency: "EUR", leadTimeDays: 1 });
  await sketch.into(store);
  const asked = { departs, from: "Lisbon", legs, reliability: 1 };
  const before = await planVoyage(store, asked, today);
  expect(before.departures[1]?.supplies.parts).toBe(1);
  const answer = voyageAnswer.parse(
    await planVoyage(store, { ...asked, whatIf: { loseSuppliers: ["Ilhaquay"] } }, today),
  );
  expect(answer.departures[1]?.supplies.parts).toBe(0);
  expect(difference(answer, "at Praia: parts that can be had")).toBe(-1);
  // Without the call the first departure must carry the whole voyage: the kit "without calls" of the graph as it is.
  expect(answer.departures[0]?.kit).toEqual(before.withoutCalls);
  expect(answer.comparison?.parts.map(({ part: name }) => name).toSorted()).toEqual([
    "at Praia: IMPELLER",
    "leaving Lisbon: IMPELLER",
  ]);
  expect(answer.comparison?.sentence).toContain("changes at Praia");
});

test("a departure prepared: new gear has no service left to do before leaving", async () => {
  await engineBoat();
  const whatIf: WhatIf = { replace: [{ item: "Generator", model: "BR-1" }] };
  const heard: (readonly [number, number])[] = [];
  const answer = prepareAnswer.parse(
    await prepareDeparture(store, { vessel: "Ysolvane", whatIf }, today, {
      progress: (done, total) => heard.push([done, total]),
    }),
  );
  expect(answer.jobs.map(({ item }) => item.name)).toEqual(["Port engine"]);
  expect(difference(answer, "pieces of work tried")).toBe(-1);
  expect(answer.comparison?.listed).toMatchObject([{ what: "Generator: Filters", after: null }]);
  const done = heard.map(([one]) => one);
  expect(done).toEqual(done.toSorted((a, b) => a - b));
  expect(heard.at(-1)?.[0]).toBe(heard.at(-1)?.[1]);
});
