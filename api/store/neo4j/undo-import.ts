import { randomUUID } from "node:crypto";
import { labelOf, type NodeId } from "../../../graph-schema/index.ts";
import type { WriteOccasion, WriteReceipt } from "../graph-store.ts";
import { type Fate, fatesOf, subjectText } from "../shared/import-fates.ts";
import { contentOf, type FullEntry, type Subject } from "../shared/record-state.ts";
import { linkText } from "../shared/refusals.ts";
import { sameContent } from "../shared/same-content.ts";
import {
  noSuchImport,
  putBack,
  refuseStandings,
  refuseUndoneBefore,
  type Standing,
} from "../shared/undo-rules.ts";
import { type Client, numberOf, type Transaction } from "./client.ts";
import { entriesIn, importRange, occasionsOf } from "./journal.ts";
import { loadWorkingGraph, nothingWanted, type Wanted, wantKey } from "./load-working-graph.ts";
import { linksAt, nodesById } from "./read-records.ts";
import type { WorkingGraph } from "./working-graph.ts";
import { lockHead, receiptOf, writeJournal } from "./write-journal.ts";
import { writeWorkingGraph } from "./write-working-graph.ts";

/** See `GraphStore.undoImport`; the rules are those of `shared/undo-rules.ts`. May be run again, as `applyChanges`. */
export async function undoImport(
  client: Client,
  importId: NodeId,
  occasion: WriteOccasion,
): Promise<WriteReceipt> {
  const changeId = randomUUID();
  return client.write(async (transaction) => {
    const head = await lockHead(transaction, changeId);
    const acknowledged = await receiptOf(transaction, changeId);
    if (acknowledged !== undefined) return acknowledged;
    const [run] =
      labelOf(importId) === "Import" ? await nodesById(transaction, [importId]) : [undefined];
    const range = await importRange(transaction, importId);
    if (run === undefined || range === undefined) throw noSuchImport(importId);
    refuseUndoneBefore(run.record);
    const span = { ...range, limit: Number.MAX_SAFE_INTEGER };
    const entries = (await entriesIn(transaction, span)).filter(
      ({ subject }) => subject.kind === "link" || subject.id !== importId,
    );
    const fates = fatesOf(entries);
    const graph = await loadWorkingGraph(transaction, head, wantedByUndo(fates));
    graph.keepNode(run);
    refuseStandings(await standingOn(transaction, graph, fates, createdNodes(entries), range.last));
    putBack(graph, [...fates.values()]);
    const counts = { ...graph.counts };
    const { key, properties, extra } = run.record;
    graph.changeNode(run, { key, properties: { ...properties, undone: occasion.at }, extra });
    const receipt = { sequence: graph.journal.last, importId, ...counts };
    await writeWorkingGraph(transaction, graph, () => undefined);
    await writeJournal(transaction, graph.journal, occasion, { changeId, receipt });
    return receipt;
  });
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
