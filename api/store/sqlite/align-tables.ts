import type { DatabaseSync } from "node:sqlite";
import { quoteName, sqliteTables } from "../../../graph-schema/index.ts";

/**
 * Brings the tables of labels and relationships up to the declarations: creates missing tables, adds missing
 * columns. Nothing is ever dropped. A property added to a declaration therefore needs no migration.
 * Costs one comparison of text where nothing has changed.
 */
export function alignTables(db: DatabaseSync): void {
  const tables = sqliteTables();
  const wanted = tables.flatMap((table) => [table.createTable, ...table.createIndexes]).join(";\n");
  const recorded = db.prepare("SELECT value FROM fingerprint WHERE of = 'tables'").get();
  if (recorded?.["value"] === wanted) return;
  for (const table of tables) {
    db.exec(table.createTable);
    const present = new Set(
      db
        .prepare(`SELECT name FROM pragma_table_info(?)`)
        .all(table.name)
        .map((column) => column["name"]),
    );
    for (const column of table.columns)
      if (!present.has(column.name))
        db.exec(`ALTER TABLE ${quoteName(table.name)} ADD COLUMN ${column.addDefinition}`);
    for (const createIndex of table.createIndexes) db.exec(createIndex);
  }
  db.prepare(
    "INSERT INTO fingerprint (of, value) VALUES ('tables', ?) ON CONFLICT (of) DO UPDATE SET value = excluded.value",
  ).run(wanted);
}
