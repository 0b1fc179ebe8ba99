import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import request from "supertest";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { importAnswer, importHistory, undoAnswer } from "../../api/contract/import.contract.ts";
import { kitAnswer } from "../../api/contract/kit.contract.ts";
import { buildApp } from "../../api/http/build-app.ts";
import { openStore } from "../../api/store/open-store.ts";
import { smallFleetCrossingCsv, smallFleetCsv } from "../http/small-fleet.ts";
import { sparewright, temporaryFolder } from "./run-command.ts";

const folder = temporaryFolder();
const db = join(folder.path, "fleet.db");
const fleetFile = join(folder.path, "fleet list.csv");
const crossingFile = join(folder.path, "crossing.csv");

beforeAll(async () => {
  // Windows-1252 with a byte order mark's absence, as spreadsheets of the region write it.
  writeFileSync(fleetFile, Buffer.from(smallFleetCsv, "latin1"));
  writeFileSync(crossingFile, `\uFEFF${smallFleetCrossingCsv}`);
  const run = await sparewright(["import", fleetFile, crossingFile, "--db", db, "--json"]);
  expect(run.err).toBe("");
  expect(run.status).toBe(0);
  const answers = run.out
    .trim()
    .split("\n")
    .map((line) => importAnswer.parse(JSON.parse(line)));
  expect(answers.map((answer) => answer.committed)).toEqual([true, true]);
});
afterAll(folder.clear);

describe("documents for programs", () => {
  const asked: readonly (readonly [string, readonly string[], (app: never) => request.Test])[] = [
    [
      "kit",
      [
        "kit",
        "--days",
        "12",
        "--longest",
        "18,5",
        "--departs",
        "2027-01-02",
        "--no-robbing",
        "--target-passage",
        "0.9",
      ],
      (app) =>
        request(app)
          .post("/api/kit")
          .send({
            daysExpected: 12,
            daysLongest: 18.5,
            departs: "2027-01-02",
            robbing: false,
            targets: { passage: 0.9 },
          }),
    ],
    [
      "choose",
      ["choose", "--for", "Port primary", "--need", "workingLoadKg=900", "--rate", "GBP=1,17"],
      (app) =>
        request(app)
          .post("/api/choose")
          .send({
            replace: ["Port primary"],
            needs: { workingLoadKg: 900 },
            rates: { GBP: 1.17 },
          }),
    ],
    [
      "standardise",
      ["standardise", "--budget", "250,50", "--years", "3", "--category", "winch"],
      (app) =>
        request(app)
          .post("/api/standardise")
          .send({ budgetMinor: 25_050, horizonYears: 3, categories: ["winch"] }),
    ],
    [
      "a kit as imagined",
      [
        "kit",
        "--remove",
        "Starboard primary",
        "--lose-supplier",
        "Quayline",
        "--times",
        "0040-07=2",
      ],
      (app) =>
        request(app)
          .post("/api/kit")
          .send({
            whatIf: {
              remove: [{ item: "Starboard primary" }],
              loseSuppliers: ["Quayline"],
              rates: [{ part: "0040-07", times: 2 }],
            },
          }),
    ],
    [
      "an overview as imagined",
      ["overview", "--replace", "primary port=W40", "--add", "Spare pump=BP-12 for Pump"],
      (app) =>
        request(app)
          .post("/api/readiness")
          .send({
            whatIf: {
              replace: [{ item: "primary port", model: "W40" }],
              add: [{ position: "Spare pump", model: "BP-12", serves: ["Pump"] }],
            },
          }),
    ],
    [
      "what falls due as imagined",
      ["due", "--until", "2027-06-01", "--remove", "Tamarisk: Bilge pump"],
      (app) =>
        request(app)
          .post("/api/due")
          .send({ until: "2027-06-01", whatIf: { remove: [{ item: "Tamarisk: Bilge pump" }] } }),
    ],
    [
      "work before leaving as imagined",
      ["prepare", "--departs", "2027-01-02", "--times", "0040-07 in W40=2,5"],
      (app) =>
        request(app)
          .post("/api/preparation")
          .send({
            departs: "2027-01-02",
            whatIf: { rates: [{ part: "0040-07", model: "W40", times: 2.5 }] },
          }),
    ],
    [
      "a voyage as imagined",
      ["voyage", "--departs", "2027-01-02", "--lose-supplier", "Quayline"],
      (app) =>
        request(app)
          .post("/api/voyage")
          .send({ departs: "2027-01-02", whatIf: { loseSuppliers: ["Quayline"] } }),
    ],
    ["commonality", ["commonality"], (app) => request(app).post("/api/commonality").send({})],
    [
      "suppliers",
      ["suppliers", "--vessel", "tamarisk", "--weigh", "Quayline=2,5"],
      (app) =>
        request(app)
          .post("/api/suppliers")
          .send({ vessel: "tamarisk", weights: [{ supplier: "Quayline", weight: 2.5 }] }),
    ],
    [
      "order",
      ["order", "--departs", "2027-01-02", "--ordered-on", "2026-12-01", "--without", "Quayline"],
      (app) =>
        request(app)
          .post("/api/order")
          .send({ departs: "2027-01-02", orderedOn: "2026-12-01", without: ["Quayline"] }),
    ],
    [
      "doubt",
      ["doubt", "--departs", "2027-01-02", "--rough", "2,5", "--most", "3"],
      (app) =>
        request(app).post("/api/doubt").send({ departs: "2027-01-02", roughShape: 2.5, most: 3 }),
    ],
    [
      "prepare",
      ["prepare", "--departs", "2027-01-02", "--confirmed-only"],
      (app) =>
        request(app).post("/api/preparation").send({ departs: "2027-01-02", confirmedOnly: true }),
    ],
    [
      "voyage",
      [
        "voyage",
        "--departs",
        "2027-01-02",
        "--from",
        "Mindelo",
        "--leg",
        "Praia,2,4,5,Cabo Verde",
        "--leg",
        "Bridgetown,15",
        "--reliability",
        "0,8",
      ],
      (app) =>
        request(app)
          .post("/api/voyage")
          .send({
            departs: "2027-01-02",
            from: "Mindelo",
            legs: [
              { to: "Praia", days: 2, longestDays: 4, stayDays: 5, country: "Cabo Verde" },
              { to: "Bridgetown", days: 15 },
            ],
            reliability: 0.8,
          }),
    ],
    [
      "minimums",
      ["minimums", "canada-sor-2020-216", "--departs", "2027-01-02"],
      (app) =>
        request(app)
          .post("/api/minimums")
          .send({ lists: ["canada-sor-2020-216"], departs: "2027-01-02" }),
    ],
    ["find", ["find", "pawl", "spring"], (app) => request(app).get("/api/find?text=pawl%20spring")],
    ["undo --list", ["undo", "--list"], (app) => request(app).get("/api/imports")],
  ];

  it.each(asked)("%s --json is the document HTTP answers with", async (_name, args, ask) => {
    const run = await sparewright([...args, "--db", db, "--json"]);
    expect(run.status, run.err).toBe(0);
    const store = await openStore({ db, env: {} });
    const answer = await ask(buildApp({ store, now: () => new Date() }) as never);
    await store.close();
    expect(answer.status, answer.text).toBe(200);
    expect(JSON.parse(run.out)).toEqual(answer.body);
  });

  it("export writes the text HTTP sends", async () => {
    const run = await sparewright(["export", "--list", "stock", "--db", db]);
    expect(run.status, run.err).toBe(0);
    const store = await openStore({ db, env: {} });
    const app = buildApp({ store, now: () => new Date() });
    const answer = await request(app).get("/api/export/stock");
    await store.close();
    expect(run.out).toBe(answer.text);
  });
});

describe("tables for people", () => {
  it("ends the kit with its cautions, within the terminal's width, without warnings", async () => {
    const run = await sparewright(["kit", "--db", db, "--why"]);
    expect(run.status, run.err).toBe(0);
    expect(run.err).toBe("");
    expect(run.out).toContain("Tamarisk");
    expect(run.out.slice(run.out.indexOf("Cautions"))).toContain("not a statement of compliance");
    const widest = Math.max(...run.out.split("\n").map((line) => [...line].length));
    expect(widest).toBeLessThanOrEqual(100);
  });

  it("says where a spare is", async () => {
    const run = await sparewright(["find", "0040-07", "--db", db]);
    expect(run.out).toContain("Saloon › Port settee › Box 3");
    expect(run.out).toContain("Cautions");
  });
});

describe("the demo", () => {
  it("answers on a private copy, says so apart from the answer, and leaves nothing behind", async () => {
    const run = await sparewright(["kit", "--demo", "--json", "--db", join(folder.path, "no.db")]);
    expect(run.status, run.err).toBe(0);
    expect(run.err).toBe("This is the invented demo fleet.\n");
    const answer = kitAnswer.parse(JSON.parse(run.out));
    expect(answer.crossing).toMatchObject({ daysExpected: 16, daysLongest: 20 });
    expect(answer.status).toBe("optimal");
    expect(existsSync(join(folder.path, "no.db"))).toBe(false);
  });
});

describe("kinds of failure", () => {
  const missing = join(folder.path, "missing.db");

  it.each([
    ["an unknown option", ["kit", "--colour", "red"], 2, "--colour"],
    ["an unknown command", ["paint"], 2, "paint"],
    ["a number that is none", ["kit", "--days", "soon"], 2, "soon"],
    ["a target that is no probability", ["kit", "--target-safety", "1.5"], 2, "--target-safety"],
    ["a date that cannot be", ["kit", "--departs", "2026-02-30"], 2, "2026-02-30"],
    ["a rate without its value", ["kit", "--rate", "USD"], 2, "USD=0.92"],
    ["gear added without its model", ["kit", "--add", "Spare pump"], 2, "--add"],
    ["gear replaced by nothing", ["due", "--replace", "Port primary="], 2, "both sides of the ="],
    ["a factor that is none", ["overview", "--times", "0040-07=often"], 2, "often"],
    ["a factor below nothing", ["overview", "--times", "0040-07=-2"], 2, "--times"],
    ["an item nobody fitted", ["prepare", "--remove", "Mizzen"], 1, "Port primary"],
    ["words that fit two items", ["kit", "--remove", "primary"], 2, "Starboard primary"],
    ["a port that cannot be", ["serve", "--port", "99999"], 2, "65535"],
    ["a vessel nobody knows", ["kit", "--vessel", "Nobody"], 1, "Nobody"],
    ["a file that is not there", ["import", "/nowhere/list.csv"], 1, "/nowhere/list.csv"],
    ["a folder for a file", ["import", folder.path], 1, "folder"],
    ["an import nobody made", ["undo", "nothing.csv"], 1, "nothing.csv"],
    ["a list that does not exist", ["export", "--list", "everything"], 1, "everything"],
    ["a text without an answer", ["find", "zzzzzz"], 1, ""],
  ] as const)("%s", async (_name, args, status, named) => {
    const run = await sparewright([...args, "--db", db]);
    expect(run.status, run.err).toBe(status);
    expect(run.err + (status === 1 ? run.out : "")).toContain(named);
    expect(run.err).not.toMatch(/\n\s+at /);
  });

  it("tells how to begin when a named database is missing or empty", async () => {
    const absent = await sparewright(["kit", "--db", missing]);
    expect(absent.status).toBe(1);
    expect(absent.err).toContain("sparewright import");
    expect(existsSync(missing)).toBe(false);

    const undo = await sparewright(["undo", "--db", missing]);
    expect(undo.status).toBe(1);
    expect(existsSync(missing)).toBe(false);

    const empty = join(folder.path, "empty.db");
    const store = await openStore({ db: empty, env: {} });
    await store.close();
    const run = await sparewright(["commonality"], { SPAREWRIGHT_DB: empty });
    expect(run.status).toBe(1);
    expect(run.err).toContain("sparewright import");
  });

  it("leaves another program's file alone", async () => {
    const path = join(folder.path, "other.db");
    writeFileSync(path, "not a database, but somebody's letters");
    const run = await sparewright(["kit", "--db", path]);
    expect(run.status).toBe(1);
    expect(run.err).toContain("store-damaged");
    expect(readFileSync(path, "utf8")).toBe("not a database, but somebody's letters");
  });

  it.each([
    ["an empty file", ""],
    ["a header alone", "Part number,Stock\n"],
    ["a binary file", "\u0089PNG\u0000\u0000\u0000\rIHDR\u0000\u0000\u0001"],
    ["columns nobody knows", "xqx,yqy\n1,2\n"],
  ])("%s is invalid input", async (_name, text) => {
    const path = join(folder.path, "bad.csv");
    writeFileSync(path, text, "latin1");
    const run = await sparewright(["import", path, "--db", db]);
    expect(run.status, run.err).toBe(2);
    expect(run.out).toBe("");
  });
});

describe("importing by command", () => {
  it("shows with --dry-run, keeps rejected rows apart, and undoes by file name", async () => {
    const path = join(folder.path, "stock.csv");
    const rejected = join(folder.path, "rejected.csv");
    const own = join(folder.path, "own.db");
    writeFileSync(path, "Teilenummer;Hersteller;Menge\nZ-1;Fenwater;3\nZ-2;Fenwater;-4\n");
    const settings = ["--map", "Menge=StockLot.quantity", "--vessel", "Tamarisk", "--db", own];

    const dry = await sparewright(["import", path, ...settings, "--dry-run", "--json"]);
    expect(dry.status, dry.err).toBe(0);
    expect(existsSync(own)).toBe(false);
    const shown = importAnswer.parse(JSON.parse(dry.out));
    expect(shown).toMatchObject({ committed: false, rows: { read: 2, accepted: 1, rejected: 1 } });
    expect(shown.columns.find((column) => column.header === "Menge")?.byHand).toBe(true);

    const run = await sparewright(["import", path, ...settings, "--rejected", rejected, "--json"]);
    const done = importAnswer.parse(JSON.parse(run.out));
    expect(done.records).toEqual(shown.records);
    const back = readFileSync(rejected, "utf8");
    expect(back).toContain("Z-2");
    expect(back).not.toContain("Z-1");
    expect(back).toContain("-4");

    const listed = await sparewright(["undo", "--list", "--json", "--db", own]);
    expect(importHistory.parse(JSON.parse(listed.out)).imports).toHaveLength(1);
    const undone = await sparewright(["undo", "stock.csv", "--json", "--db", own]);
    expect(undone.status, undone.err).toBe(0);
    expect(undoAnswer.parse(JSON.parse(undone.out)).nodesDeleted).toBeGreaterThan(0);
  });

  it("takes in the other files where one cannot be read, naming that one", async () => {
    const [bad, good] = [join(folder.path, "bad.csv"), join(folder.path, "good.csv")];
    writeFileSync(bad, "xqx,yqy\n1,2\n");
    writeFileSync(good, "Part number,Maker,Stock\nZ-9,Fenwater,1\n");
    const own = join(folder.path, "two.db");
    const run = await sparewright(["import", bad, good, "--vessel", "Tamarisk", "--db", own]);
    expect(run.status).toBe(2);
    expect(run.err).toContain("bad.csv was not taken in");
    expect(run.out).toContain("“good.csv” added");
    expect(run.out).toContain("1 row of 1");
  });

  it("exits 2 when no row at all could be taken in", async () => {
    const path = join(folder.path, "negative.csv");
    writeFileSync(path, "Part number,Maker,Stock\nZ-2,Fenwater,-4\n");
    const run = await sparewright(["import", path, "--vessel", "Tamarisk", "--db", db]);
    expect(run.status).toBe(2);
    expect(run.out).toContain("line 2");
  });
});
