import request from "supertest";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { chooseAnswer } from "../../api/contract/choose.contract.ts";
import { commonalityAnswer } from "../../api/contract/commonality.contract.ts";
import { doubtAnswer } from "../../api/contract/doubt.contract.ts";
import { findAnswer, overviewAnswer } from "../../api/contract/find.contract.ts";
import { importAnswer, importHistory, undoAnswer } from "../../api/contract/import.contract.ts";
import { kitAnswer } from "../../api/contract/kit.contract.ts";
import { minimumsAnswer } from "../../api/contract/minimums.contract.ts";
import { orderAnswer } from "../../api/contract/order.contract.ts";
import { receiveAnswer, savedOrders } from "../../api/contract/orders.contract.ts";
import { prepareAnswer } from "../../api/contract/prepare.contract.ts";
import { readinessAnswer } from "../../api/contract/readiness.contract.ts";
import { standardiseAnswer } from "../../api/contract/standardise.contract.ts";
import { dueAnswer } from "../../api/contract/stock.contract.ts";
import { suppliersAnswer } from "../../api/contract/suppliers.contract.ts";
import { voyageAnswer } from "../../api/contract/voyage.contract.ts";
import { imaginedAnswer } from "../../api/contract/what-if.contract.ts";
import { checked } from "./checked.ts";
import { type SmallApp, smallApp } from "./small-app.ts";

let fleet: SmallApp;
beforeAll(async () => {
  fleet = await smallApp(true);
});
afterAll(() => fleet.store.close());

describe("answers over HTTP", () => {
  it("says what is in the graph", async () => {
    const response = await request(fleet.app).get("/api/overview");
    const body = checked(response, "/api/overview", "get", overviewAnswer);
    expect(body.vessels).toMatchObject([{ name: "Tamarisk", items: 3 }]);
    expect(body.crossings).toMatchObject([
      { name: "Westward", departs: "2026-12-05", daysLongest: 20, vessels: ["Tamarisk"] },
    ]);
    expect(body.counts).toMatchObject({ Vessel: 1, FittedItem: 3, Model: 2, Part: 3, StockLot: 3 });
    expect(body.categories).toContainEqual({ category: "winch", models: 1, items: 2 });
  });

  it("finds a part with its nested locker, pieces, gear and whether it is usable", async () => {
    const response = await request(fleet.app).get("/api/find").query({ text: "spring" });
    const body = checked(response, "/api/find", "get", findAnswer);
    expect(body.hits).toHaveLength(1);
    const [hit] = body.hits;
    expect(hit).toMatchObject({ label: "Part", name: "0040-07", detail: "Oakhollow: Pawl spring" });
    expect(hit?.aboard).toMatchObject([
      { vessel: "Tamarisk", place: "Saloon › Port settee › Box 3", quantity: 6, usable: true },
    ]);
    expect(hit?.usedBy).toEqual([
      "Oakhollow W40: Port primary (Tamarisk), Starboard primary (Tamarisk)",
    ]);
  });

  it("orders the kit, keeps the order and takes it in when it comes", async () => {
    const { app, store } = await smallApp(true);
    const planned = await request(app).post("/api/order").send({ daysLongest: 40 });
    const order = checked(planned, "/api/order", "post", orderAnswer);
    expect(order.status).toBe("optimal");
    expect(order.sheets.length).toBeGreaterThan(0);
    const kept = await request(app).post("/api/orders").send({ daysLongest: 40 });
    const { saved } = checked(kept, "/api/orders", "post", savedOrders);
    expect(saved).toHaveLength(order.sheets.length);
    const path = `/api/orders/${saved[0]?.order.id}/arrival`;
    const come = await request(app).post(path).send({});
    const { lots } = checked(come, "/api/orders/{id}/arrival", "post", receiveAnswer);
    expect(lots.length).toBeGreaterThan(0);
    const twice = await request(app).post(path).send({});
    expect(twice.status).toBe(400);
    await store.close();
  });

  it("says what the kit rests on", async () => {
    const response = await request(fleet.app).post("/api/doubt").send({});
    const body = checked(response, "/api/doubt", "post", doubtAnswer);
    const kit = kitAnswer.parse((await request(fleet.app).post("/api/kit").send({})).body);
    expect(body.kit.money).toEqual(kit.total.cost);
    expect(body.tiers.map(({ withKit }) => withKit)).toEqual(
      kit.tiers.map(({ withKit }) => expect.closeTo(withKit, 12)),
    );
    expect(body.ratesInAll).toBeGreaterThan(0);
  });

  it("says what is better done before leaving", async () => {
    const response = await request(fleet.app).post("/api/preparation").send({});
    const body = checked(response, "/api/preparation", "post", prepareAnswer);
    const kit = kitAnswer.parse((await request(fleet.app).post("/api/kit").send({})).body);
    expect(body.kit.cost).toEqual(kit.total.cost);
    expect(body.looked).toBe(0);
  });

  it("gives the kit at each departure of a voyage", async () => {
    const response = await request(fleet.app)
      .post("/api/voyage")
      .send({
        legs: [
          { to: "Praia", days: 2 },
          { to: "Bridgetown", days: 14, longestDays: 18 },
        ],
      });
    const body = checked(response, "/api/voyage", "post", voyageAnswer);
    expect(body.departures.map(({ to, daysLongest }) => [to, daysLongest])).toEqual([
      ["Praia", 3],
      ["Bridgetown", 18],
    ]);
  });

  it("holds what is aboard against the published minimum lists", async () => {
    const response = await request(fleet.app).post("/api/minimums").send({});
    const body = checked(response, "/api/minimums", "post", minimumsAnswer);
    expect(body.lists.map(({ id }) => id)).toEqual(body.known.map(({ id }) => id));
    expect(body.lists.length).toBeGreaterThan(1);
    // The small fleet lists no mooring line; the French text asks one of every ship in its scope.
    const lines = body.lists.flatMap(({ checks }) => checks);
    expect(lines.find(({ asks }) => asks.includes("mooring line"))).toMatchObject({
      status: "short",
      required: 1,
      aboard: 0,
    });
  });

  it("counts an expired lot as not usable and says since when", async () => {
    const response = await request(fleet.app).get("/api/find?text=impeller");
    const [hit] = checked(response, "/api/find", "get", findAnswer).hits;
    expect(hit?.aboard).toMatchObject([{ usable: false, expires: "2020-05-01" }]);
    expect(hit?.aboard?.[0]?.words).toContain("out of date since 2020-05-01");
  });

  it("finds what a locker holds, what a maker makes and what gear takes", async () => {
    for (const [text, names] of [
      ["Engine room", ["=BP12-A", "BP12-S"]],
      ["Fenwater", ["=BP12-A", "BP12-S"]],
      ["Starboard primary", ["0040-07"]],
      ["Fenwater seal", ["BP12-S"]],
    ] as const) {
      const response = await request(fleet.app).get("/api/find").query({ text });
      const { hits } = checked(response, "/api/find", "get", findAnswer);
      const parts = hits.filter((hit) => hit.label === "Part").map((hit) => hit.name);
      expect(parts.toSorted(), text).toEqual(names);
    }
  });

  it("answers what to standardise on, where nothing can be changed too", async () => {
    const response = await request(fleet.app).post("/api/standardise").send({ budgetMinor: 0 });
    const body = checked(response, "/api/standardise", "post", standardiseAnswer);
    expect(body.changes).toEqual([]);
    expect(body.sentence).toMatch(/^Nothing aboard Tamarisk can be standardised/);
  });

  it("weighs makes for a position, those typed in included, and shows what if beside what is", async () => {
    const response = await request(fleet.app)
      .post("/api/choose")
      .send({
        replace: ["Port primary"],
        typed: [
          {
            maker: "Skarrowend",
            designation: "SK-1",
            category: "winch",
            priceMinor: 90_000,
            currency: "EUR",
            partsCsv: "Part no,Qty,Failure rate,Per\nSK-001,2,0.5,1000 hours\n",
          },
        ],
      });
    const body = checked(response, "/api/choose", "post", chooseAnswer);
    expect(body.candidates.map(({ model, rank }) => [model.name, rank])).toEqual([
      ["Skarrowend SK-1", 1],
      ["Oakhollow W40", null],
    ]);
    const imagined = await request(fleet.app)
      .post("/api/kit")
      .send({ whatIf: { remove: [{ item: "Starboard primary" }] } });
    const kit = checked(imagined, "/api/kit", "post", kitAnswer);
    expect(kit.comparison?.changes).toEqual(["Starboard primary on Tamarisk is taken out."]);
    const neither = await request(fleet.app).post("/api/choose").send({});
    expect([neither.status, neither.body.code]).toEqual([400, "input-invalid"]);
    const twice = await request(fleet.app)
      .post("/api/kit")
      .send({ whatIf: { rates: [{ part: "0040-07" }] } });
    expect(twice.body.detail).toMatch(/either times, or a rate with its basis/);
  });

  it.each([
    ["/api/preparation", prepareAnswer],
    ["/api/voyage", voyageAnswer],
    ["/api/due", dueAnswer],
    ["/api/readiness", readinessAnswer],
  ] as const)("imagines changes on %s", async (path, schema) => {
    const ask = (item: string) =>
      request(fleet.app)
        .post(path)
        .send({ whatIf: { remove: [{ item }] } });
    const body = checked(await ask("starboard primary"), path, "post", schema);
    expect(body.comparison?.changes).toEqual(["Starboard primary on Tamarisk is taken out."]);
    const nobody = await ask("Mizzen");
    expect([nobody.status, nobody.body.code]).toEqual([404, "not-found"]);
  });

  it("says in names what is imagined, where it is refused, and keeps no order of it", async () => {
    const ask = (path: string, whatIf: object) => request(fleet.app).post(path).send({ whatIf });
    const whatIf = {
      rates: [{ part: "0040-07", times: 2 }],
      add: [{ position: "Mast winch", model: "W40" }],
    };
    const body = checked(
      await ask("/api/imagined", whatIf),
      "/api/imagined",
      "post",
      imaginedAnswer,
    );
    expect(body.changes).toEqual([
      { list: "add", at: 0, words: "Oakhollow W40, new, fitted as Mast winch on Tamarisk." },
      { list: "rates", at: 0, words: "0040-07 fails 2 times as often." },
    ]);
    const refused = await ask("/api/imagined", {
      loseSuppliers: ["Quayline", "Nobody"],
    });
    expect(refused.body).toMatchObject({
      code: "not-found",
      errors: [{ pointer: "/whatIf/loseSuppliers/1" }],
    });
    const kept = await ask("/api/orders", whatIf);
    expect([kept.status, kept.body.code]).toEqual([400, "input-invalid"]);
  });

  it("plans the kit of the next crossing with its cautions", async () => {
    const response = await request(fleet.app).post("/api/kit").send({});
    const body = checked(response, "/api/kit", "post", kitAnswer);
    expect(body.vessel.name).toBe("Tamarisk");
    expect(body.crossing).toMatchObject({ name: "Westward", departs: "2026-12-05" });
    expect(body.status).toBe("optimal");
    expect(body.cautions.length).toBeGreaterThan(3);
    for (const tier of body.tiers) {
      if (tier.parts > 0) expect(tier.withKit).toBeGreaterThanOrEqual(tier.target);
    }
  });

  it("measures commonality", async () => {
    const response = await request(fleet.app).post("/api/commonality").send({});
    const body = checked(response, "/api/commonality", "post", commonalityAnswer);
    expect(body.whole).toMatchObject({ models: 2, items: 3, distinctParts: 3 });
  });

  it("ranks suppliers", async () => {
    const response = await request(fleet.app).post("/api/suppliers").send({ vessel: "tamarisk" });
    const body = checked(response, "/api/suppliers", "post", suppliersAnswer);
    expect(body.suppliers).toMatchObject([{ supplier: { name: "Quayline" }, gearWhole: 3 }]);
    expect(body.least).toMatchObject({ status: "optimal", cost: 1 });
    expect(body.cautions.length).toBeGreaterThan(3);
  });

  it.each(["flat", "functions", "gear", "parts", "suppliers", "offers", "lockers", "stock"])(
    "gives the %s list back as a CSV attachment",
    async (list) => {
      const response = await request(fleet.app).get(`/api/export/${list}`);
      expect(response.status).toBe(200);
      expect(response.headers["content-type"]).toBe("text/csv; charset=utf-8");
      expect(response.headers["content-disposition"]).toBe(`attachment; filename=${list}.csv`);
      expect(response.text.split("\n").length).toBeGreaterThan(1);
    },
  );

  it("neutralises cells a spreadsheet would run (OWASP, CSV Injection)", async () => {
    const response = await request(fleet.app).get("/api/export/parts");
    expect(response.text).toContain("'=BP12-A");
  });

  it("serves its own OpenAPI description", async () => {
    const response = await request(fleet.app).get("/api/openapi.json");
    expect(response.status).toBe(200);
    expect(response.body.openapi).toMatch(/^3\.1\./);
  });
});

describe("importing over HTTP", () => {
  const csv = "Supplier,Port,Country\nHarrowgate Stores,Mindelo,Cabo Verde\n";
  const post = (app: SmallApp["app"], options: object) =>
    request(app)
      .post("/api/imports")
      .query({ name: "suppliers.csv", options: JSON.stringify(options) })
      .set("Content-Type", "text/csv")
      .send(csv);

  it("shows, commits exactly what it showed, lists and takes back", async () => {
    const { app, store } = await smallApp(false);
    const dry = checked(await post(app, { dryRun: true }), "/api/imports", "post", importAnswer);
    expect(dry.committed).toBe(false);
    expect(await store.count("Supplier")).toBe(0);

    const done = checked(await post(app, {}), "/api/imports", "post", importAnswer);
    expect(done.committed).toBe(true);
    expect(done.records).toEqual(dry.records);
    expect(await store.count("Supplier")).toBe(1);

    const again = checked(await post(app, {}), "/api/imports", "post", importAnswer);
    expect(again.changesTotal).toBe(0);

    const listed = checked(
      await request(app).get("/api/imports"),
      "/api/imports",
      "get",
      importHistory,
    );
    expect(listed.imports).toMatchObject([
      { id: done.import?.id, name: "suppliers.csv", who: "screen", read: 1, undone: null },
    ]);

    const path = `/api/imports/${encodeURIComponent(done.import?.id ?? "")}/undo`;
    const undone = checked(
      await request(app).post(path),
      "/api/imports/{id}/undo",
      "post",
      undoAnswer,
    );
    expect(undone.nodesDeleted).toBe(1);
    expect(await store.count("Supplier")).toBe(0);

    const twice = await request(app).post(path);
    expect(twice.status).toBe(409);
    expect(twice.body.code).toBe("undo-blocked");
    await store.close();
  });
});
