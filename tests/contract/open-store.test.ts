import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { DatabaseSync } from "node:sqlite";
import { afterAll, describe, expect, test } from "vitest";
import { defaultDatabasePath, openStore } from "../../api/store/open-store.ts";
import { SqliteStore } from "../../api/store/sqlite/sqlite-store.ts";
import { sqliteTables } from "../../graph-schema/index.ts";
import { graphPicture } from "./graph-picture.ts";
import { problemOf } from "./parts/problem-of.ts";
import { occasion, smallFleet } from "./small-fleet.ts";

const folder = mkdtempSync(join(tmpdir(), "open-store-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe("opening a store", () => {
  test("makes the folder and the file, and finds everything there the next time", async () => {
    const db = join(folder, "deep", "er", "spares.db");
    const store = await openStore({ db, env: {} });
    await store.apply(smallFleet().set, occasion);
    const before = await graphPicture(store);
    await store.close();
    const again = await openStore({ env: { SPAREWRIGHT_DB: db } });
    expect(await graphPicture(again)).toStrictEqual(before);
    await again.close();
  });

  test("two programs see each other's writes", async () => {
    const db = join(folder, "two.db");
    const [one, two] = [SqliteStore.open(db), SqliteStore.open(db)];
    await one.apply(smallFleet().set, occasion);
    expect(await two.count("Vessel")).toBe(2);
    await one.close();
    await two.close();
  });

  test("a file that is no database is refused and left alone", async () => {
    const db = join(folder, "notes.txt");
    const text = "Not a database, but long enough to look at. ".repeat(50);
    writeFileSync(db, text);
    expect((await problemOf(openStore({ db, env: {} }))).code).toBe("store-damaged");
    expect(readFileSync(db, "utf8")).toBe(text);
  });

  test("another program's database is refused and left alone", async () => {
    const db = join(folder, "other.db");
    const other = new DatabaseSync(db);
    other.exec("CREATE TABLE log (entry TEXT)");
    other.close();
    const bytes = readFileSync(db);
    expect((await problemOf(openStore({ db, env: {} }))).code).toBe("store-damaged");
    expect(readFileSync(db).equals(bytes)).toBe(true);
  });

  test("a database of a newer version is refused", async () => {
    const db = join(folder, "newer.db");
    await SqliteStore.open(db).close();
    const raw = new DatabaseSync(db);
    raw.exec("PRAGMA user_version = 999");
    raw.close();
    const problem = await problemOf(openStore({ db, env: {} }));
    expect(problem.code).toBe("store-newer");
    expect(problem.facts).toMatchObject({ found: 999 });
  });

  test("a database another program is writing to is busy, and nothing is changed", async () => {
    const db = join(folder, "busy.db");
    const store = SqliteStore.open(db, 100);
    const raw = new DatabaseSync(db);
    raw.exec("BEGIN IMMEDIATE");
    // Opening and reading go on meanwhile.
    const reader = SqliteStore.open(db, 100);
    expect(await reader.count("Vessel")).toBe(0);
    await reader.close();
    const problem = await problemOf(store.apply(smallFleet().set, occasion));
    expect(problem.code).toBe("store-busy");
    raw.exec("ROLLBACK");
    expect(await store.count("Vessel")).toBe(0);
    await store.apply(smallFleet().set, occasion);
    expect(await store.count("Vessel")).toBe(2);
    raw.close();
    await store.close();
  });

  test("a folder that cannot be made is named", async () => {
    const blocked = join(folder, "plain-file");
    writeFileSync(blocked, "");
    const problem = await problemOf(openStore({ db: join(blocked, "x", "y.db"), env: {} }));
    expect(problem.code).toBe("store-damaged");
    expect(problem.message).toContain(join(blocked, "x"));
  });

  test("an older file gains the columns declared since, and keeps its rows", async () => {
    const db = join(folder, "older.db");
    const store = SqliteStore.open(db);
    await store.apply(smallFleet().set, occasion);
    const before = await graphPicture(store);
    await store.close();
    const raw = new DatabaseSync(db);
    raw.exec(`ALTER TABLE "Supplier" DROP COLUMN "country"; DELETE FROM fingerprint`);
    raw.close();
    const again = SqliteStore.open(db);
    expect(await graphPicture(again)).toStrictEqual(before);
    const { ids } = smallFleet();
    await again.apply(
      {
        changes: [
          { kind: "update-node", id: ids.supplier, basedOn: 1, set: { country: "Cabo Verde" } },
        ],
      },
      occasion,
    );
    expect((await again.node(ids.supplier))?.properties).toMatchObject({ country: "Cabo Verde" });
    await again.close();
  });

  test("an older file gains the choices declared since, and keeps its rows", async () => {
    const db = join(folder, "choices.db");
    const store = SqliteStore.open(db);
    await store.apply(smallFleet().set, occasion);
    const before = await graphPicture(store);
    await store.close();
    const now = sqliteTables().find(({ name }) => name === "StockLot")?.createTable ?? "";
    const then = now.replace(`OR "condition" = 'serviceable' `, "");
    expect(then).not.toBe(now);
    const raw = new DatabaseSync(db);
    raw.exec(`CREATE TABLE kept AS SELECT * FROM "StockLot"; DROP TABLE "StockLot"; ${then};
      INSERT INTO "StockLot" SELECT * FROM kept; DROP TABLE kept;
      DELETE FROM fingerprint WHERE of = 'StockLot'`);
    raw.close();
    const again = SqliteStore.open(db);
    expect(await graphPicture(again)).toStrictEqual(before);
    const { ids } = smallFleet();
    const set = { condition: "serviceable" };
    const change = { kind: "update-node", id: ids.tinLot, basedOn: 1, set } as const;
    await again.apply({ changes: [change] }, occasion);
    expect((await again.node(ids.tinLot))?.properties).toMatchObject(set);
    await again.close();
  });

  test("a row that a rule made stricter would refuse is kept as it is", async () => {
    const db = join(folder, "stricter.db");
    const { ids, set } = smallFleet();
    const store = SqliteStore.open(db);
    await store.apply(set, occasion);
    await store.close();
    const now = sqliteTables().find(({ name }) => name === "StockLot")?.createTable ?? "";
    const raw = new DatabaseSync(db);
    raw.exec(`CREATE TABLE kept AS SELECT * FROM "StockLot"; DROP TABLE "StockLot";
      ${now.replace(`"condition" = 'new'`, `"condition" = 'mint'`)};
      UPDATE kept SET condition = 'mint' WHERE condition = 'new';
      INSERT INTO "StockLot" SELECT * FROM kept; DROP TABLE kept;
      DELETE FROM fingerprint WHERE of = 'StockLot'`);
    raw.close();
    const again = SqliteStore.open(db);
    expect((await again.node(ids.tinLot))?.properties).toMatchObject({ condition: "mint" });
    await again.close();
  });

  test("a column that is no longer declared is kept", async () => {
    const db = join(folder, "dropped.db");
    await SqliteStore.open(db).close();
    const raw = new DatabaseSync(db);
    raw.exec(`ALTER TABLE "Supplier" ADD COLUMN "telex" TEXT; DELETE FROM fingerprint`);
    raw.close();
    const again = SqliteStore.open(db);
    await again.apply(smallFleet().set, occasion);
    await again.close();
    const after = new DatabaseSync(db);
    expect(after.prepare(`SELECT telex FROM "Supplier"`).all()).toHaveLength(1);
    after.close();
  });

  test("a server that is named is asked, and said to be away where it is; a file named goes before it", async () => {
    // Port 1 (tcpmux) is not served on any machine these tests run on.
    const env = { NEO4J_URI: "bolt://127.0.0.1:1", NEO4J_PASSWORD: "hush-hush" };
    const problem = await problemOf(openStore({ env }));
    expect(problem.code).toBe("store-unreachable");
    expect(problem.message).toContain("bolt://127.0.0.1:1");
    expect(problem.message).not.toContain("hush");
    const store = await openStore({ db: join(folder, "named.db"), env });
    await store.close();
  });

  test("the default file stands in the platform's data folder", () => {
    // XDG Base Directory Specification 0.8; macOS "File System Programming Guide"; Windows known folder LocalAppData.
    expect(defaultDatabasePath({ HOME: "/home/ann" }, "linux")).toBe(
      "/home/ann/.local/share/sparewright/sparewright.db",
    );
    expect(defaultDatabasePath({ HOME: "/h", XDG_DATA_HOME: "/data" }, "linux")).toBe(
      "/data/sparewright/sparewright.db",
    );
    expect(defaultDatabasePath({ HOME: "/h", XDG_DATA_HOME: "rel" }, "linux")).toBe(
      "/h/.local/share/sparewright/sparewright.db",
    );
    expect(defaultDatabasePath({ HOME: "/Users/ann" }, "darwin")).toBe(
      "/Users/ann/Library/Application Support/Sparewright/sparewright.db",
    );
    expect(defaultDatabasePath({ LOCALAPPDATA: "C:\\Users\\ann\\AppData\\Local" }, "win32")).toBe(
      "C:\\Users\\ann\\AppData\\Local\\Sparewright\\sparewright.db",
    );
  });
});
