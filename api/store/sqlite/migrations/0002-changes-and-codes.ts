import { indexCodes } from "../index-codes.ts";
import type { Migration } from "./migration.ts";

/**
 * Every write can be taken back, not imports alone: `what` says what it was, `undone` is the first sequence number of
 * the write that took it back, `undoes` that of the one it takes back. Suppliers' codes come into the search index.
 */
export const changesAndCodes: Migration = {
  version: 2,
  effect: "any write can be undone; suppliers' codes are searched",
  apply(db) {
    db.exec(`
      ALTER TABLE occasion ADD COLUMN what TEXT;
      ALTER TABLE occasion ADD COLUMN undone INTEGER;
      ALTER TABLE occasion ADD COLUMN undoes INTEGER;
    `);
  },
  afterTables(db) {
    indexCodes(db);
  },
};
