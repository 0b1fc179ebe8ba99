import request from "supertest";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import {
  changeAnswer,
  deleteAnswer,
  dependantsAnswer,
  linkAnswer,
} from "../../api/contract/records.contract.ts";
import { graphPicture } from "../contract/graph-picture.ts";
import { checked } from "./checked.ts";
import { recordCalls } from "./record-calls.ts";
import { type SmallApp, smallApp } from "./small-app.ts";

let fleet: SmallApp;
beforeEach(async () => {
  fleet = await smallApp(true);
});
afterEach(() => fleet.store.close());

const { list, show, undo, partCalled } = recordCalls(() => fleet);

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
