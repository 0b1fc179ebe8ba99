import type { Migration } from "./migration.ts";

/**
 * The tables that are the store's own; those of labels and relationships follow from the declarations.
 *
 * `node` gives every node a number. `occasion` is one write: its range of sequence numbers, who, when, which import.
 * `entry` is the journal, except for records unchanged since creation: a record's number *is* the sequence
 * number of its creation, so until the first change its own row is the journal entry. That keeps an import
 * of a hundred thousand rows from being written twice.
 */
export const journalAndSearch: Migration = {
  version: 1,
  effect: "nodes, journal, search index",
  apply(db) {
    db.exec(`
      CREATE TABLE node (
        n INTEGER PRIMARY KEY,
        id TEXT NOT NULL UNIQUE,
        label TEXT NOT NULL
      ) STRICT;

      CREATE TABLE occasion (
        first INTEGER PRIMARY KEY,
        last INTEGER NOT NULL CHECK (last >= first),
        at TEXT NOT NULL,
        who TEXT NOT NULL,
        import TEXT
      ) STRICT;
      CREATE INDEX "occasion by import" ON occasion (import) WHERE import IS NOT NULL;

      CREATE TABLE entry (
        sequence INTEGER PRIMARY KEY,
        kind TEXT NOT NULL CHECK (kind IN ('created', 'changed', 'deleted')),
        type TEXT,
        subject TEXT NOT NULL,
        other TEXT,
        before TEXT,
        after TEXT
      ) STRICT;
      CREATE INDEX "entry by subject" ON entry (subject, other);
      CREATE INDEX "entry by other end" ON entry (other) WHERE other IS NOT NULL;

      CREATE INDEX "entry of deletion" ON entry (sequence) WHERE kind = 'deleted';

      CREATE TABLE fingerprint (of TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT;

      CREATE VIRTUAL TABLE search USING fts5 (
        words, numbers,
        content = '', contentless_delete = 1, detail = column,
        tokenize = 'unicode61 remove_diacritics 2'
      );
    `);
  },
};
