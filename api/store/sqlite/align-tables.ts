import type { DatabaseSync } from "node:sqlite";
import { quoteName, type SqliteTable, sqliteTables } from "../../../graph-schema/index.ts";
import { constraintBroken } from "./sqlite-problem.ts";

const textOf = (table: SqliteTable): string =>
  [table.createTable, ...table.createIndexes].join(";\n");

/** The declared tables that the file does not yet have in their present form. */
function tablesToAlign(db: DatabaseSync): readonly SqliteTable[] {
  const recorded = new Map(
    db
      .prepare("SELECT of, value FROM fingerprint")
      .all()
      .map((row) => [row["of"], row["value"]]),
  );
  return sqliteTables().filter((table) => recorded.get(table.name) !== textOf(table));
}

/** Whether the file was made, or last aligned, from the declarations as they are now. */
export const tablesAreAligned = (db: DatabaseSync): boolean => tablesToAlign(db).length === 0;

/**
 * Brings the tables of labels and relationships up to the declarations: creates missing tables, adds missing
 * columns, renews changed rules (a longer list of choices, say). No column and no row is ever dropped. A property
 * added to a declaration, or a choice added to one, therefore needs no migration. Runs inside a transaction.
 */
export function alignTables(db: DatabaseSync): void {
  const record = db.prepare(
    "INSERT INTO fingerprint (of, value) VALUES (?, ?) ON CONFLICT (of) DO UPDATE SET value = excluded.value",
  );
  for (const table of tablesToAlign(db)) {
    const present = columnsIn(db, table.name);
    if (present.length === 0) db.exec(table.createTable);
    else if (!(canBeRebuilt(db, table, present) && rebuild(db, table, present)))
      addColumns(db, table, present);
    for (const createIndex of table.createIndexes) db.exec(createIndex);
    record.run(table.name, textOf(table));
  }
}

const columnsIn = (db: DatabaseSync, table: string): readonly string[] =>
  db
    .prepare("SELECT name FROM pragma_table_info(?)")
    .all(table)
    .map((column) => String(column["name"]));

/** A table can be made anew where it holds no column that is no longer declared, and lacks none that must have a value. */
function canBeRebuilt(db: DatabaseSync, table: SqliteTable, present: readonly string[]): boolean {
  const trial = `${table.name} (trial)`;
  db.exec(table.createTable.replace(quoteName(table.name), quoteName(trial)));
  const wanted = columnsIn(db, trial);
  const required = db
    .prepare(`SELECT name FROM pragma_table_info(?) WHERE "notnull" = 1`)
    .all(trial)
    .map((column) => String(column["name"]));
  db.exec(`DROP TABLE ${quoteName(trial)}`);
  return (
    present.every((column) => wanted.includes(column)) &&
    required.every((column) => present.includes(column))
  );
}

/**
 * Nothing refers to these tables (relationships refer to `node`), so one can take the place of the other.
 * False, with nothing done, where a row breaks a rule that has become stricter since it was written.
 */
function rebuild(db: DatabaseSync, table: SqliteTable, present: readonly string[]): boolean {
  db.exec("SAVEPOINT rebuilding");
  try {
    moveRows(db, table, present);
    db.exec("RELEASE rebuilding");
    return true;
  } catch (cause) {
    if (constraintBroken(cause) === undefined) throw cause;
    db.exec("ROLLBACK TO rebuilding; RELEASE rebuilding");
    return false;
  }
}

function moveRows(db: DatabaseSync, table: SqliteTable, present: readonly string[]): void {
  const old = quoteName(`${table.name} (old)`);
  const columns = present.map(quoteName).join(", ");
  for (const index of db
    .prepare("SELECT name FROM sqlite_schema WHERE type = 'index' AND tbl_name = ? AND sql > ''")
    .all(table.name))
    db.exec(`DROP INDEX ${quoteName(String(index["name"]))}`);
  db.exec(`ALTER TABLE ${quoteName(table.name)} RENAME TO ${old}`);
  db.exec(table.createTable);
  db.exec(`INSERT INTO ${quoteName(table.name)} (${columns}) SELECT ${columns} FROM ${old}`);
  db.exec(`DROP TABLE ${old}`);
}

function addColumns(db: DatabaseSync, table: SqliteTable, present: readonly string[]): void {
  for (const column of table.columns)
    if (!present.includes(column.name))
      db.exec(`ALTER TABLE ${quoteName(table.name)} ADD COLUMN ${column.addDefinition}`);
}
