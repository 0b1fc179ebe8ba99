import request from "supertest";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { changeDetail, historyAnswer } from "../../api/contract/history.contract.ts";
import { graphPicture } from "../contract/graph-picture.ts";
import { checked } from "./checked.ts";
import { recordCalls } from "./record-calls.ts";
import { type SmallApp, smallApp } from "./small-app.ts";

let fleet: SmallApp;
beforeEach(async () => {
  fleet = await smallApp(true);
});
afterEach(() => fleet.store.close());

const { list, show, edit, edited, undo, partCalled } = recordCalls(() => fleet);

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
