import { randomUUID } from "node:crypto";
import { labelOf, type NodeId } from "../../../graph-schema/index.ts";
import type { WriteOccasion, WriteReceipt } from "../graph-store.ts";
import { type Fate, fatesOf, subjectText } from "../shared/import-fates.ts";
import { contentOf, type FullEntry, type Subject } from "../shared/record-state.ts";
import { linkText } from "../shared/refusals.ts";
import { sameContent } from "../shared/same-content.ts";
import {
  noSuchImport,
  noSuchWrite,
  nothingLeft,
  putBack,
  refuseStandings,
  type Standing,
  undoneBefore,
} from "../shared/undo-rules.ts";
import { type Client, numberOf, type Transaction } from "./client.ts";
import { entriesIn, importRange, occasionsOf } from "./journal.ts";
import { loadWorkingGraph, nothingWanted, type Wanted, wantKey } from "./load-working-graph.ts";
import { linksAt, nodesById } from "./read-records.ts";
import type { WorkingGraph } from "./working-graph.ts";
import { lockHead, receiptOf, writeJournal } from "./write-journal.ts";
import { writeWorkingGraph } from "./write-working-graph.ts";

type Progress = (done: number, total: number) => void;

/** A write that may be taken back. */
interface Taken {
  readonly first: number;
  readonly last: number;
  readonly importId?: NodeId;
}

/** Takes back a whole import; its Import node stays, marked undone. Errors: `not-found`, those of `takeBack`. */
export function undoImport(
  client: Client,
  importId: NodeId,
  occasion: WriteOccasion,
  progress?: Progress,
): Promise<WriteReceipt> {
  return takeBack(client, occasion, progress, async (transaction) => {
    const range =
      labelOf(importId) === "Import" ? await importRange(transaction, importId) : undefined;
    if (range === undefined) throw noSuchImport(importId);
    return { ...range, importId };
  });
}

/** Takes back the write that wrote the sequence number. Errors: `not-found`, those of `takeBack`. */
export function undoWrite(
  client: Client,
  sequence: number,
  occasion: WriteOccasion,
  progress?: Progress,
): Promise<WriteReceipt> {
  return takeBack(client, occasion, progress, async (transaction) => {
    const [row] = await transaction.rows(
      `MATCH (w:Write) WHERE w.first <= $sequence WITH w ORDER BY w.first DESC LIMIT 1
       WHERE w.last >= $sequence RETURN w.first, w.last, w.import`,
      { sequence },
    );
    if (row === undefined) throw noSuchWrite(sequence);
    const range = { first: numberOf(row[0]), last: numberOf(row[1]) };
    return row[2] === null ? range : { ...range, importId: row[2] as NodeId };
  });
}

/**
 * As in `sqlite/undo-write.ts`, by the rules of `shared/undo-rules.ts`. May be run again, as `applyChanges`.
 * Errors: `undo-blocked`.
 */
async function takeBack(
  client: Client,
  occasion: WriteOccasion,
  progress: Progress | undefined,
  find: (transaction: Transaction) => Promise<Taken>,
): Promise<WriteReceipt> {
  const changeId = randomUUID();
  let reported = 0;
  let records = 0;
  const report = (done: number, total: number): void => {
    // A run that starts again must not make progress fall.
    const scaled = total === 0 ? 0 : Math.floor((records * done) / total);
    if (scaled <= reported || scaled >= records) return;
    reported = scaled;
    progress?.(scaled, records);
  };
  const made = await client.write(async (transaction) => {
    const head = await lockHead(transaction, changeId);
    const acknowledged = await receiptOf(transaction, changeId);
    if (acknowledged !== undefined) return acknowledged;
    const { first, last, importId } = await find(transaction);
    const undoes = await refuseUndone(transaction, first, last);
    const [run] = importId === undefined ? [] : await nodesById(transaction, [importId]);
    const marked = run?.record.properties["undone"];
    if (marked !== undefined) throw undoneBefore(last, String(marked), importId);
    const span = { first, last, limit: Number.MAX_SAFE_INTEGER };
    const entries = (await entriesIn(transaction, span)).filter(
      ({ subject }) => subject.kind === "link" || subject.id !== importId,
    );
    const fates = fatesOf(entries);
    records = fates.size;
    const graph = await loadWorkingGraph(transaction, head, wantedByUndo(fates));
    if (run !== undefined) graph.keepNode(run);
    refuseStandings(await standingOn(transaction, graph, fates, createdNodes(entries), last));
    putBack(graph, [...fates.values()]);
    const counts = { ...graph.counts };
    if (run !== undefined) {
      const { key, properties, extra } = run.record;
      graph.changeNode(run, { key, properties: { ...properties, undone: occasion.at }, extra });
    }
    if (graph.journal.isEmpty) throw nothingLeft(last);
    const receipt: WriteReceipt = {
      sequence: graph.journal.last,
      ...(importId === undefined ? {} : { importId }),
      ...counts,
    };
    await writeWorkingGraph(transaction, graph, report);
    await writeJournal(transaction, graph.journal, occasion, { changeId, receipt, undoes: first });
    if (undoes !== undefined)
      await transaction.run("MATCH (w:Write {first: $undoes}) REMOVE w.undone", { undoes });
    return receipt;
  });
  progress?.(records, records);
  return made;
}

/** The first number of the write that this one took back, if it did. Errors: `undo-blocked` where it was undone before. */
async function refuseUndone(
  transaction: Transaction,
  first: number,
  last: number,
): Promise<number | undefined> {
  const [row] = await transaction.rows(
    `MATCH (w:Write {first: $first}) OPTIONAL MATCH (u:Write {first: w.undone})
     RETURN w.undoes, u.at, w.import`,
    { first },
  );
  const [undoes, undoneAt, importId] = row ?? [null, null, null];
  // An import is known by the mark on its node, which comes back with it when the undo is undone.
  if (typeof undoneAt === "string" && importId === null) throw undoneBefore(last, undoneAt);
  return undoes === null ? undefined : numberOf(undoes);
}

const createdNodes = (entries: readonly FullEntry[]): ReadonlySet<NodeId> =>
  new Set(
    entries.flatMap(({ kind, subject }) =>
      kind === "created" && subject.kind === "node" ? [subject.id] : [],
    ),
  );

function wantedByUndo(fates: ReadonlyMap<string, Fate>): Wanted {
  const wanted = nothingWanted();
  for (const { subject, before, after } of fates.values()) {
    if (subject.kind === "node") {
      wanted.nodes.add(subject.id);
      if (before?.key !== undefined) wantKey(wanted, labelOf(subject.id), before.key);
    } else {
      wanted.nodes.add(subject.from);
      wanted.nodes.add(subject.to);
      wanted.links.push(subject);
    }
    if (before !== undefined && after === undefined)
      wanted.created.push(subject.kind === "node" ? subject.id : subject);
  }
  return wanted;
}

/** As `sqlite/standing-on.ts`: records no longer as the import left them, and relationships added to its nodes since. */
async function standingOn(
  transaction: Transaction,
  graph: WorkingGraph,
  fates: ReadonlyMap<string, Fate>,
  created: ReadonlySet<NodeId>,
  last: number,
): Promise<readonly Standing[]> {
  const found: { subject: string; because: string; sequence: number }[] = [];
  for (const [text, { subject, after, untouched }] of fates) {
    if (untouched !== undefined) continue;
    const now =
      subject.kind === "node"
        ? graph.node(subject.id)
        : graph.link(subject.type, subject.from, subject.to);
    const isSame =
      now === undefined || after === undefined
        ? now?.record === after
        : sameContent(contentOf(now.record), contentOf(after));
    if (isSame) continue;
    const because = now === undefined ? "was deleted" : "was changed";
    const sequence = Math.max(now?.n ?? 0, await latest(transaction, subject));
    found.push({ subject: text, because, sequence });
  }
  const added = await linksAt(transaction, created, { after: last });
  for (const { n, record } of [...added].sort((a, b) => a.n - b.n)) {
    const text = linkText(record.type, record.from, record.to);
    if (fates.has(text) || found.some(({ subject }) => subject === text)) continue;
    found.push({ subject: text, because: "was added", sequence: n });
  }
  const occasionAt = await occasionsOf(
    transaction,
    found.map(({ sequence }) => sequence),
  );
  return found.map(({ subject, because, sequence }) => {
    const { at, who } = occasionAt(sequence);
    return { subject, because, at, who };
  });
}

async function latest(transaction: Transaction, subject: Subject): Promise<number> {
  const [row] = await transaction.rows("MATCH (c:Change {about: $text}) RETURN max(c.sequence)", {
    text: subjectText(subject),
  });
  return row?.[0] === null || row === undefined ? 0 : numberOf(row[0]);
}
