import { createHash } from "node:crypto";
import type { RestoreAnswer } from "../contract/backup.contract.ts";
import { Problem } from "../errors/problem.ts";
import type { GraphStore } from "../store/graph-store.ts";
import type { StoredRecord } from "../store/shared/stored-record.ts";

/** The shape of the file; raised when an older program could not read it. */
const version = 1;

/** What a backup holds, as its last line tells. */
export interface BackupTally {
  readonly records: number;
  /** SHA-256 of all lines before, each with its line feed, hexadecimal. */
  readonly sha256: string;
}

const head = JSON.stringify({ sparewright: "backup", version });

/**
 * The whole graph with its journal as lines of JSON: a head, a record a line, and an end that counts and checks them.
 * The same graph gives the same lines from every store. Memory does not grow with the graph.
 */
export async function* backupLines(
  store: GraphStore,
  progress?: (done: number) => void,
): AsyncGenerator<string, BackupTally> {
  const hash = createHash("sha256");
  let records = 0;
  const line = (text: string): string => {
    hash.update(`${text}\n`);
    return `${text}\n`;
  };
  const stored = store.backup()[Symbol.asyncIterator]();
  // The first record before the first line: a store that cannot be read is told of before anything is written.
  let step = await stored.next();
  try {
    yield line(head);
    for (; step.done !== true; step = await stored.next()) {
      records++;
      if (records % 5000 === 0) progress?.(records);
      yield line(JSON.stringify(step.value));
    }
  } finally {
    await stored.return?.();
  }
  const tally = { records, sha256: hash.digest("hex") };
  yield `${JSON.stringify({ end: tally })}\n`;
  return tally;
}

const damaged = (rule: string): Problem =>
  new Problem(
    "backup-damaged",
    `${rule} Nothing was restored. Use another copy of the backup, or make it again.`,
  );

/** Reads a backup's lines, handing out its records; ends with an error unless the file is whole. */
async function* recordsIn(lines: AsyncIterable<string>): AsyncGenerator<StoredRecord, BackupTally> {
  const hash = createHash("sha256");
  let records = 0;
  let isFirst = true;
  for await (const text of lines) {
    const read = parsed(text, records + 1);
    if (isFirst) {
      if (read["sparewright"] !== "backup")
        throw damaged("The first line of a backup says that it is one; this file's does not.");
      if (read["version"] !== version)
        throw damaged(
          `This program reads backups of version ${version}; the file has version ${String(read["version"])}.`,
        );
      isFirst = false;
    } else if (read["end"] !== undefined) {
      const end = read["end"] as BackupTally;
      if (end.records !== records || end.sha256 !== hash.digest("hex"))
        throw damaged(
          "The end of a backup counts and checks its lines; in this file they were changed.",
        );
      return end;
    } else {
      records++;
      yield read as unknown as StoredRecord;
    }
    hash.update(`${text}\n`);
  }
  throw damaged("The last line of a backup says that it ends there; this file ends before it.");
}

function parsed(text: string, line: number): Readonly<Record<string, unknown>> {
  try {
    const read: unknown = JSON.parse(text);
    if (typeof read === "object" && read !== null) return read as Record<string, unknown>;
  } catch {
    // Told below, with the line's number.
  }
  throw damaged(`Every line of a backup is a JSON object; line ${line} is not.`);
}

/**
 * Fills an empty graph from a backup, whole or not at all. The file is read once to check it and once to restore it.
 * A graph that holds exactly this backup is left as it is, so that restoring twice does no harm.
 * Errors: `backup-damaged`, `store-occupied` where the graph holds something else.
 */
export async function restoreGraph(
  store: GraphStore,
  open: () => AsyncIterable<string>,
  progress?: (done: number, total: number) => void,
): Promise<RestoreAnswer> {
  const tally = await drained(recordsIn(open()));
  if ((await store.sequence()) > 0 && (await drained(backupLines(store))).sha256 === tally.sha256)
    return {
      restored: false,
      ...tally,
      sentence: `The graph holds exactly this backup already (${tally.records} records); nothing was changed.`,
    };
  await store.restore(counted(recordsIn(open()), tally.records, progress));
  return {
    restored: true,
    ...tally,
    sentence: `Restored ${tally.records} records with their journal.`,
  };
}

/** Runs a generator to its end, for what it returns. */
async function drained<T>(generator: AsyncGenerator<unknown, T>): Promise<T> {
  for (;;) {
    const step = await generator.next();
    if (step.done === true) return step.value;
  }
}

async function* counted(
  records: AsyncIterable<StoredRecord>,
  total: number,
  progress: ((done: number, total: number) => void) | undefined,
): AsyncGenerator<StoredRecord> {
  let done = 0;
  for await (const record of records) {
    yield record;
    if (++done % 5000 === 0) progress?.(done, total);
  }
}
