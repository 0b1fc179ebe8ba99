import { join } from "node:path";
import { DatabaseSync } from "node:sqlite";
import { afterAll, expect, it } from "vitest";
import { journalAndSearch } from "../../api/store/sqlite/migrations/0001-journal-and-search.ts";
import { SqliteStore } from "../../api/store/sqlite/sqlite-store.ts";
import { sqliteTables } from "../../graph-schema/index.ts";
import { temporaryFolder } from "../cli/run-command.ts";

const folder = temporaryFolder();
afterAll(folder.clear);

/** A file as version 1 left it: an import of a part with a supplier's code, and one undone before undos were kept. */
function fileOfVersion1(path: string): void {
  const db = new DatabaseSync(path);
  journalAndSearch.apply(db);
  for (const table of sqliteTables()) {
    db.exec(table.createTable);
    for (const index of table.createIndexes) db.exec(index);
  }
  db.exec(`
    INSERT INTO node VALUES (1, 'Part:a', 'Part'), (2, 'Supplier:b', 'Supplier'),
      (4, 'Import:c', 'Import'), (5, 'Import:d', 'Import');
    INSERT INTO "Part" (n, key, version, partNumber) VALUES (1, 'a', 1, '0040-07');
    INSERT INTO "Supplier" (n, key, version, name) VALUES (2, 'b', 1, 'Quayline');
    INSERT INTO "OFFERS" (n, fromNode, toNode, version, supplierCode) VALUES (3, 2, 1, 1, 'QL 99/x');
    INSERT INTO "Import" (n, key, version, reference, at, who) VALUES (4, '1', 1, '1', '2026-01-01T00:00:00Z', 'mate');
    INSERT INTO "Import" (n, key, version, reference, at, who, undone)
      VALUES (5, '2', 2, '2', '2026-01-02T00:00:00Z', 'mate', '2026-01-03T00:00:00Z');
    INSERT INTO occasion (first, last, at, who, import) VALUES
      (1, 4, '2026-01-01T00:00:00Z', 'mate', 'Import:c'), (5, 5, '2026-01-02T00:00:00Z', 'mate', 'Import:d'),
      (6, 6, '2026-01-03T00:00:00Z', 'mate', NULL);
    INSERT INTO search (rowid, words, numbers) VALUES (1, '0040-07', '004007');
    PRAGMA application_id = ${0x53706172};
    PRAGMA user_version = 1;
  `);
  db.close();
}

it("brings a file of version 1 up: codes are found, undone imports are told, any write can be undone", async () => {
  const path = join(folder.path, "one.db");
  fileOfVersion1(path);
  const store = SqliteStore.open(path);
  expect((await store.search("ql99x", 5)).map(({ node }) => node.id)).toEqual(["Part:a"]);
  expect(await store.history({ limit: 5 })).toMatchObject([
    { sequence: 6 },
    { sequence: 5, undone: { at: "2026-01-03T00:00:00Z" } },
    { sequence: 4, importId: "Import:c" },
  ]);
  await expect(store.undo(5, { who: "mate", at: "2026-02-01T00:00:00Z" })).rejects.toMatchObject({
    code: "undo-blocked",
  });
  await store.undo(2, { who: "mate", at: "2026-02-01T00:00:00Z" });
  expect(await store.count("Part")).toBe(0);
  expect(await store.search("ql99x", 5)).toEqual([]);
  await store.close();
});
