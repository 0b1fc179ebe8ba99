import { mkdirSync } from "node:fs";
import { dirname } from "node:path";
import { DatabaseSync } from "node:sqlite";
import { Problem } from "../../errors/problem.ts";
import { alignTables, tablesAreAligned } from "./align-tables.ts";
import { Connection } from "./connection.ts";
import { migrations } from "./migrations/all.ts";
import { withSqliteProblems } from "./sqlite-problem.ts";

/** Marks the file as ours (PRAGMA application_id): "Spar" in ASCII. */
const applicationId = 0x53706172;
/** How long to wait for another program's write: longer than the largest import takes on a small computer. */
const defaultBusyTimeoutMs = 15_000;

/** An open database as recent as this program, or a Problem: `store-damaged`, `store-busy`, `store-newer`, `store-full`. */
export function openDatabase(path: string, busyTimeoutMs = defaultBusyTimeoutMs): Connection {
  makeFolder(path);
  return withSqliteProblems(path, () => {
    const db = new DatabaseSync(path, {
      enableForeignKeyConstraints: true,
      timeout: busyTimeoutMs,
    });
    try {
      refuseForeignFiles(db, path);
      db.exec(`
        PRAGMA journal_mode = WAL;
        PRAGMA synchronous = FULL;
        PRAGMA temp_store = MEMORY;
        PRAGMA cache_size = -65536;
        PRAGMA journal_size_limit = 67108864;
      `);
      const connection = new Connection(db);
      // A file that is as it should be is only read: opening does not wait for another program's write.
      if (!isUpToDate(db)) connection.transaction("write", () => bringUpToDate(db, path));
      return connection;
    } catch (cause) {
      db.close();
      throw cause;
    }
  });
}

function makeFolder(path: string): void {
  if (path === ":memory:") return;
  try {
    mkdirSync(dirname(path), { recursive: true });
  } catch (cause) {
    throw new Problem(
      "store-damaged",
      `The folder of the database must exist or be creatable; ${dirname(path)} is not. Name another file with --db.`,
      { cause },
    );
  }
}

const pragma = (db: DatabaseSync, name: string): number =>
  Number(db.prepare(`PRAGMA ${name}`).get()?.[name] ?? 0);

/** Before anything is written: a file of another program, or of a newer version of this one, is left alone. */
function refuseForeignFiles(db: DatabaseSync, path: string): void {
  const mark = pragma(db, "application_id");
  const holdsTables = db.prepare("SELECT 1 FROM sqlite_schema LIMIT 1").get() !== undefined;
  if (mark !== applicationId && (mark !== 0 || holdsTables))
    throw new Problem(
      "store-damaged",
      `${path} is a database of another program (mark ${mark}, ours is ${applicationId}); it was left as it is. Name another file with --db.`,
    );
  refuseNewer(pragma(db, "user_version"), path);
}

const newest = migrations.at(-1)?.version ?? 0;

function isUpToDate(db: DatabaseSync): boolean {
  return (
    pragma(db, "application_id") === applicationId &&
    pragma(db, "user_version") === newest &&
    tablesAreAligned(db)
  );
}

function refuseNewer(version: number, path: string): void {
  if (version > newest)
    throw new Problem(
      "store-newer",
      `${path} has version ${version}; this program knows versions up to ${newest}. Update the program; the file was left as it is.`,
      { facts: { found: version, known: newest } },
    );
}

/** Runs inside a write transaction, so two programs starting at once take turns. */
function bringUpToDate(db: DatabaseSync, path: string): void {
  const version = pragma(db, "user_version");
  refuseNewer(version, path);
  for (const migration of migrations) {
    if (migration.version <= version) continue;
    migration.apply(db);
    db.exec(`PRAGMA user_version = ${migration.version}`);
  }
  if (pragma(db, "application_id") !== applicationId)
    db.exec(`PRAGMA application_id = ${applicationId}`);
  alignTables(db);
  for (const migration of migrations) if (migration.version > version) migration.afterTables?.(db);
}
