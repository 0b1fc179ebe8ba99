import {
  labelOf,
  type NodeId,
  nodeLabelNames,
  type RelationshipType,
  relationshipTypeNames,
} from "../../../graph-schema/index.ts";
import type { GraphStore, JournalEntry } from "../graph-store.ts";
import { linkCreated, nodeCreated } from "../shared/created-entries.ts";
import { typesFrom, typesTo } from "../shared/link-types.ts";
import type { FullEntry, RecordState } from "../shared/record-state.ts";
import type { Connection, Row } from "./connection.ts";
import { linksWhere, nodesWhere, readNode } from "./read-records.ts";

interface Span {
  /** First and last sequence number looked at, both included. */
  readonly first: number;
  readonly last: number;
  readonly limit: number;
}

/** Entries of a span, newest first; those about one node (and the relationships at it), or all. */
export function entriesIn(
  connection: Connection,
  span: Span,
  about?: NodeId,
): readonly FullEntry[] {
  const written = writtenEntries(connection, span, about);
  const living =
    about === undefined ? livingAll(connection, span) : livingAbout(connection, span, about);
  return [...written, ...living].sort((a, b) => b.sequence - a.sequence).slice(0, span.limit);
}

const tail = "ORDER BY sequence DESC LIMIT ?";

function writtenEntries(
  connection: Connection,
  { first, last, limit }: Span,
  about: NodeId | undefined,
): readonly FullEntry[] {
  const select =
    "SELECT sequence, kind, type, subject, other, before, after FROM entry WHERE sequence BETWEEN ? AND ?";
  if (about === undefined)
    return connection.rows(`${select} ${tail}`, first, last, limit).map(toEntry);
  return [
    ...connection.rows(`${select} AND subject = ? ${tail}`, first, last, about, limit),
    ...connection.rows(`${select} AND other = ? ${tail}`, first, last, about, limit),
  ].map(toEntry);
}

export function toEntry(row: Row): FullEntry {
  const [sequence, kind, type, subject, other, before, after] = row;
  const state = (text: typeof before) => JSON.parse(String(text)) as RecordState;
  return {
    sequence: Number(sequence),
    kind: kind as FullEntry["kind"],
    subject:
      type === null
        ? { kind: "node", id: subject as NodeId }
        : {
            kind: "link",
            type: type as RelationshipType,
            from: subject as NodeId,
            to: other as NodeId,
          },
    ...(before === null ? {} : { before: state(before) }),
    ...(after === null ? {} : { after: state(after) }),
  };
}

/** Rows whose own creation is their only entry: see migration 1. */
const unwritten = "NOT EXISTS (SELECT 1 FROM entry WHERE entry.sequence = r.n)";
const inSpan = `r.n BETWEEN ? AND ? AND ${unwritten}`;
const rowTail = "ORDER BY r.n DESC LIMIT ?";

function livingAll(connection: Connection, span: Span): readonly FullEntry[] {
  const { first, last, limit } = span;
  const condition = `WHERE ${inSpan} ${rowTail}`;
  return [
    ...nodeLabelNames.flatMap((label) =>
      nodesWhere(connection, label, condition, first, last, limit).map(nodeCreated),
    ),
    ...relationshipTypeNames.flatMap((type) =>
      linksWhere(connection, type, condition, first, last, limit).map(linkCreated),
    ),
  ];
}

function livingAbout(connection: Connection, span: Span, about: NodeId): readonly FullEntry[] {
  const { first, last, limit } = span;
  const node = readNode(connection, about);
  if (node === undefined) return [];
  const label = labelOf(about);
  const links = (type: RelationshipType, end: string) =>
    linksWhere(
      connection,
      type,
      `WHERE ${end} = ? AND ${inSpan} ${rowTail}`,
      node.n,
      first,
      last,
      limit,
    ).map(linkCreated);
  return [
    ...nodesWhere(connection, label, `WHERE r.n = ? AND ${inSpan}`, node.n, first, last).map(
      nodeCreated,
    ),
    ...typesFrom(label).flatMap((type) => links(type, "r.fromNode")),
    ...typesTo(label).flatMap((type) => links(type, "r.toNode")),
  ];
}

/** The journal, newest first; see `GraphStore.journal`. */
export function readJournal(
  connection: Connection,
  query: Parameters<GraphStore["journal"]>[0],
): readonly JournalEntry[] {
  const span = spanOf(connection, query);
  if (span === undefined || span.last < span.first) return [];
  return entriesIn(connection, span, query.about).map((entry) => {
    const [at, who, importId] = occasionAt(connection, entry.sequence);
    return {
      sequence: entry.sequence,
      at,
      who,
      ...(importId === null ? {} : { importId }),
      kind: entry.kind,
      subject: entry.subject,
      ...(entry.before === undefined ? {} : { before: entry.before.properties }),
      ...(entry.after === undefined ? {} : { after: entry.after.properties }),
    };
  });
}

function spanOf(
  connection: Connection,
  { importId, limit, before, since = 1 }: Parameters<GraphStore["journal"]>[0],
): Span | undefined {
  const newest = before === undefined ? Number.MAX_SAFE_INTEGER : before - 1;
  if (importId === undefined) return { first: since, last: newest, limit };
  const range = importRange(connection, importId);
  return (
    range && { first: Math.max(range.first, since), last: Math.min(range.last, newest), limit }
  );
}

/** The sequence numbers an import wrote. */
export function importRange(
  connection: Connection,
  importId: NodeId,
): { readonly first: number; readonly last: number } | undefined {
  const row = connection.row("SELECT first, last FROM occasion WHERE import = ?", importId);
  return row && { first: Number(row[0]), last: Number(row[1]) };
}

/** When, by whom and of which import the entry of this number was written. */
export function occasionAt(
  connection: Connection,
  sequence: number,
): readonly [at: string, who: string, importId: NodeId | null] {
  const row = connection.row(
    "SELECT at, who, import FROM occasion WHERE first <= ? ORDER BY first DESC LIMIT 1",
    sequence,
  );
  return [String(row?.[0] ?? ""), String(row?.[1] ?? ""), (row?.[2] ?? null) as NodeId | null];
}
