import { labelOf, type NodeId, type RelationshipType } from "../../../graph-schema/index.ts";
import type { GraphStore, JournalEntry } from "../graph-store.ts";
import { linkCreated, nodeCreated } from "../shared/created-entries.ts";
import type { FullEntry, RecordState } from "../shared/record-state.ts";
import { numberOf, type Transaction } from "./client.ts";
import { decodeLink } from "./codec.ts";
import { linksByEnds, nodesById, ticked } from "./read-records.ts";

interface Span {
  /** First and last sequence number looked at, both included. */
  readonly first: number;
  readonly last: number;
  readonly limit: number;
}

/** When, by whom and of which import a range of entries was written. */
export interface Occasion {
  readonly first: number;
  readonly last: number;
  readonly at: string;
  readonly who: string;
  readonly importId?: NodeId;
}

/** The largest limit that the server takes. */
const everything = Number.MAX_SAFE_INTEGER;

/** Entries of a span, newest first; those about one node (and the relationships at it), or all. */
export async function entriesIn(
  transaction: Transaction,
  span: Span,
  about?: NodeId,
): Promise<readonly FullEntry[]> {
  const written = await writtenEntries(transaction, span, about);
  const living =
    about === undefined
      ? await livingAll(transaction, span)
      : await livingAbout(transaction, span, about);
  return [...written, ...living].sort((a, b) => b.sequence - a.sequence).slice(0, span.limit);
}

async function writtenEntries(
  transaction: Transaction,
  { first, last, limit }: Span,
  about: NodeId | undefined,
): Promise<readonly FullEntry[]> {
  const ask = (condition: string) =>
    transaction.rows(
      `MATCH (c:Change) WHERE ${condition} c.sequence >= $first AND c.sequence <= $last
       RETURN c.sequence, c.kind, c.type, c.from, c.to, c.before, c.after
       ORDER BY c.sequence DESC LIMIT toInteger($limit)`,
      { first, last, limit, about },
    );
  const rows =
    about === undefined
      ? await ask("")
      : [...(await ask("c.from = $about AND ")), ...(await ask("c.to = $about AND "))];
  return rows.map(toEntry);
}

export function toEntry(row: readonly unknown[]): FullEntry {
  const [sequence, kind, type, from, to, before, after] = row;
  const state = (text: unknown) => JSON.parse(String(text)) as RecordState;
  return {
    sequence: numberOf(sequence),
    kind: kind as FullEntry["kind"],
    subject:
      type === null
        ? { kind: "node", id: from as NodeId }
        : { kind: "link", type: type as RelationshipType, from: from as NodeId, to: to as NodeId },
    ...(before === null ? {} : { before: state(before) }),
    ...(after === null ? {} : { after: state(after) }),
  };
}

/** Creations are kept in pieces, each with its numbers and subjects; those changed since have an entry of their own. */
async function livingAll(transaction: Transaction, span: Span): Promise<readonly FullEntry[]> {
  const living: FullEntry[] = [];
  let last = span.last;
  while (living.length < span.limit) {
    const [piece] = await transaction.rows(
      `MATCH (b:Creations) WHERE b.first <= $last WITH b ORDER BY b.first DESC LIMIT 1
       WHERE b.last >= $first RETURN b.first, b.sequences, b.subjects`,
      { first: span.first, last },
    );
    if (piece === undefined) break;
    const numbers = (piece[1] as unknown[]).map(numberOf);
    const subjects = piece[2] as string[];
    const wanted = new Map<number, string>();
    for (const [at, n] of numbers.entries())
      if (n >= span.first && n <= span.last) wanted.set(n, subjects[at] ?? "");
    for (const n of await writtenNumbers(transaction, numbers)) wanted.delete(n);
    living.push(...(await untouchedRecords(transaction, wanted)));
    last = numberOf(piece[0]) - 1;
  }
  return living.sort((a, b) => b.sequence - a.sequence).slice(0, span.limit);
}

async function writtenNumbers(
  transaction: Transaction,
  numbers: readonly number[],
): Promise<readonly number[]> {
  const rows = await transaction.rows(
    "MATCH (c:Change) WHERE c.sequence >= $low AND c.sequence <= $high RETURN c.sequence",
    { low: numbers[0] ?? 0, high: numbers.at(-1) ?? 0 },
  );
  return rows.map(([n]) => numberOf(n));
}

async function untouchedRecords(
  transaction: Transaction,
  wanted: ReadonlyMap<number, string>,
): Promise<readonly FullEntry[]> {
  const ids: NodeId[] = [];
  const ends: { type: RelationshipType; from: NodeId; to: NodeId }[] = [];
  for (const subject of wanted.values()) {
    const [a, b, c] = subject.split(" ");
    if (b === undefined) ids.push(a as NodeId);
    else ends.push({ type: a as RelationshipType, from: b as NodeId, to: c as NodeId });
  }
  return [
    ...(await nodesById(transaction, ids)).map(nodeCreated),
    ...(await linksByEnds(transaction, ends)).map(linkCreated),
  ].filter(({ sequence }) => wanted.has(sequence));
}

async function livingAbout(
  transaction: Transaction,
  { first, last, limit }: Span,
  about: NodeId,
): Promise<readonly FullEntry[]> {
  const isUnwritten = (name: string) =>
    `${name}.sequence >= $first AND ${name}.sequence <= $last AND NOT EXISTS { MATCH (c:Change {sequence: ${name}.sequence}) }`;
  const [node] = await nodesById(transaction, [about]);
  if (node === undefined) return [];
  const written = new Set(await writtenNumbers(transaction, [node.n]));
  const rows = await transaction.rows(
    `MATCH (:${ticked(labelOf(about))} {id: $about})-[r]-() WHERE ${isUnwritten("r")}
     WITH DISTINCT r ORDER BY r.sequence DESC LIMIT toInteger($limit)
     RETURN type(r), startNode(r).id, endNode(r).id, properties(r)`,
    { about, first, last, limit },
  );
  const links = rows.map(([type, from, to, values]) =>
    decodeLink(type as RelationshipType, from as NodeId, to as NodeId, values),
  );
  const own = node.n >= first && node.n <= last && !written.has(node.n) ? [nodeCreated(node)] : [];
  return [...own, ...links.map(linkCreated)];
}

/** The journal, newest first; see `GraphStore.journal`. */
export async function readJournal(
  transaction: Transaction,
  { about, importId, limit, before, since = 1 }: Parameters<GraphStore["journal"]>[0],
): Promise<readonly JournalEntry[]> {
  const newest = before === undefined ? everything : before - 1;
  const range =
    importId === undefined
      ? { first: since, last: everything }
      : await importRange(transaction, importId);
  if (range === undefined) return [];
  const span = { first: Math.max(range.first, since), last: Math.min(range.last, newest), limit };
  if (span.last < span.first) return [];
  const entries = await entriesIn(transaction, span, about);
  const occasionAt = await occasionsOf(
    transaction,
    entries.map(({ sequence }) => sequence),
  );
  return entries.map((entry) => {
    const { at, who, importId: of } = occasionAt(entry.sequence);
    return {
      sequence: entry.sequence,
      at,
      who,
      ...(of === undefined ? {} : { importId: of }),
      kind: entry.kind,
      subject: entry.subject,
      ...(entry.before === undefined ? {} : { before: entry.before.properties }),
      ...(entry.after === undefined ? {} : { after: entry.after.properties }),
    };
  });
}

/** The sequence numbers an import wrote. */
export async function importRange(
  transaction: Transaction,
  importId: NodeId,
): Promise<{ readonly first: number; readonly last: number } | undefined> {
  const [row] = await transaction.rows(
    "MATCH (w:Write {import: $importId}) RETURN w.first, w.last",
    { importId },
  );
  return row && { first: numberOf(row[0]), last: numberOf(row[1]) };
}

const unknownOccasion: Occasion = { first: 0, last: 0, at: "", who: "" };

/** Reads the occasions of these sequence numbers; the answer finds one by number. */
export async function occasionsOf(
  transaction: Transaction,
  sequences: readonly number[],
): Promise<(sequence: number) => Occasion> {
  let low = everything;
  let high = 0;
  for (const sequence of sequences) {
    low = Math.min(low, sequence);
    high = Math.max(high, sequence);
  }
  const rows = await transaction.rows(
    `MATCH (w:Write) WHERE w.first <= $high AND w.last >= $low
     RETURN w.first, w.last, w.at, w.who, w.import ORDER BY w.first`,
    { low, high },
  );
  const occasions = rows.map(
    ([first, last, at, who, importId]): Occasion => ({
      first: numberOf(first),
      last: numberOf(last),
      at: String(at),
      who: String(who),
      ...(importId === null ? {} : { importId: importId as NodeId }),
    }),
  );
  return (sequence) => {
    let [from, to] = [0, occasions.length - 1];
    while (from < to) {
      const middle = (from + to + 1) >> 1;
      if ((occasions[middle]?.first ?? 0) <= sequence) from = middle;
      else to = middle - 1;
    }
    return occasions[from] ?? unknownOccasion;
  };
}
