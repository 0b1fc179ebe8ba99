import type { NodeId } from "../../../graph-schema/index.ts";
import { nodeLabelNames, relationshipTypeNames } from "../../../graph-schema/index.ts";
import type { StoredRecord } from "../shared/stored-record.ts";
import type { Connection, Row } from "./connection.ts";
import { toEntry } from "./journal.ts";
import { openDatabase } from "./open-database.ts";
import { linksWhere, nodesWhere } from "./read-records.ts";
import { withSqliteProblems } from "./sqlite-problem.ts";

const rowsAtOnce = 5000;

/**
 * Everything in the file, read through a connection of its own in one transaction, so that writing goes on meanwhile
 * and the backup shows one moment. A graph in memory has one connection only; it is read without pausing.
 */
export async function* backupRecords(
  connection: Connection,
  path: string,
): AsyncGenerator<StoredRecord> {
  if (path === ":memory:") {
    yield* withSqliteProblems(path, () => [...recordsOf(connection)]);
    return;
  }
  const own = openDatabase(path);
  try {
    own.db.exec("BEGIN");
    yield* recordsOf(own);
    own.db.exec("COMMIT");
  } finally {
    own.close();
  }
}

function* recordsOf(connection: Connection): Generator<StoredRecord> {
  const paged = function* <T>(
    read: (after: number) => readonly T[],
    numberOf: (row: T) => number,
  ): Generator<T> {
    for (let after = -1; ; ) {
      const rows = read(after);
      yield* rows;
      const last = rows.at(-1);
      if (last === undefined || rows.length < rowsAtOnce) return;
      after = numberOf(last);
    }
  };
  const rows = (select: string, column: string) =>
    paged(
      (after) =>
        connection.rows(
          `${select} WHERE ${column} > ? ORDER BY ${column} LIMIT ?`,
          after,
          rowsAtOnce,
        ),
      (row: Row) => Number(row[0]),
    );
  for (const row of rows(
    "SELECT first, last, at, who, what, import, undone, undoes FROM occasion",
    "first",
  ))
    yield toWrite(row);
  const where = "WHERE r.n > ? ORDER BY r.n LIMIT ?";
  for (const label of nodeLabelNames)
    for (const node of paged(
      (after) => nodesWhere(connection, label, where, after, rowsAtOnce),
      ({ n }) => n,
    ))
      yield { kind: "node", ...node };
  for (const type of relationshipTypeNames)
    for (const link of paged(
      (after) => linksWhere(connection, type, where, after, rowsAtOnce),
      ({ n }) => n,
    ))
      yield { kind: "link", ...link };
  for (const row of rows(
    "SELECT sequence, kind, type, subject, other, before, after FROM entry",
    "sequence",
  ))
    yield { kind: "entry", entry: toEntry(row) };
}

function toWrite(row: Row): StoredRecord {
  const [first, last, at, who, what, importId, undone, undoes] = row;
  return {
    kind: "write",
    first: Number(first),
    last: Number(last),
    at: String(at),
    who: String(who),
    ...(typeof what === "string" ? { what } : {}),
    ...(typeof importId === "string" ? { importId: importId as NodeId } : {}),
    ...(typeof undone === "number" ? { undone } : {}),
    ...(typeof undoes === "number" ? { undoes } : {}),
  };
}
