import { type NodeId, relationshipTypeNames } from "../../../graph-schema/index.ts";
import { type Fate, subjectText } from "../shared/import-fates.ts";
import { contentOf, type Subject } from "../shared/record-state.ts";
import { linkText } from "../shared/refusals.ts";
import { sameContent } from "../shared/same-content.ts";
import type { Standing } from "../shared/undo-rules.ts";
import type { Connection } from "./connection.ts";
import { entriesIn, occasionAt } from "./journal.ts";
import { linksWhere, readLink, readNode } from "./read-records.ts";

/**
 * What stands on an import whose last sequence number is `last`: records that are no longer as it left them,
 * and relationships added since to nodes it created (`createdNodes`, also those it deleted again).
 */
export function standingOn(
  connection: Connection,
  fates: ReadonlyMap<string, Fate>,
  createdNodes: ReadonlySet<NodeId>,
  last: number,
): readonly Standing[] {
  const standings: Standing[] = [];
  for (const [text, { subject, after, untouched }] of fates) {
    if (untouched !== undefined) continue;
    const now = current(connection, subject);
    const same =
      now === undefined || after === undefined
        ? now === after
        : sameContent(contentOf(now), contentOf(after));
    if (same) continue;
    const because = now === undefined ? "was deleted" : "was changed";
    standings.push({ subject: text, because, ...latest(connection, subject) });
  }
  for (const type of relationshipTypeNames)
    for (const { n, record } of linksWhere(connection, type, "WHERE r.n > ? ORDER BY r.n", last)) {
      const text = linkText(type, record.from, record.to);
      if (fates.has(text) || !(createdNodes.has(record.from) || createdNodes.has(record.to)))
        continue;
      const [at, who] = occasionAt(connection, n);
      standings.push({ subject: text, because: "was added", at, who });
    }
  return standings;
}

function current(connection: Connection, subject: Subject) {
  if (subject.kind === "node") return readNode(connection, subject.id)?.record;
  const from = readNode(connection, subject.from)?.n;
  const to = readNode(connection, subject.to)?.n;
  if (from === undefined || to === undefined) return undefined;
  return readLink(connection, subject.type, from, to)?.record;
}

function latest(connection: Connection, subject: Subject): { at: string; who: string } {
  const about = subject.kind === "node" ? subject.id : subject.from;
  const wanted = subjectText(subject);
  const span = { first: 1, last: Number.MAX_SAFE_INTEGER, limit: 1000 };
  const entry = entriesIn(connection, span, about).find(
    (candidate) => subjectText(candidate.subject) === wanted,
  );
  const [at, who] = occasionAt(connection, entry?.sequence ?? 0);
  return { at, who };
}
