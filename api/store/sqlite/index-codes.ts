import type { DatabaseSync } from "node:sqlite";
import { quoteName } from "../../../graph-schema/index.ts";
import { codedRelationships } from "../shared/search-codes.ts";
import { squash } from "../shared/search-text.ts";

/** Brings the codes of relationships that are there already into the search index, under their records' numbers. */
export function indexCodes(db: DatabaseSync): void {
  const insert = db.prepare("INSERT INTO search (rowid, words, numbers) VALUES (?, '', ?)");
  for (const [type, property] of codedRelationships) {
    const column = quoteName(property);
    const rows = db
      .prepare(`SELECT n, ${column} AS code FROM ${quoteName(type)} WHERE ${column} > ''`)
      .all();
    for (const row of rows) {
      const code = squash(String(row["code"]));
      if (code !== "") insert.run(Number(row["n"]), code);
    }
  }
}
