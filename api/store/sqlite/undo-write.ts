import { labelOf, type NodeId } from "../../../graph-schema/index.ts";
import type { WriteOccasion, WriteReceipt } from "../graph-store.ts";
import { fatesOf } from "../shared/import-fates.ts";
import {
  noSuchImport,
  noSuchWrite,
  nothingLeft,
  putBack,
  refuseStandings,
  undoneBefore,
} from "../shared/undo-rules.ts";
import type { Connection } from "./connection.ts";
import { GraphWriter } from "./graph-writer.ts";
import { entriesIn, importRange, occasionAt } from "./journal.ts";
import { readNode } from "./read-records.ts";
import { standingOn } from "./standing-on.ts";

type Progress = (done: number, total: number) => void;

/** A write that may be taken back. */
interface Taken {
  readonly first: number;
  readonly last: number;
  readonly importId?: NodeId;
}

/** Above so many entries, looking at all ends of the graph once is quicker than at those of each record. */
const fewEntries = 2000;

/** Takes back a whole import; its Import node stays, marked undone. Errors: `not-found`, those of `takeBack`. */
export function undoImport(
  connection: Connection,
  importId: NodeId,
  occasion: WriteOccasion,
  progress?: Progress,
): WriteReceipt {
  const range = labelOf(importId) === "Import" ? importRange(connection, importId) : undefined;
  if (range === undefined) throw noSuchImport(importId);
  return takeBack(connection, { ...range, importId }, occasion, progress);
}

/** Takes back the write that wrote the sequence number. Errors: `not-found`, those of `takeBack`. */
export function undoWrite(
  connection: Connection,
  sequence: number,
  occasion: WriteOccasion,
  progress?: Progress,
): WriteReceipt {
  const row = connection.row(
    "SELECT first, last, import FROM occasion WHERE first <= ? ORDER BY first DESC LIMIT 1",
    sequence,
  );
  const [first, last, importId = null] = row ?? [];
  if (row === undefined || Number(last) < sequence) throw noSuchWrite(sequence);
  const range = { first: Number(first), last: Number(last) };
  const taken = importId === null ? range : { ...range, importId: importId as NodeId };
  return takeBack(connection, taken, occasion, progress);
}

/** What a write wrote never changes, so its range may be read before the transaction; all else is read within. */
function takeBack(
  connection: Connection,
  taken: Taken,
  occasion: WriteOccasion,
  progress?: Progress,
): WriteReceipt {
  const isLarge = taken.last - taken.first >= fewEntries;
  return connection.transaction(isLarge ? "write without end checks" : "write", () => {
    const receipt = putAllBack(connection, taken, occasion, progress);
    if (isLarge) refuseLooseEnds(connection);
    return receipt;
  });
}

/**
 * Puts every record a write touched back to how the write found it, in one transaction that is journalled like any
 * other. Refused where a record it touched is no longer as it left it, or where something new is linked to a node it
 * created (`undo-blocked`). Changes that were themselves taken back do not stand in the way. Taking back an undo does
 * the first write again, which can then be undone once more.
 */
function putAllBack(
  connection: Connection,
  { first, last, importId }: Taken,
  occasion: WriteOccasion,
  progress?: Progress,
): WriteReceipt {
  const [undone, undoes] =
    connection.row("SELECT undone, undoes FROM occasion WHERE first = ?", first) ?? [];
  const run = importId === undefined ? undefined : readNode(connection, importId);
  const marked = run?.record.properties["undone"];
  if (marked !== undefined) throw undoneBefore(last, String(marked), importId);
  if (typeof undone === "number") throw undoneBefore(last, occasionAt(connection, undone)[0]);
  const entries = entriesIn(connection, { first, last, limit: Number.MAX_SAFE_INTEGER }).filter(
    ({ subject }) => subject.kind === "link" || subject.id !== importId,
  );
  const fates = fatesOf(entries);
  const createdNodes = new Set(
    entries.flatMap(({ kind, subject }) =>
      kind === "created" && subject.kind === "node" ? [subject.id] : [],
    ),
  );
  refuseStandings(standingOn(connection, fates, createdNodes, last));
  const writer = new GraphWriter(connection);
  putBack(writer, [...fates.values()], progress);
  const counts = { ...writer.counts };
  if (run !== undefined)
    writer.changeNode(run, {
      key: run.record.key,
      properties: { ...run.record.properties, undone: occasion.at },
      extra: run.record.extra,
    });
  const sequence = writer.journal.close(occasion, undefined, first);
  if (sequence === 0) throw nothingLeft(last);
  if (typeof undoes === "number")
    connection.run("UPDATE occasion SET undone = NULL WHERE first = ?", undoes);
  return { sequence, ...(importId === undefined ? {} : { importId }), ...counts };
}

/**
 * All ends of relationships at once: looking after each of a hundred thousand deletions whether any relationship leads
 * to it takes longer than all the rest. None is ever expected; the transaction is given up if there is one.
 */
function refuseLooseEnds(connection: Connection): void {
  const loose = connection.row("PRAGMA foreign_key_check");
  if (loose !== undefined)
    throw new Error(`an undo would leave a loose end in ${String(loose[0])}`);
}
