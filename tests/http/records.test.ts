import request from "supertest";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import {
  changeDetail,
  historyAnswer,
  undoChangeAnswer,
} from "../../api/contract/history.contract.ts";
import {
  changeAnswer,
  deleteAnswer,
  dependantsAnswer,
  linkAnswer,
  recordAnswer,
  recordsAnswer,
} from "../../api/contract/records.contract.ts";
import { graphPicture } from "../contract/graph-picture.ts";
import { checked } from "./checked.ts";
import { type SmallApp, smallApp } from "./small-app.ts";

let fleet: SmallApp;
beforeEach(async () => {
  fleet = await smallApp(true);
});
afterEach(() => fleet.store.close());

const list = async (query: object) =>
  checked(
    await request(fleet.app).get("/api/records").query(query),
    "/api/records",
    "get",
    recordsAnswer,
  );
const show = async (id: string) =>
  checked(
    await request(fleet.app).get(`/api/records/${encodeURIComponent(id)}`),
    "/api/records/{id}",
    "get",
    recordAnswer,
  );
const edit = (id: string, body: object) =>
  request(fleet.app)
    .patch(`/api/records/${encodeURIComponent(id)}`)
    .send(body);
const edited = async (id: string, body: object) =>
  checked(await edit(id, body), "/api/records/{id}", "patch", changeAnswer);
const undo = async (sequence: number | null) =>
  checked(
    await request(fleet.app).post(`/api/history/${sequence}/undo`),
    "/api/history/{sequence}/undo",
    "post",
    undoChangeAnswer,
  );
const partCalled = async (partNumber: string) => {
  const { rows } = await list({ label: "Part", where: `partNumber=${partNumber}` });
  const [row] = rows;
  if (row === undefined) throw new Error(`no part ${partNumber}`);
  return row;
};

describe("lists of records", () => {
  it("give any label page by page, each record with what it belongs to", async () => {
    const first = await list({ label: "part", limit: 2 });
    expect(first).toMatchObject({ label: "Part", total: 3, offset: 0, limit: 2 });
    expect(first.rows).toHaveLength(2);
    expect(first.rows[0]?.owners).toMatchObject([{ type: "MADE_BY", label: "Maker" }]);
    expect(first.cautions.length).toBeGreaterThan(3);
    const second = await list({ label: "Part", limit: 2, offset: 2 });
    const numbers = [...first.rows, ...second.rows].map(({ name }) => name);
    expect(numbers.toSorted()).toEqual(["0040-07", "=BP12-A", "BP12-S"]);
    const lots = await list({ label: "StockLot", sort: "-quantity" });
    expect(lots.rows.map(({ properties }) => properties["quantity"])).toEqual([6, 2, 1]);
    expect(lots.rows[0]?.title).toBe(
      "Tamarisk / Saloon / Port settee / Box 3 / Oakhollow / 0040-07 / 6 pieces",
    );
  });

  it("are narrowed by conditions with units, by words, and by what is absent", async () => {
    const row = await partCalled("0040-07");
    await edited(row.id, { basedOn: row.version, set: { massKg: "2 lb" } });
    expect((await list({ label: "Part", where: "massKg>=900 g" })).total).toBe(1);
    expect((await list({ label: "Part", where: "massKg>=1 kg" })).total).toBe(0);
    expect((await list({ label: "Part", where: ["massKg=", "description~seal"] })).total).toBe(1);
    expect((await list({ label: "Part", text: "shaft se" })).rows[0]?.name).toBe("BP12-S");
  });

  it.each([
    [{ label: "Kettle" }, "RequiredFunction"],
    [{ label: "Part", where: "colour=red" }, "partNumber"],
    [{ label: "Part", sort: "colour" }, "partNumber"],
    [{ label: "Part", where: "massKg>=heavy" }, "massKg"],
  ])("refuse %j and say what there is", async (query, told) => {
    const response = await request(fleet.app).get("/api/records").query(query);
    expect(response.status).toBe(400);
    expect(response.body.detail).toContain(told);
  });
});

describe("a record shown", () => {
  it("has its relationships both ways and its journal with the import it came from", async () => {
    const { id } = await partCalled("0040-07");
    const body = await show(id);
    expect(body.record.title).toBe("Oakhollow / 0040-07");
    const groups = body.links.map(({ type, direction, total }) => [type, direction, total]);
    expect(groups).toEqual(
      expect.arrayContaining([
        ["MADE_BY", "out", 1],
        ["USES", "in", 1],
        ["OFFERS", "in", 1],
        ["LOT_OF", "in", 1],
      ]),
    );
    const uses = body.links.find(({ type }) => type === "USES")?.shown[0];
    expect(uses).toMatchObject({ from: { name: "W40" }, properties: { quantity: 4 } });
    expect(body.journal.at(-1)).toMatchObject({
      kind: "created",
      who: "test",
      import: { name: "fleet.csv" },
    });
    expect(body.journal.map(({ subject }) => subject)).toContain("Part Oakhollow / 0040-07");
  });

  it("is told by its id in an address, and not found otherwise", async () => {
    const response = await request(fleet.app).get("/api/records/Part:nothing");
    expect(response.status).toBe(404);
  });
});

describe("an edit", () => {
  // Pound: NIST Special Publication 811 (2008), appendix B: 1 lb = 0.453 592 37 kg.
  it("reads text as the importer reads a cell, tells it in words and is one change", async () => {
    const row = await partCalled("0040-07");
    const body = await edited(row.id, {
      basedOn: row.version,
      set: { massKg: "2.5 lb", isSafety: "yes", shelfLifeMonths: "5 years", description: "" },
    });
    expect(body.record.properties).toMatchObject({
      massKg: 1.133980925,
      isSafety: true,
      shelfLifeMonths: 60,
    });
    expect(body.record.properties).not.toHaveProperty("description");
    expect(body.record.version).toBe(row.version + 1);
    expect(body.changes).toEqual(
      expect.arrayContaining([
        { property: "description", before: "Pawl spring", after: null },
        { property: "massKg", before: null, after: "1.133980925 kg" },
        { property: "isSafety", before: null, after: "yes" },
      ]),
    );
    const history = checked(
      await request(fleet.app).get("/api/history?limit=1"),
      "/api/history",
      "get",
      historyAnswer,
    );
    expect(history.changes).toMatchObject([{ sequence: body.sequence, who: "screen" }]);
    expect(history.more).toBe(true);
    const detail = checked(
      await request(fleet.app).get(`/api/history/${body.sequence}`),
      "/api/history/{sequence}",
      "get",
      changeDetail,
    );
    expect(detail.entries).toHaveLength(1);
    expect(detail.entries[0]?.changes).toEqual(body.changes);
  });

  it("on an old version is refused with both versions", async () => {
    const row = await partCalled("0040-07");
    await edited(row.id, { basedOn: row.version, set: { massKg: 1 } });
    const response = await edit(row.id, { basedOn: row.version, set: { massKg: 2 } });
    expect(response.status).toBe(409);
    expect(response.body).toMatchObject({
      code: "write-stale",
      facts: {
        yours: { version: row.version, set: { massKg: 2 } },
        theirs: { version: row.version + 1, properties: { massKg: 1 } },
      },
    });
    expect((await partCalled("0040-07")).properties["massKg"]).toBe(1);
  });

  it("names every value at fault and writes nothing", async () => {
    const row = await partCalled("0040-07");
    const response = await edit(row.id, {
      basedOn: row.version,
      set: {
        massKg: "2,500 kg",
        shelfLifeMonths: "a while",
        colour: "red",
        volumeLitres: -1,
        partNumber: "",
        description: "fine",
      },
    });
    expect(response.status).toBe(400);
    const pointers = response.body.errors.map((fault: { pointer: string }) => fault.pointer);
    expect(pointers).toEqual(["/massKg", "/shelfLifeMonths", "/colour", "/volumeLitres"]);
    const dated = await request(fleet.app)
      .post("/api/stow")
      .send({ part: "0040-07", quantity: 1, place: "Box 3", expires: "03/04/2029" });
    expect(dated.body.detail).toContain("2029-04-03 or 2029-03-04");
    expect(dated.body.detail).not.toMatch(/column|--date-order/);
    const alone = await edit(row.id, { basedOn: row.version, set: { partNumber: "" } });
    expect(alone.status).toBe(400);
    expect(alone.body.detail).toContain("partNumber");
    expect((await partCalled("0040-07")).version).toBe(row.version);
  });

  it("of a name is carried on to the keys of what is told apart by it, and the same file still changes nothing", async () => {
    const { rows } = await list({ label: "Maker", where: "name=Oakhollow" });
    const maker = rows[0];
    const before = await graphPicture(fleet.store);
    const body = await edited(maker?.id ?? "", {
      basedOn: maker?.version ?? 0,
      set: { name: "Oakhollow Deck" },
    });
    const part = await fleet.store.nodeByKey("Part", "oakhollow deck\u001f0040-07");
    expect(part?.id).toBe((await partCalled("0040-07")).id);
    const lotKeys = [...(await fleet.store.knownGraph()).nodes("StockLot").keys()];
    expect(lotKeys.some((key) => key.includes("oakhollow deck"))).toBe(true);
    await undo(body.sequence);
    expect(await graphPicture(fleet.store)).toStrictEqual(before);
  });

  it("to a name that is taken is refused", async () => {
    const row = await partCalled("=BP12-A");
    const response = await edit(row.id, { basedOn: row.version, set: { partNumber: "bp12-s" } });
    expect(response.status).toBe(409);
    expect(response.body.code).toBe("key-taken");
  });

  it("leads a single relationship elsewhere, and a locker never into itself", async () => {
    const { rows } = await list({ label: "Locker" });
    const called = (name: string) => rows.find((row) => row.name === name);
    const [saloon, settee] = [called("Saloon"), called("Port settee")];
    const ring = await edit(saloon?.id ?? "", {
      basedOn: 1,
      links: { IS_WITHIN: settee?.id ?? "" },
    });
    expect(ring.status).toBe(400);
    const moved = await edited(settee?.id ?? "", {
      basedOn: settee?.version ?? 0,
      links: { IS_WITHIN: "Engine room" },
    });
    expect(moved.record.title).toBe("Tamarisk / Engine room / Port settee");
    expect(moved.changes).toEqual([
      { property: "IS_WITHIN", before: "Saloon", after: "Engine room" },
    ]);
    const box = await fleet.store.nodeByKey(
      "Locker",
      ["tamarisk", "engine room", "port settee", "box 3"].join("\u001f"),
    );
    expect(box).toBeDefined();
  });

  it("that says what is so already changes nothing", async () => {
    const row = await partCalled("0040-07");
    const body = await edited(row.id, {
      basedOn: row.version,
      set: { description: "Pawl spring" },
    });
    expect(body).toMatchObject({ sequence: null, changes: [] });
    expect(body.record.version).toBe(row.version);
  });

  it("never touches the journal's own records", async () => {
    const { rows } = await list({ label: "Import" });
    const id = rows[0]?.id ?? "";
    expect((await edit(id, { basedOn: 1, set: { fileName: "other.csv" } })).status).toBe(400);
    const gone = await request(fleet.app).delete(
      `/api/records/${encodeURIComponent(id)}?version=1`,
    );
    expect(gone.status).toBe(400);
  });
});

describe("a record made", () => {
  const create = (body: object) => request(fleet.app).post("/api/records").send(body);

  it("has its relationships by id or name, and can be undone", async () => {
    const before = await graphPicture(fleet.store);
    const made = checked(
      await create({
        label: "Part",
        set: { partNumber: "0040-08", massKg: "20 g" },
        links: { MADE_BY: "oakhollow" },
      }),
      "/api/records",
      "post",
      changeAnswer,
    );
    expect(made.record).toMatchObject({
      title: "Oakhollow / 0040-08",
      version: 1,
      properties: { massKg: 0.02 },
    });
    const again = await create({
      label: "Part",
      set: { partNumber: "0040-08 " },
      links: { MADE_BY: "Oakhollow" },
    });
    expect(again.status).toBe(409);
    expect(again.body.facts.subject).toBe(made.record.id);
    await undo(made.sequence);
    expect(await graphPicture(fleet.store)).toStrictEqual(before);
  });

  it("without what it is told apart by is refused, all of it named", async () => {
    const response = await create({ label: "StockLot", set: {} });
    expect(response.status).toBe(400);
    expect(response.body.errors.map((fault: { pointer: string }) => fault.pointer)).toEqual([
      "/set/quantity",
      "/links/STOWED_IN",
      "/links/LOT_OF",
    ]);
    const unknown = await create({
      label: "Part",
      set: { partNumber: "1" },
      links: { MADE_BY: "Nobody" },
    });
    expect(unknown.status).toBe(404);
  });
});

describe("a relationship", () => {
  const address = (type: string, from: string, to: string) =>
    `/api/links/${type}/${encodeURIComponent(from)}/${encodeURIComponent(to)}`;
  const path = "/api/links/{type}/{from}/{to}";

  it("is made, changed on its version, and taken away; money brings its currency", async () => {
    const put = async (body: object) =>
      checked(
        await request(fleet.app)
          .put(address("OFFERS", "Quayline", "0040-07"))
          .send(body),
        path,
        "put",
        linkAnswer,
      );
    const stale = await request(fleet.app)
      .put(address("OFFERS", "Quayline", "0040-07"))
      .send({ set: { packSize: 10 } });
    expect(stale.body).toMatchObject({ code: "write-stale", facts: { theirs: { version: 1 } } });
    const changed = await put({ basedOn: 1, set: { priceMinor: "30 USD", supplierCode: "QL/7" } });
    expect(changed.link).toMatchObject({
      version: 2,
      properties: { priceMinor: 3000, currency: "USD", supplierCode: "QL/7" },
    });
    const found = await request(fleet.app).get("/api/find?text=ql7");
    expect(found.body.hits[0]).toMatchObject({ label: "Part", name: "0040-07", matched: "QL/7" });
    const gone = checked(
      await request(fleet.app).delete(`${address("OFFERS", "Quayline", "0040-07")}?version=2`),
      path,
      "delete",
      linkAnswer,
    );
    expect(gone.link).toBeNull();
    await undo(gone.sequence);
    const { links } = await show((await partCalled("0040-07")).id);
    expect(links.find(({ type }) => type === "OFFERS")?.shown[0]?.properties["priceMinor"]).toBe(
      3000,
    );
  });

  it("between kinds of records it does not join, or that a record is told apart by, is refused", async () => {
    const wrong = await request(fleet.app)
      .put(address("USES", "0040-07", "W40"))
      .send({});
    expect(wrong.status).toBe(404);
    const needed = await request(fleet.app).delete(
      `${address("MADE_BY", "0040-07", "Oakhollow")}?version=1`,
    );
    expect(needed.status).toBe(400);
    const noQuantity = await request(fleet.app)
      .put(address("USES", "W40", "BP12-S"))
      .send({});
    expect(noQuantity.status).toBe(400);
    expect(noQuantity.body.detail).toContain("W40 USES BP12-S must have quantity");
  });
});

describe("a deletion", () => {
  it("shows what goes with it, is refused while that is not named, and comes back whole", async () => {
    const { rows } = await list({ label: "Maker", where: "name=Fenwater" });
    const maker = rows[0];
    const path = `/api/records/${encodeURIComponent(maker?.id ?? "")}`;
    const shown = checked(
      await request(fleet.app).get(`${path}/dependants`),
      "/api/records/{id}/dependants",
      "get",
      dependantsAnswer,
    );
    // Counted by hand in the list: one model, two parts, two lots, one fitted item.
    expect(shown.records).toBe(6);
    expect(shown.byLabel).toEqual(
      expect.arrayContaining([
        { label: "Part", count: 2 },
        { label: "StockLot", count: 2 },
        { label: "Model", count: 1 },
        { label: "FittedItem", count: 1 },
      ]),
    );
    const blind = await request(fleet.app).delete(`${path}?version=${maker?.version}`);
    expect(blind.status).toBe(409);
    expect(blind.body).toMatchObject({ code: "has-dependants", facts: { records: 6 } });
    const stale = await request(fleet.app).delete(`${path}?version=9&records=6`);
    expect(stale.body.code).toBe("write-stale");
    const before = await graphPicture(fleet.store);
    const gone = checked(
      await request(fleet.app).delete(`${path}?version=${maker?.version}&records=6`),
      "/api/records/{id}",
      "delete",
      deleteAnswer,
    );
    expect(gone.nodesDeleted).toBe(7);
    expect((await list({ label: "Part" })).total).toBe(1);
    const back = await undo(gone.sequence);
    expect(back.nodesRestored).toBe(7);
    expect(await graphPicture(fleet.store)).toStrictEqual(before);
    const again = await request(fleet.app).post(`/api/history/${gone.sequence}/undo`);
    expect(again.body.code).toBe("undo-blocked");
    await undo(back.sequence);
    expect((await list({ label: "Part" })).total).toBe(1);
  });
});
