import { copyFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import request from "supertest";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { historyAnswer, undoChangeAnswer } from "../../api/contract/history.contract.ts";
import { changeAnswer, recordsAnswer } from "../../api/contract/records.contract.ts";
import { buildApp } from "../../api/http/build-app.ts";
import { openStore } from "../../api/store/open-store.ts";
import { smallFleetCrossingCsv, smallFleetCsv } from "../http/small-fleet.ts";
import { sparewright, temporaryFolder } from "./run-command.ts";

type App = ReturnType<typeof buildApp>;

const folder = temporaryFolder();
const db = join(folder.path, "fleet.db");

beforeAll(async () => {
  const files = [
    ["fleet.csv", smallFleetCsv],
    ["crossing.csv", smallFleetCrossingCsv],
  ] as const;
  for (const [name, text] of files) writeFileSync(join(folder.path, name), text);
  const paths = files.map(([name]) => join(folder.path, name));
  const run = await sparewright(["import", ...paths, "--db", db]);
  expect(run.status, run.err).toBe(0);
});
afterAll(folder.clear);

/** A database of its own, like the one all tests read. */
function copyOf(name: string): string {
  const path = join(folder.path, `${name}.db`);
  copyFileSync(db, path);
  return path;
}

async function askHttp(path: string, ask: (app: App) => request.Test) {
  const store = await openStore({ db: path, env: {} });
  const answer = await ask(buildApp({ store, now: () => new Date() }));
  await store.close();
  expect(answer.status, answer.text).toBe(200);
  return answer.body;
}

const partId = async (path: string, partNumber: string): Promise<string> => {
  const run = await sparewright([
    "list",
    "Part",
    "--where",
    `partNumber=${partNumber}`,
    "--db",
    path,
    "--json",
  ]);
  return recordsAnswer.parse(JSON.parse(run.out)).rows[0]?.id ?? "";
};

describe("reading commands", () => {
  const cases: readonly (readonly [readonly string[], (app: App) => request.Test])[] = [
    [
      ["list", "lots", "--sort", "-quantity", "--limit", "2"],
      (app) => request(app).get("/api/records?label=lots&sort=-quantity&limit=2"),
    ],
    [["history"], (app) => request(app).get("/api/history")],
    [["due", "--until", "2027-06-01"], (app) => request(app).get("/api/due?until=2027-06-01")],
    [
      ["overview", "--vessel", "tamarisk"],
      (app) => request(app).get("/api/readiness?vessel=tamarisk"),
    ],
  ];
  it.each(cases)("%j --json prints the document HTTP answers with", async (args, ask) => {
    const run = await sparewright([...args, "--db", db, "--json"]);
    expect(run.status, run.err).toBe(0);
    expect(JSON.parse(run.out)).toEqual(await askHttp(db, ask));
  });

  it("show and delete without --yes too, and delete nothing", async () => {
    const id = encodeURIComponent(await partId(db, "0040-07"));
    const shown = await sparewright(["show", "Oakhollow", "/", "0040-07", "--db", db, "--json"]);
    expect(JSON.parse(shown.out)).toEqual(
      await askHttp(db, (app) => request(app).get(`/api/records/${id}`)),
    );
    const dependants = await sparewright(["delete", "0040-07", "--db", db, "--json"]);
    expect(JSON.parse(dependants.out)).toEqual(
      await askHttp(db, (app) => request(app).get(`/api/records/${id}/dependants`)),
    );
  });

  it("show people tables with cautions", async () => {
    const due = await sparewright(["due", "--db", db]);
    expect(due.out).toContain("out of date");
    expect(due.out).toContain("Expired counts as not aboard");
    const list = await sparewright(["list", "parts", "--db", db]);
    expect(list.out).toContain("Oakhollow / 0040-07");
    const show = await sparewright(["show", "0040-07", "--db", db]);
    expect(show.out).toContain("import of fleet.csv");
  });
});

describe("writing commands", () => {
  it.each([
    [
      "edit",
      ["edit", "0040-07", "massKg=2.5 lb", "description="],
      (app: App, id: string) =>
        request(app)
          .patch(`/api/records/${id}`)
          .send({ basedOn: 1, set: { massKg: "2.5 lb", description: "" } }),
    ],
    [
      "create",
      ["create", "part", "partNumber=0040-09", "MADE_BY=Oakhollow"],
      (app: App) =>
        request(app)
          .post("/api/records")
          .send({ label: "part", set: { partNumber: "0040-09" }, links: { MADE_BY: "Oakhollow" } }),
    ],
    [
      "link",
      ["link", "Quayline", "offers", "0040-07", "priceMinor=30 USD"],
      (app: App) =>
        request(app)
          .put("/api/links/offers/Quayline/0040-07")
          .send({ basedOn: 1, set: { priceMinor: "30 USD" } }),
    ],
    [
      "unlink",
      ["unlink", "Quayline", "OFFERS", "0040-07"],
      (app: App) => request(app).delete("/api/links/OFFERS/Quayline/0040-07?version=1"),
    ],
    [
      "delete",
      ["delete", "0040-07", "--yes"],
      (app: App, id: string) => request(app).delete(`/api/records/${id}?version=1&records=1`),
    ],
    [
      "stow",
      ["stow", "BP12-S", "2", "Engine room", "--expires", "6/2027"],
      (app: App) =>
        request(app)
          .post("/api/stow")
          .send({ part: "BP12-S", quantity: 2, place: "Engine room", expires: "6/2027" }),
    ],
    [
      "use",
      ["use", "0040-07", "2", "--for", "Port primary", "--note", "worn, sheared"],
      (app: App) =>
        request(app)
          .post("/api/use")
          .send({ part: "0040-07", quantity: 2, for: "Port primary", note: "worn, sheared" }),
    ],
  ] as const)("%s --json prints the document HTTP answers with", async (name, args, ask) => {
    const id = encodeURIComponent(await partId(db, "0040-07"));
    const run = await sparewright([...args, "--db", copyOf(`${name}-a`), "--json"]);
    expect(run.status, run.err).toBe(0);
    const answer = await askHttp(copyOf(`${name}-b`), (app) => ask(app, id));
    expect(JSON.parse(run.out)).toEqual(answer);
  });

  it("undo takes back the newest change, then the one before, then imports", async () => {
    const path = copyOf("undo");
    const edit = await sparewright(["edit", "0040-07", "massKg=1", "--db", path, "--json"]);
    const { sequence } = changeAnswer.parse(JSON.parse(edit.out));
    await sparewright(["use", "0040-07", "1", "--db", path]);
    const first = await sparewright(["undo", "--db", path, "--json"]);
    expect(undoChangeAnswer.parse(JSON.parse(first.out)).change.what).toContain("used");
    const second = await sparewright(["undo", String(sequence), "--db", path]);
    expect(second.out).toContain("massKg");
    const third = await sparewright(["undo", "--db", path]);
    expect(third.out).toContain("crossing.csv");
    const history = await sparewright(["history", "--db", path, "--json"]);
    const { changes } = historyAnswer.parse(JSON.parse(history.out));
    expect(changes.filter(({ undone }) => undone !== null)).toHaveLength(3);
    const detail = await sparewright(["history", String(sequence), "--db", path]);
    expect(detail.out).toContain("massKg: 1 kg");
  });

  it.each([
    [["edit", "0040-07", "massKg"], 2, "property=value"],
    [["edit", "0040-07", "massKg=heavy"], 2, "massKg"],
    [["edit", "0040-07", "massKg=1", "--based-on", "7"], 1, "version 1"],
    [["edit", "Oakhollow", "name=Fenwater"], 1, "taken"],
    [["show", "0099"], 1, "0099"],
    [["list", "boats", "--where", "size=big"], 2, "name"],
    [["stow", "0040-07", "0", "Engine room"], 2, "QUANTITY"],
    [["use", "0040-07", "70"], 2, "6 usable"],
    [["use", "0040-07", "1", "--why", "boredom"], 2, "--why"],
    [["undo", "99999"], 1, "99999"],
    [["create", "lot", "quantity=3"], 2, "STOWED_IN"],
  ] as const)("%j fails with exit code %i and says why", async (args, status, told) => {
    const run = await sparewright([...args, "--db", db]);
    expect(run.status, run.out).toBe(status);
    expect(run.err).toContain(told);
    expect(run.out).toBe("");
  });
});
