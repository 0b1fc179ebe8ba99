import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { undoChange } from "../../api/plans/changes/undo-change.ts";
import { findSpares } from "../../api/plans/find-spares.ts";
import { listDue } from "../../api/plans/list-due.ts";
import { planKit } from "../../api/plans/plan-kit.ts";
import { createRecord } from "../../api/plans/records/create-record.ts";
import { editRecord } from "../../api/plans/records/edit-record.ts";
import { recordByWord } from "../../api/plans/records/find-record.ts";
import { linkRecords } from "../../api/plans/records/link-records.ts";
import { reckonHistories } from "../../api/plans/stock/reckon-histories.ts";
import { stowPieces } from "../../api/plans/stock/stow-pieces.ts";
import { usePieces } from "../../api/plans/stock/use-pieces.ts";
import type { GraphStore } from "../../api/store/graph-store.ts";
import { graphPicture } from "../contract/graph-picture.ts";
import { smallApp } from "../http/small-app.ts";

/** The day the small fleet's lists were taken in. */
const imported = "2026-11-20";
const writer = { who: "cook", at: "2026-11-21T09:00:00.000Z" };
const spring = "0040-07";
const seal = "BP12-S";

let store: GraphStore;
beforeEach(async () => {
  ({ store } = await smallApp(true));
});
afterEach(() => store.close());

const stow = (more: object, today = imported) =>
  stowPieces(store, { part: spring, quantity: 1, place: "Box 3", ...more }, today, writer);
const take = (more: object, today = imported) =>
  usePieces(store, { part: spring, quantity: 1, ...more }, today, writer);
const aboard = async (part: string, today = imported) => {
  const { hits } = await findSpares(store, { text: part }, today);
  return (hits[0]?.aboard ?? []).map(
    ({ place, quantity, expires }) => `${quantity} ${place} ${expires ?? "-"}`,
  );
};
const usesLine = async () => {
  const winch = await recordByWord(store, "W40", ["Model"]);
  return (await store.linksFrom(winch.id, "USES"))[0];
};

describe("stowing", () => {
  it("joins like to like, keeps other dates apart, and is undone in one step", async () => {
    const before = await graphPicture(store);
    await stow({ quantity: 2 });
    const dated = await stow({ quantity: 3, expires: "Mar 2028", made: "2026-03-31" });
    expect(dated.lots).toMatchObject([{ pieces: 3, left: 3, expires: "2028-03-31" }]);
    expect(await aboard(spring)).toEqual([
      "3 Saloon › Port settee › Box 3 2028-03-31",
      "8 Saloon › Port settee › Box 3 -",
    ]);
    await undoChange(store, undefined, writer);
    await undoChange(store, undefined, writer);
    expect(await graphPicture(store)).toStrictEqual(before);
  });

  it("moves pieces, part of a lot or all of it, and never more than are there", async () => {
    const lot = [...(await store.knownGraph()).nodes("StockLot").values()].find(
      ({ properties }) => properties["quantity"] === 6,
    );
    const part = await stow({ quantity: 2, place: "Engine room", from: "Box 3" });
    expect(part.taken).toMatchObject([{ pieces: 2, left: 4 }]);
    expect(await aboard(spring)).toEqual(["2 Engine room -", "4 Saloon › Port settee › Box 3 -"]);
    await stow({ quantity: 4, place: "Engine room", from: lot?.id ?? "" });
    expect(await aboard(spring)).toEqual(["6 Engine room -"]);
    await expect(stow({ quantity: 7, from: "Engine room" })).rejects.toMatchObject({
      code: "input-invalid",
      message: expect.stringContaining("holds 6"),
    });
    await stow({ quantity: 6, place: "Forepeak > Bin 1", newPlace: true, from: "Engine room" });
    expect(await aboard(spring)).toEqual(["6 Forepeak › Bin 1 -"]);
    const box = await store.nodeByKey("Locker", "tamarisk\u001fforepeak\u001fbin 1");
    expect(box).toBeDefined();
  });

  it("keeps a lot's identity and unread columns when the whole of it moves to where none is like it", async () => {
    const [lot] = [...(await store.knownGraph()).nodes("StockLot").values()].filter(
      ({ properties }) => properties["quantity"] === 6,
    );
    await stow({ quantity: 6, place: "Engine room", from: "Box 3" });
    const moved = await store.node(lot?.id ?? ("" as never));
    expect(moved?.properties["quantity"]).toBe(6);
    expect(moved?.extra).toEqual(lot?.extra);
  });

  it("names what is near where no locker is called so, and makes none unasked", async () => {
    await expect(stow({ place: "Box 33" })).rejects.toMatchObject({
      code: "not-found",
      message: expect.stringContaining("Box 3"),
    });
    await expect(stow({ expires: "31/02/2027" })).rejects.toMatchObject({ code: "input-invalid" });
    await expect(stow({ part: "0040-99" })).rejects.toMatchObject({ code: "not-found" });
    await expect(stow({ from: "Box 3", expires: "2030-01-01" })).rejects.toMatchObject({
      code: "input-invalid",
    });
    expect(await store.count("Locker")).toBe(4);
  });

  it("says so where a part that perishes is put away without a date", async () => {
    const answer = await stow({ part: "=BP12-A", place: "Engine room" });
    expect(answer.notices).toMatchObject([{ code: "stock-not-usable" }]);
  });
});

describe("using", () => {
  it("takes what falls out of date first, and what does not count only when told to", async () => {
    await stow({ quantity: 2, expires: "2027-06-30" });
    await stow({ quantity: 2, place: "Engine room", expires: "2027-01-31" });
    await stow({ quantity: 1, place: "Engine room", expires: "2026-01-31" });
    const answer = await take({ quantity: 3 });
    expect(answer.taken.map(({ pieces, expires, left }) => [pieces, expires, left])).toEqual([
      [2, "2027-01-31", 0],
      [1, "2027-06-30", 1],
    ]);
    expect(answer.usableLeft).toBe(7);
    await expect(take({ quantity: 8 })).rejects.toMatchObject({
      code: "input-invalid",
      facts: { usable: 7, others: 1 },
    });
    const all = await take({ quantity: 8, outOfDate: true });
    expect(all.taken.at(-1)).toMatchObject({ pieces: 1, expires: "2026-01-31" });
    expect(all.notices).toMatchObject([{ code: "not-usable-taken" }]);
    expect(await aboard(spring)).toEqual([]);
  });

  // 2 items of 4 pieces each in service for 365 days: 8 x 365 / 365.25 = 7.994524 piece-years (by hand).
  it("counts as own history over the time in service of every fitted item of the model", async () => {
    const answer = await take({ for: "Port primary" }, "2027-11-20");
    expect(answer).toMatchObject({ why: "failure", item: { name: "Port primary" } });
    expect(answer.history).toMatchObject({
      usedBefore: 0,
      used: 1,
      yearsBefore: 0,
      pieces: 8,
      from: imported,
      until: "2027-11-20",
    });
    expect(answer.history?.years).toBeCloseTo(7.994524, 5);
    const second = await take({ for: "Starboard primary", quantity: 2 }, "2028-05-20");
    // 182 more days: 8 x (365 + 182) / 365.25 = 11.980835.
    expect(second.history).toMatchObject({ usedBefore: 1, used: 3 });
    expect(second.history?.years).toBeCloseTo(11.980835, 5);
  });

  // Predictive mean of the gamma-Poisson: exposure (a + k) / (b + tau) (Gelman et al., Bayesian Data Analysis, Poisson
  // with a gamma prior). Prior from the stated rate, shape 1/2 (DEVELOPERS.md): 0.9 per 1000 h, 2 items of 4 pieces,
  // 2 h a day, 20 days: mean 0.288 over 8 x 20 / 365.25 piece-years.
  it("teaches demand: the kit is reckoned with the new history", async () => {
    await take({ for: "Port primary" }, "2027-11-20");
    const kit = await planKit(
      store,
      { departs: "2027-12-01", daysLongest: 20, daysExpected: 16 },
      imported,
    );
    const line = kit.lines.find(({ partNumber }) => partNumber === spring);
    const exposure = (8 * 20) / 365.25;
    const b = (0.5 * exposure) / 0.288;
    const tau = (8 * 365) / 365.25;
    expect(line?.evidence).toBe("own history");
    expect(line?.meanDemand).toBeCloseTo((exposure * 1.5) / (b + tau), 5);
  });

  it("does not count time before an item was fitted, nor time before uses were written down", async () => {
    const item = await recordByWord(store, "Port primary", ["FittedItem"]);
    await editRecord(
      store,
      item.id,
      { basedOn: item.version, set: { fittedOn: "2027-10-21" } },
      writer,
    );
    // 4 pieces for 365 days and 4 for 30: 4 x 395 / 365.25 = 4.325804.
    const answer = await take({ for: "Port primary" }, "2027-11-20");
    expect(answer.history?.years).toBeCloseTo(4.325804, 5);
    await undoChange(store, undefined, writer);
    // Since 2025-11-20: 4 x (730 + 30) / 365.25 = 8.323066.
    const since = await take({ for: "Port primary", since: "2025-11-20" }, "2027-11-20");
    expect(since.history).toMatchObject({ from: "2025-11-20" });
    expect(since.history?.years).toBeCloseTo(8.323066, 5);
  });

  it("on the day the line came in counts no time, says so, and is brought forward by reckoning", async () => {
    const answer = await take({ for: "Port primary" });
    expect(answer.history).toMatchObject({ used: 1, years: 0 });
    expect(answer.historyWords).toContain("once time in service has passed");
    const reckoned = await reckonHistories(store, "2027-11-20", writer);
    expect(reckoned).toMatchObject({ lines: 1 });
    expect((await usesLine())?.properties).toMatchObject({
      usedCount: 1,
      historyUntil: "2027-11-20",
    });
    expect(reckoned.yearsAdded).toBeCloseTo(7.994524, 5);
    expect((await reckonHistories(store, "2027-11-20", writer)).sequence).toBeNull();
  });

  it("continues a history that was taken in, from the day its figures were written", async () => {
    const line = await usesLine();
    await linkRecords(
      store,
      { type: "USES", from: line?.from ?? "", to: line?.to ?? "" },
      { basedOn: line?.version ?? 0, set: { usedCount: 5, usedOverYears: 40 } },
      { who: "cook", at: "2027-05-20T00:00:00.000Z" },
    );
    const answer = await take({ for: "Port primary" }, "2027-11-20");
    // 184 days from 20 May: 40 + 8 x 184 / 365.25 = 44.030116.
    expect(answer.history).toMatchObject({ usedBefore: 5, used: 6, from: "2027-05-20" });
    expect(answer.history?.years).toBeCloseTo(44.030116, 5);
  });

  it.each(["service", "wear", "lost", "other"] as const)(
    "for %s is no failure and leaves the line's history alone",
    async (why) => {
      const before = await usesLine();
      const answer = await take({ for: "Port primary", why }, "2027-11-20");
      expect(answer.history).toBeNull();
      expect(answer.historyWords).not.toBe("");
      expect(await usesLine()).toEqual(before);
    },
  );

  it("of a line that only wears out counts as wear unless said otherwise", async () => {
    const line = await usesLine();
    await linkRecords(
      store,
      { type: "USES", from: line?.from ?? "", to: line?.to ?? "" },
      {
        basedOn: line?.version ?? 0,
        set: { rate: null, rateBasis: null, meanLifeHours: "5000 h" },
      },
      writer,
    );
    expect((await take({ for: "Port primary" }, "2027-11-20")).why).toBe("wear");
    const failed = await take({ for: "Port primary", why: "failure" }, "2027-11-20");
    expect(failed.history?.used).toBe(1);
  });

  it("without an item finds the one model aboard that takes it, and asks where it cannot tell", async () => {
    expect((await take({}, "2027-11-20")).history?.model.name).toBe("W40");
    const unknown = await take({ part: seal, for: "Port primary" });
    expect(unknown.history).toBeNull();
    expect(unknown.historyWords).toContain("W40");
  });

  it("of a part that is not aboard names what interchanges with it and is", async () => {
    await linkRecords(
      store,
      { type: "INTERCHANGES_WITH", from: "=BP12-A", to: seal },
      { set: { confidence: "confirmed" } },
      writer,
    );
    await expect(take({ part: "=BP12-A", vessel: "Tamarisk" })).rejects.toMatchObject({
      message: expect.stringContaining("BP12-S (1 usable aboard)"),
    });
  });

  it("is undone whole: pieces, history and service", async () => {
    const before = await graphPicture(store);
    const { sequence } = await take({ for: "Port primary", quantity: 2 }, "2027-11-20");
    await undoChange(store, sequence, writer);
    expect(await graphPicture(store)).toStrictEqual(before);
  });

  it("in a service marks it done at the hours run", async () => {
    const model = await recordByWord(store, "BP-12", ["Model"]);
    await createRecord(
      store,
      {
        label: "ServiceTask",
        set: { name: "Change seal", interval: "500 h / 12 months" },
        links: { SERVICE_OF: model.id },
      },
      writer,
    );
    const answer = await take(
      { part: seal, for: "Bilge pump", service: "change", hours: 610 },
      "2027-11-20",
    );
    expect(answer).toMatchObject({ why: "service", service: { name: "Change seal" } });
    const item = await recordByWord(store, "Bilge pump", ["FittedItem"]);
    expect(item.properties["hoursRun"]).toBe(610);
    expect((await store.linksFrom(item.id, "SERVICED"))[0]?.properties).toEqual({
      lastDone: "2027-11-20",
      lastDoneHours: 610,
    });
    await expect(take({ for: "Bilge pump", service: "paint" })).rejects.toMatchObject({
      code: "not-found",
    });
    await expect(take({ service: "change" })).rejects.toMatchObject({
      code: "input-invalid",
    });
  });
});

describe("what falls due", () => {
  const withService = async (interval: string, lastDone?: object) => {
    const model = await recordByWord(store, "BP-12", ["Model"]);
    const made = await createRecord(
      store,
      {
        label: "ServiceTask",
        set: { name: "Change seal", interval },
        links: { SERVICE_OF: model.id },
      },
      writer,
    );
    const link = (type: string, from: string, to: string, set: Record<string, string | number>) =>
      linkRecords(store, { type, from, to }, { set }, writer);
    await link("CONSUMES", made.record.id, seal, { quantity: 1 });
    if (lastDone !== undefined) {
      const item = await recordByWord(store, "Bilge pump", ["FittedItem"]);
      await link("SERVICED", item.id, made.record.id, { ...lastDone });
    }
  };

  it("are lots until arrival of the next crossing: out of date, perishing without a date, falling due", async () => {
    // The crossing leaves on 2026-12-05 and takes 20 days at longest: 2026-12-25.
    await stow({ quantity: 4, expires: "2026-12-25" });
    await stow({ quantity: 5, expires: "2026-12-26" });
    await stow({ part: "=BP12-A", place: "Engine room", quantity: 3 });
    const answer = await listDue(store, {}, imported);
    expect(answer.until).toBe("2026-12-25");
    expect(answer.lots.map(({ quantity, state, lastDay }) => [quantity, state, lastDay])).toEqual([
      [3, "date unknown", null],
      [2, "out of date", "2020-05-01"],
      [4, "falls due", "2026-12-25"],
    ]);
    expect(answer.cautions.length).toBeGreaterThan(3);
    const later = await listDue(store, { until: "2026-12-26" }, imported);
    expect(later.lots).toHaveLength(4);
    await expect(listDue(store, { vessel: "Nobody" }, imported)).rejects.toMatchObject({
      code: "not-found",
    });
  });

  it("are services by months on their very day, with what they use up and whether it is aboard", async () => {
    await withService("12 months", { lastDone: "2025-12-10" });
    const answer = await listDue(store, {}, imported);
    expect(answer.services).toMatchObject([
      { dueOn: "2026-12-10", overdue: false, assumed: false, times: 1, ready: true },
    ]);
    expect(answer.services[0]?.consumes).toMatchObject([
      { part: { name: seal }, quantity: 1, aboard: 1, enough: true },
    ]);
    expect((await listDue(store, { until: "2026-12-09" }, imported)).services).toEqual([]);
    const after = await listDue(store, { until: "2027-01-31" }, "2026-12-11");
    expect(after.services).toMatchObject([{ dueOn: "2026-12-10", overdue: true }]);
  });

  // The pump runs 1 h a day from departure on 2026-12-05; 490 of 500 h are run: due 10 days out.
  it("are services by hours from departure on, and short of parts when none is usable", async () => {
    await withService("500 h", { lastDoneHours: 0 });
    const item = await recordByWord(store, "Bilge pump", ["FittedItem"]);
    await editRecord(store, item.id, { basedOn: item.version, set: { hoursRun: 490 } }, writer);
    await take({ part: seal, why: "other" });
    const answer = await listDue(store, {}, imported);
    expect(answer.services).toMatchObject([
      {
        dueOn: "2026-12-15",
        overdue: false,
        ready: false,
        consumes: [{ aboard: 0, enough: false }],
      },
    ]);
    expect(answer.sentence).toContain("1 of them short of parts");
  });

  it("are services nobody knows the last time of, at once and marked so", async () => {
    await withService("12 months");
    expect((await listDue(store, {}, imported)).services).toMatchObject([
      { dueOn: null, overdue: true, assumed: true, times: 1 },
    ]);
  });
});
