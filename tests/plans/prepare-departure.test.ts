import { afterEach, beforeEach, expect, test } from "vitest";
import { prepareAnswer } from "../../api/contract/prepare.contract.ts";
import { planKit } from "../../api/plans/plan-kit.ts";
import { prepareDeparture } from "../../api/plans/prepare-departure.ts";
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

/** An engine at 10 h a day with a 250 h service last done `since` hours ago, and a belt that wears out. */
function engineBoat(since: number) {
  const sketch = new GraphSketch();
  const boat = sketch.vessel("Ysolvane");
  const supplier = sketch.supplier("Nordquay Stores");
  const engine = sketch.model("BR-1");
  const item = sketch.item("Main engine", boat, engine, { hoursPerDay: 10, hoursRun: 900 });
  const filter = sketch.part("FILTER", { massKg: 0.4 });
  const belt = sketch.part("BELT", { massKg: 0.2 });
  sketch.link("OFFERS", supplier, filter, { priceMinor: 1500, currency: "EUR" });
  sketch.link("OFFERS", supplier, belt, { priceMinor: 4000, currency: "EUR" });
  const service = sketch.node("ServiceTask", "250 h", {
    name: "Oil and filter",
    intervalHours: 250,
  });
  sketch.link("SERVICE_OF", service, engine);
  sketch.link("CONSUMES", service, filter, { quantity: 1 });
  sketch.link("SERVICED", item, service, { lastDoneHours: 900 - since });
  sketch.link("USES", engine, belt, {
    quantity: 1,
    failureEffect: "stop",
    meanLifeHours: 1000,
    weibullShape: 5,
    rateSource: "maker",
  });
  return { sketch, item, belt, filter, engine, service } as const;
}

/** What the kit costs in a graph changed by hand: the oracle for what a job is said to save. */
async function costAfter(change: (boat: ReturnType<typeof engineBoat>) => void): Promise<number> {
  const boat = engineBoat(100);
  change(boat);
  const other = await openStore({ db: ":memory:", env: {} });
  await boat.sketch.into(other);
  const kit = await planKit(other, crossing, today);
  await other.close();
  return kit.total.cost.minor;
}

test("a service that falls due on passage saves the kit its parts if done in port", async () => {
  const { sketch, item } = engineBoat(100);
  await sketch.into(store);
  const answer = prepareAnswer.parse(await prepareDeparture(store, crossing, today));
  // 150 h left at 10 h a day: due on day 15; done before leaving it falls due after 25 days.
  const job = answer.jobs.find(({ kind }) => kind === "service");
  expect(job).toMatchObject({
    item: { id: item, name: "Main engine" },
    what: "Oil and filter",
    dueOn: "2027-01-25",
    overdue: false,
    assumed: false,
    takes: [{ part: { name: "FILTER" }, pieces: 1 }],
    takesCost: { minor: 1500, currency: "EUR" },
    saves: { cost: { minor: 1500 }, pieces: 1, massKg: 0.4 },
  });
  expect(answer.kit.cost.minor).toBe((await planKit(store, crossing, today)).total.cost.minor);
  expect(answer.looked).toBe(2);
});

test("renewing a wearing piece saves what the kit of a graph with a new one costs less", async () => {
  const { sketch } = engineBoat(100);
  await sketch.into(store);
  const answer = await prepareDeparture(store, crossing, today);
  const before = await costAfter(() => undefined);
  const renewed = await costAfter(({ sketch: own, item, engine, belt }) => {
    const once = own.node("ServiceTask", "renewal", {
      name: "Renew the belt",
      intervalHours: 99_999,
    });
    own.link("SERVICE_OF", once, engine);
    own.link("CONSUMES", once, belt, { quantity: 1 });
    own.link("SERVICED", item, once, { lastDoneHours: 900, lastDone: "2027-01-10" });
  });
  const job = answer.jobs.find(({ kind }) => kind === "replacement");
  expect(before).toBeGreaterThan(renewed);
  expect(job?.saves.cost.minor).toBe(before - renewed);
  expect(job?.what).toBe("BELT");
  expect(answer.all.saves.cost.minor).toBe(1500 + before - renewed);
  expect(answer.jobs.map(({ saves }) => saves.cost.minor)).toEqual(
    answer.jobs.map(({ saves }) => saves.cost.minor).toSorted((a, b) => b - a),
  );
  // The graph itself is as it was.
  expect((await planKit(store, crossing, today)).total.cost.minor).toBe(before);
});

test("says overdue, not known, and nothing to do", async () => {
  const overdue = engineBoat(400);
  await overdue.sketch.into(store);
  const answer = await prepareDeparture(store, crossing, today);
  expect(answer.jobs.find(({ kind }) => kind === "service")).toMatchObject({
    overdue: true,
    assumed: false,
  });

  const unknown = await openStore({ db: ":memory:", env: {} });
  const sketch = new GraphSketch();
  const boat = sketch.vessel("Ysolvane");
  const engine = sketch.model("BR-1");
  const items: NodeId[] = [sketch.item("Main engine", boat, engine, { hoursPerDay: 1 })];
  const filter = sketch.part("FILTER");
  const service = sketch.node("ServiceTask", "250 h", {
    name: "Oil and filter",
    intervalHours: 250,
  });
  sketch.link("SERVICE_OF", service, engine);
  sketch.link("CONSUMES", service, filter, { quantity: 1 });
  expect(items).toHaveLength(1);
  await sketch.into(unknown);
  const guessed = await prepareDeparture(unknown, crossing, today);
  await unknown.close();
  // Hours and last service unknown: done in port it falls due after 250 days, not at once.
  expect(guessed.jobs).toMatchObject([{ assumed: true, overdue: false, saves: { pieces: 1 } }]);

  const idle = await openStore({ db: ":memory:", env: {} });
  const bare = new GraphSketch();
  bare.item("Cleat", bare.vessel("Ysolvane"), bare.model("CL-1"));
  await bare.into(idle);
  const none = await prepareDeparture(idle, crossing, today);
  await idle.close();
  expect(none).toMatchObject({ looked: 0, jobs: [], all: { saves: { pieces: 0 } } });
  expect(none.sentence).toContain("nothing need be done first");
});

test("tells how far it is and stops when asked", async () => {
  const { sketch } = engineBoat(100);
  await sketch.into(store);
  const seen: number[] = [];
  await prepareDeparture(store, crossing, today, {
    progress: (done, total) => seen.push(done / total),
  });
  expect(seen.at(-1)).toBe(1);
  expect(seen.toSorted((a, b) => a - b)).toEqual(seen);
  const gone = new AbortController();
  gone.abort(new Error("gone"));
  await expect(prepareDeparture(store, crossing, today, { signal: gone.signal })).rejects.toThrow(
    "gone",
  );
});
