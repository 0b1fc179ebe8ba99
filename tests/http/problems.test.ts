import { createHash } from "node:crypto";
import request from "supertest";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { problemDocument } from "../../api/contract/problem.contract.ts";
import { type ProblemCode, problemCatalogue } from "../../api/errors/catalogue.ts";
import { Problem } from "../../api/errors/problem.ts";
import { buildApp } from "../../api/http/build-app.ts";
import { problemsOf } from "../../api/http/describe-api.ts";
import { problemStatus } from "../../api/http/problem-status.ts";
import { routes } from "../../api/http/routes.ts";
import type { GraphStore } from "../../api/store/graph-store.ts";
import { description, openApiFaults } from "./open-api-check.ts";
import { now, type SmallApp, smallApp } from "./small-app.ts";

let fleet: SmallApp;
beforeAll(async () => {
  fleet = await smallApp(true);
});
afterAll(() => fleet.store.close());

interface Answer {
  readonly status: number;
  readonly body: unknown;
  readonly headers: Readonly<Record<string, string>>;
  readonly text: string;
}

/** RFC 9457: media type, and a `status` member equal to the response's. */
function expectProblem(answer: Answer, code: ProblemCode, status: number) {
  expect(answer.headers["content-type"], answer.text).toMatch(/^application\/problem\+json/);
  const body = problemDocument.parse(answer.body);
  expect(body).toMatchObject({ code, status, title: problemCatalogue[code].title });
  expect(answer.status).toBe(status);
  return body;
}

const imports = (name: string, body: Buffer | string, options: object = {}) =>
  request(fleet.app)
    .post("/api/imports")
    .query({ name, options: JSON.stringify(options) })
    .set("Content-Type", "application/octet-stream")
    .send(body);

describe("problems over HTTP", () => {
  it("answers an unknown address with 404", async () => {
    expectProblem(await request(fleet.app).get("/api/nothing"), "not-found", 404);
    expectProblem(await request(fleet.app).get("/nothing"), "not-found", 404);
  });

  it("answers a wrong method with 405 and the methods there are (RFC 9110, 15.5.6)", async () => {
    const answer = await request(fleet.app).delete("/api/kit");
    expectProblem(answer, "method-refused", 405);
    expect(answer.headers["allow"]).toBe("POST");
    const put = await request(fleet.app).put("/api/imports");
    expect(put.headers["allow"]?.split(", ").toSorted()).toEqual(["GET", "HEAD", "POST"]);
  });

  it("answers a body that is not JSON, and one of another kind", async () => {
    const broken = request(fleet.app).post("/api/kit").set("Content-Type", "application/json");
    expectProblem(await broken.send('{"vessel":'), "input-invalid", 400);
    const form = request(fleet.app).post("/api/kit").type("form").send({ vessel: "Tamarisk" });
    expectProblem(await form, "media-type-refused", 415);
    const text = request(fleet.app).post("/api/imports?name=a.csv").type("text/plain").send("a,b");
    expectProblem(await text, "media-type-refused", 415);
  });

  it("names every fault of a request by pointer, with the value received", async () => {
    const answer = await request(fleet.app)
      .post("/api/kit")
      .send({ targets: { safety: 1.5 }, daysExpected: -3, colour: "red" });
    const body = expectProblem(answer, "input-invalid", 400);
    const pointers = body.errors?.map((fault) => fault.pointer).toSorted();
    expect(pointers).toEqual(["", "/daysExpected", "/targets/safety"]);
    expect(body.detail).toContain("1.5");
    expect(body.detail).toContain("-3");
  });

  it("checks the query as it checks a body", async () => {
    for (const path of ["/api/find", "/api/find?text=", "/api/find?text=a&limit=0"]) {
      expectProblem(await request(fleet.app).get(path), "input-invalid", 400);
    }
    const twice = await request(fleet.app).get("/api/find?text=a&text=b");
    expectProblem(twice, "input-invalid", 400);
    const notJson = request(fleet.app).post("/api/imports?name=a.csv&options=%7B").type("text/csv");
    expectProblem(await notJson.send("a,b\n1,2"), "input-invalid", 400);
  });

  it("answers names that are not in the graph with 404", async () => {
    const kit = request(fleet.app).post("/api/kit").send({ vessel: "Nobody" });
    expectProblem(await kit, "not-found", 404);
    const commonality = request(fleet.app).post("/api/commonality").send({ vessel: "Nobody" });
    expectProblem(await commonality, "not-found", 404);
    expectProblem(await request(fleet.app).post("/api/imports/Import:none/undo"), "not-found", 404);
    expectProblem(await request(fleet.app).get("/api/export/everything"), "not-found", 404);
  });

  it("refuses files that are empty, binary or of columns nobody knows", async () => {
    expectProblem(await imports("a.csv", ""), "file-empty", 400);
    expectProblem(await imports("a.csv", "Part number,Stock\n"), "file-empty", 400);
    const binary = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0, 0, 0, 13, 0x49, 0x48, 0, 0, 1, 2, 3, 0]);
    expectProblem(await imports("a.csv", binary), "file-binary", 400);
    expectProblem(await imports("a.csv", "xqx,yqy\n1,2\n"), "columns-unmatched", 400);
  });

  it("refuses a body over the limit", async () => {
    const answer = await request(fleet.app)
      .post("/api/kit")
      .send({ vessel: "x".repeat(1_100_000) });
    expectProblem(answer, "file-too-large", 413);
  });

  it("refuses a file over the limit of 64 MB", async () => {
    const answer = await imports("a.csv", Buffer.alloc(64 * 1024 * 1024 + 1, "a"));
    expectProblem(answer, "file-too-large", 413);
  });

  it("refuses another program's page: a rebound name, a foreign origin, a cross-site fetch", async () => {
    const get = () => request(fleet.app).get("/api/overview");
    expectProblem(await get().set("Host", "evil.example:4180"), "access-refused", 403);
    expectProblem(await get().set("Host", "127.0.0.1.evil.example"), "access-refused", 403);
    expectProblem(await get().set("Origin", "http://evil.example"), "access-refused", 403);
    expectProblem(await get().set("Origin", "null"), "access-refused", 403);
    expectProblem(await get().set("Sec-Fetch-Site", "cross-site"), "access-refused", 403);
    const undo = request(fleet.app)
      .post("/api/imports/x/undo")
      .set("Origin", "http://evil.example");
    expectProblem(await undo, "access-refused", 403);
    const own = await get().set("Host", "localhost:4180").set("Origin", "http://localhost:4180");
    expect(own.status).toBe(200);
  });

  it("sends a strict content policy with every answer, problems included", async () => {
    for (const path of ["/api/overview", "/api/nothing"]) {
      const { headers } = await request(fleet.app).get(path);
      const policy = headers["content-security-policy"];
      expect(policy).toContain("default-src 'none'");
      expect(policy).not.toContain("unsafe");
      expect(headers["x-content-type-options"]).toBe("nosniff");
      expect(headers["referrer-policy"]).toBe("no-referrer");
      expect(headers["x-powered-by"]).toBeUndefined();
    }
  });
});

/** Ways to reach a route, so that each of its declared problems can be made to happen in the store below it. */
const calls: Record<string, (app: SmallApp["app"]) => request.Test> = {
  tellAbout: (app) => request(app).get("/api/about"),
  surveyReadiness: (app) => request(app).get("/api/readiness"),
  imagineReadiness: (app) => request(app).post("/api/readiness").send({}),
  describeImagined: (app) => request(app).post("/api/imagined").send({ whatIf: {} }),
  surveyGraph: (app) => request(app).get("/api/overview"),
  findSpares: (app) => request(app).get("/api/find?text=spring"),
  planKit: (app) => request(app).post("/api/kit").send({}),
  orderKit: (app) => request(app).post("/api/order").send({}),
  saveOrders: (app) => request(app).post("/api/orders").send({}),
  receiveOrder: (app) => request(app).post("/api/orders/Order:x/arrival").send({}),
  weighDoubt: (app) => request(app).post("/api/doubt").send({}),
  prepareDeparture: (app) => request(app).post("/api/preparation").send({}),
  planVoyage: (app) => request(app).post("/api/voyage").send({}),
  checkMinimums: (app) => request(app).post("/api/minimums").send({}),
  standardiseGear: (app) => request(app).post("/api/standardise").send({}),
  chooseGear: (app) =>
    request(app)
      .post("/api/choose")
      .send({ replace: ["Port primary"] }),
  readTypedMake: (app) =>
    request(app)
      .post("/api/choose/reading")
      .send({ maker: "Ombrelux", designation: "OX-1", partsCsv: "Part no,Qty\nOX-001,2\n" }),
  simulateCrossing: (app) => request(app).post("/api/simulation").send({ crossings: 1000 }),
  rankSuppliers: (app) => request(app).post("/api/suppliers").send({}),
  measureCommonality: (app) => request(app).post("/api/commonality").send({}),
  listImports: (app) => request(app).get("/api/imports"),
  importFile: (app) =>
    request(app).post("/api/imports?name=a.csv").type("text/csv").send("Supplier,Port\nA,B\n"),
  undoImport: (app) => request(app).post("/api/imports/any/undo"),
  backup: (app) => request(app).get("/api/backup"),
  restore: (app) =>
    request(app).post("/api/restore").type("application/octet-stream").send(backupOfNothing()),
  takeSample: (app) => request(app).post("/api/sample").send({}),
  listStowage: (app) => request(app).get("/api/stowage"),
  exportList: (app) => request(app).get("/api/export/gear"),
  listRecords: (app) => request(app).get("/api/records?label=Part"),
  createRecord: (app) =>
    request(app)
      .post("/api/records")
      .send({ label: "Maker", set: { name: "Tholewright" } }),
  showRecord: (app) => request(app).get("/api/records/Part:any"),
  editRecord: (app) => request(app).patch("/api/records/Part:any").send({ basedOn: 1 }),
  showDependants: (app) => request(app).get("/api/records/Part:any/dependants"),
  deleteRecord: (app) => request(app).delete("/api/records/Part:any?version=1"),
  linkRecords: (app) => request(app).put("/api/links/USES/Model:any/Part:any").send({}),
  unlinkRecords: (app) => request(app).delete("/api/links/USES/Model:any/Part:any?version=1"),
  listChanges: (app) => request(app).get("/api/history"),
  showChange: (app) => request(app).get("/api/history/1"),
  undoChange: (app) => request(app).post("/api/history/1/undo"),
  stowPieces: (app) =>
    request(app).post("/api/stow").send({ part: "0040-07", quantity: 1, place: "Box 3" }),
  usePieces: (app) => request(app).post("/api/use").send({ part: "0040-07", quantity: 1 }),
  reckonHistories: (app) => request(app).post("/api/reckon").send({}),
  listDue: (app) => request(app).get("/api/due"),
  imagineDue: (app) => request(app).post("/api/due").send({}),
};

/** A whole backup of nothing. */
function backupOfNothing(): Buffer {
  const head = `${JSON.stringify({ sparewright: "backup", version: 1 })}\n`;
  const sha256 = createHash("sha256").update(head).digest("hex");
  return Buffer.from(`${head}${JSON.stringify({ end: { records: 0, sha256 } })}\n`);
}

/** A store whose every method fails alike. */
const failingStore = (error: unknown): GraphStore =>
  new Proxy({} as GraphStore, {
    get: (_target, method) =>
      method === "backup"
        ? () => ({ [Symbol.asyncIterator]: () => ({ next: () => Promise.reject(error) }) })
        : () => Promise.reject(error),
  });

describe("every declared problem of every route", () => {
  const cases = routes.flatMap((route) => problemsOf(route).map((code) => ({ route, code })));

  it.each(cases)("$route.name answers $code as OpenAPI declares", async ({ route, code }) => {
    const problem = new Problem(code, "Raised by the test.", { facts: { seen: true } });
    const app = buildApp({ store: failingStore(problem), now });
    const call = calls[route.name];
    if (call === undefined) throw new Error(`no call for ${route.name}`);
    const answer = await call(app);
    const status = problemStatus(code);
    expectProblem(answer, code, status);
    const media = "application/problem+json";
    expect(openApiFaults(route.path, route.method, status, media, answer.body)).toEqual([]);
  });

  it("hides the inside of an unexpected failure, and reports it", async () => {
    const reported: unknown[] = [];
    const inside = new Error("secret of /home/somebody");
    const store = failingStore(inside);
    const app = buildApp({ store, now, report: (error) => reported.push(error) });
    const answer = await request(app).get("/api/overview");
    const body = expectProblem(answer, "unexpected", 500);
    expect(JSON.stringify(body)).not.toContain("secret");
    expect(reported).toEqual([inside]);
  });
});

describe("the error catalogue and the description", () => {
  it("agree both ways on the codes", () => {
    const schema = description.components.schemas["Problem"] as {
      properties: { code: { enum: string[] } };
    };
    expect(schema.properties.code.enum.toSorted()).toEqual(
      Object.keys(problemCatalogue).toSorted(),
    );
  });

  it("describes every route once, and no other", () => {
    const described = Object.entries(description.paths).flatMap(([path, methods]) =>
      Object.keys(methods).map((method) => `${method} ${path}`),
    );
    const mounted = routes.map((route) => `${route.method} ${route.path}`);
    expect(described.toSorted()).toEqual(mounted.toSorted());
    const names = routes.map((route) => route.name);
    expect(new Set(names).size).toBe(names.length);
  });
});
