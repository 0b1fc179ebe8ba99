import type { SQLInputValue } from "node:sqlite";
import { checkProperties } from "../shared/check-properties.ts";
import { leadsNowhere, storeOccupied } from "../shared/occupied.ts";
import { linkText, refuseForeignId, refuseWrongEnds } from "../shared/refusals.ts";
import { searchedCode } from "../shared/search-codes.ts";
import { searchText } from "../shared/search-text.ts";
import type { StoredRecord } from "../shared/stored-record.ts";
import type { Connection } from "./connection.ts";
import { lastSequence, subjectColumns } from "./journal-writer.ts";
import { openDatabase } from "./open-database.ts";
import { nodeNumber } from "./read-records.ts";
import { encodeExtra, insertOf, linkColumns, nodeColumns } from "./record-columns.ts";
import { sqliteProblem } from "./sqlite-problem.ts";

/**
 * Fills an empty file in one transaction on a connection of its own, which other calls cannot get into.
 * Errors: `store-occupied`, `input-invalid`, those of the file.
 */
export async function restoreRecords(
  connection: Connection,
  path: string,
  records: AsyncIterable<StoredRecord>,
): Promise<void> {
  const own = path === ":memory:" ? connection : openDatabase(path);
  try {
    own.db.exec("BEGIN IMMEDIATE");
    const held = lastSequence(own);
    if (held > 0) throw storeOccupied(path, held);
    for await (const record of records) restoreOne(own, record);
    own.db.exec("COMMIT");
  } catch (cause) {
    if (own.db.isTransaction) own.db.exec("ROLLBACK");
    throw sqliteProblem(cause, path);
  } finally {
    if (own !== connection) own.close();
  }
}

function restoreOne(connection: Connection, stored: StoredRecord): void {
  switch (stored.kind) {
    case "write": {
      const { first, last, at, who, what, importId, undone, undoes } = stored;
      connection.run(
        "INSERT INTO occasion (first, last, at, who, what, import, undone, undoes) VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
        first,
        last,
        at,
        who,
        what ?? null,
        importId ?? null,
        undone ?? null,
        undoes ?? null,
      );
      return;
    }
    case "node": {
      const { n, record } = stored;
      const { id, label, key, version, properties, extra } = record;
      refuseForeignId(label, id);
      const columns = nodeColumns(label);
      checkProperties(columns, properties, () => id);
      connection.run("INSERT INTO node (n, id, label) VALUES (?, ?, ?)", n, id, label);
      const values: SQLInputValue[] = [n, key, version, encodeExtra(extra)];
      connection.run(insertOf(values, columns, properties).one, ...values);
      const text = searchText(label, properties);
      if (text !== undefined) index(connection, n, text.words, text.numbers);
      return;
    }
    case "link": {
      const { n, record } = stored;
      const { type, from, to, version, properties, extra } = record;
      refuseWrongEnds(type, from, to);
      const columns = linkColumns(type);
      const subject = () => linkText(type, from, to);
      checkProperties(columns, properties, subject);
      const [a, b] = [nodeNumber(connection, from), nodeNumber(connection, to)];
      if (a === undefined || b === undefined) throw leadsNowhere(subject());
      const values: SQLInputValue[] = [n, a, b, version, encodeExtra(extra)];
      connection.run(insertOf(values, columns, properties).one, ...values);
      const code = searchedCode(type, properties);
      if (code !== undefined) index(connection, n, "", code);
      return;
    }
    case "entry": {
      const { sequence, kind, subject, before, after } = stored.entry;
      connection.run(
        "INSERT INTO entry (sequence, kind, type, subject, other, before, after) VALUES (?, ?, ?, ?, ?, ?, ?)",
        sequence,
        kind,
        ...subjectColumns(subject),
        before === undefined ? null : JSON.stringify(before),
        after === undefined ? null : JSON.stringify(after),
      );
    }
  }
}

const index = (connection: Connection, n: number, words: string, numbers: string): void =>
  connection.run("INSERT INTO search (rowid, words, numbers) VALUES (?, ?, ?)", n, words, numbers);
