import { labelOf, type NodeId, relationshipTypeNames } from "../../../graph-schema/index.ts";
import { Problem } from "../../errors/problem.ts";
import type { WriteOccasion, WriteReceipt } from "../graph-store.ts";
import type { Connection } from "./connection.ts";
import { GraphWriter, linkText } from "./graph-writer.ts";
import { entriesIn, type FullEntry, importRange, occasionAt } from "./journal.ts";
import type { RecordState, Subject } from "./journal-writer.ts";
import { linksWhere, readLink, readNode } from "./read-records.ts";
import { sameContent } from "./same-content.ts";

/** One later change that stands on what an undo would take away. */
interface Standing {
  readonly subject: string;
  readonly because: string;
  readonly at: string;
  readonly who: string;
}
const namedStandings = 20;

/**
 * Takes back all an import did, newest first, in one transaction that is journalled like any other; the Import
 * node stays, marked undone. Refused where a record it touched is no longer as it left it, or where something
 * new is linked to a node it created. Changes that were themselves taken back do not stand in the way.
 */
export function undoImport(
  connection: Connection,
  importId: NodeId,
  occasion: WriteOccasion,
): WriteReceipt {
  return connection.transaction("write", () => {
    const run = labelOf(importId) === "Import" ? readNode(connection, importId) : undefined;
    const range = importRange(connection, importId);
    if (run === undefined || range === undefined)
      throw new Problem(
        "not-found",
        `Only an import in the journal can be undone; there is none by the id ${importId}. List the imports and choose one.`,
      );
    const undone = run.record.properties["undone"];
    if (undone !== undefined)
      throw new Problem(
        "undo-blocked",
        `An import can be undone once; this one was undone on ${String(undone)}. Import the file again if you want it back.`,
        { facts: { importId, undone } },
      );
    const entries = entriesIn(connection, {
      ...range,
      limit: Number.MAX_SAFE_INTEGER,
    }).filter(({ subject }) => subject.kind === "link" || subject.id !== importId);
    refuseStandings(standingOn(connection, entries, range.last));
    const writer = new GraphWriter(connection);
    for (const entry of entries) reverse(connection, writer, entry);
    const counts = { ...writer.counts };
    writer.changeNode(run, {
      key: run.record.key,
      properties: { ...run.record.properties, undone: occasion.at },
      extra: run.record.extra,
    });
    return { sequence: writer.journal.close(occasion, undefined), importId, ...counts };
  });
}

const subjectText = (subject: Subject): string =>
  subject.kind === "node" ? subject.id : linkText(subject.type, subject.from, subject.to);

function refuseStandings(standings: readonly Standing[]): void {
  if (standings.length === 0) return;
  const first = standings
    .slice(0, 3)
    .map(({ subject, because, at }) => `${subject} ${because} on ${at}`)
    .join("; ");
  const more = standings.length > 3 ? `; and ${standings.length - 3} more` : "";
  throw new Problem(
    "undo-blocked",
    `An import can be undone while nothing later stands on it; since then ${first}${more}. Undo or remove those first.`,
    { facts: { count: standings.length, standing: standings.slice(0, namedStandings) } },
  );
}

function current(connection: Connection, subject: Subject) {
  if (subject.kind === "node") return readNode(connection, subject.id)?.record;
  const from = readNode(connection, subject.from)?.n;
  const to = readNode(connection, subject.to)?.n;
  if (from === undefined || to === undefined) return undefined;
  return readLink(connection, subject.type, from, to)?.record;
}

function standingOn(
  connection: Connection,
  newestFirst: readonly FullEntry[],
  last: number,
): readonly Standing[] {
  const standings: Standing[] = [];
  const seen = new Set<string>();
  const createdNodes = new Set<NodeId>();
  for (const entry of newestFirst) {
    const text = subjectText(entry.subject);
    if (entry.kind === "created" && entry.subject.kind === "node")
      createdNodes.add(entry.subject.id);
    // The newest entry of the import about a record says how the import left it.
    if (seen.has(text)) continue;
    seen.add(text);
    if (entry.untouched) continue;
    const now = current(connection, entry.subject);
    const same =
      now === undefined || entry.after === undefined
        ? now === entry.after
        : sameContent(withKey(now), withKey(entry.after));
    if (!same)
      standings.push({
        subject: text,
        because: now === undefined ? "was deleted" : "was changed",
        ...latest(connection, entry.subject),
      });
  }
  for (const type of relationshipTypeNames)
    for (const { n, record } of linksWhere(connection, type, "WHERE r.n > ? ORDER BY r.n", last)) {
      const text = linkText(type, record.from, record.to);
      if (seen.has(text) || !(createdNodes.has(record.from) || createdNodes.has(record.to)))
        continue;
      const [at, who] = occasionAt(connection, n);
      standings.push({ subject: text, because: "was added", at, who });
    }
  return standings;
}

const withKey = (state: Pick<RecordState, "properties" | "extra" | "key">) => ({
  ...(state.key === undefined ? {} : { key: state.key }),
  properties: state.properties,
  extra: state.extra,
});

function latest(connection: Connection, subject: Subject): { at: string; who: string } {
  const about = subject.kind === "node" ? subject.id : subject.from;
  const wanted = subjectText(subject);
  const entry = entriesIn(
    connection,
    { first: 1, last: Number.MAX_SAFE_INTEGER, limit: 1000 },
    about,
  ).find((candidate) => subjectText(candidate.subject) === wanted);
  const [at, who] = occasionAt(connection, entry?.sequence ?? 0);
  return { at, who };
}

/** Writes the opposite of one entry. What it names is there: the import left it so and nothing later stands on it. */
function reverse(connection: Connection, writer: GraphWriter, entry: FullEntry): void {
  const { subject, before } = entry;
  try {
    if (subject.kind === "node") {
      const node = readNode(connection, subject.id);
      if (before === undefined) {
        if (node !== undefined) writer.removeNode(node);
      } else {
        const content = { ...before, key: before.key ?? "" };
        if (node === undefined) writer.createNode(labelOf(subject.id), subject.id, content);
        else writer.changeNode(node, content);
      }
      return;
    }
    const { type, from, to } = subject;
    const link = readLink(connection, type, writer.numberOf(from) ?? 0, writer.numberOf(to) ?? 0);
    if (before === undefined) {
      if (link !== undefined) writer.removeLink(link);
    } else if (link === undefined) writer.createLink(type, from, to, before);
    else writer.changeLink(link, before);
  } catch (cause) {
    if (!(cause instanceof Problem) || cause.kind === "unavailable") throw cause;
    throw new Problem(
      "undo-blocked",
      `What the import did to ${subjectText(subject)} cannot be taken back any more: ${cause.message}`,
      { cause, facts: { standing: [{ subject: subjectText(subject), because: cause.code }] } },
    );
  }
}
