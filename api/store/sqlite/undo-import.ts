import { labelOf, type NodeId, quoteName } from "../../../graph-schema/index.ts";
import type { LinkRecord, NodeRecord } from "../../../importers/change-set.ts";
import { Problem } from "../../errors/problem.ts";
import type { WriteOccasion, WriteReceipt } from "../graph-store.ts";
import type { Connection } from "./connection.ts";
import { GraphWriter } from "./graph-writer.ts";
import { type Fate, fatesOf, subjectText } from "./import-fates.ts";
import { entriesIn, importRange } from "./journal.ts";
import type { Subject } from "./journal-writer.ts";
import { type Numbered, readLink, readNode } from "./read-records.ts";
import { sameContent } from "./same-content.ts";
import { contentOf, type Standing, standingOn } from "./standing-on.ts";

const namedStandings = 20;

/**
 * Puts every record an import touched back to how the import found it, in one transaction that is journalled
 * like any other; the Import node stays, marked undone. Refused where a record it touched is no longer as it
 * left it, or where something new is linked to a node it created. Changes that were themselves taken back do not
 * stand in the way.
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
        { facts: { subject: importId } },
      );
    const undone = run.record.properties["undone"];
    if (undone !== undefined)
      throw new Problem(
        "undo-blocked",
        `An import can be undone once; this one was undone on ${String(undone)}. Import the file again if you want it back.`,
        { facts: { importId, undone } },
      );
    const entries = entriesIn(connection, { ...range, limit: Number.MAX_SAFE_INTEGER }).filter(
      ({ subject }) => subject.kind === "link" || subject.id !== importId,
    );
    const fates = fatesOf(entries);
    const createdNodes = new Set(
      entries.flatMap(({ kind, subject }) =>
        kind === "created" && subject.kind === "node" ? [subject.id] : [],
      ),
    );
    refuseStandings(standingOn(connection, fates, createdNodes, range.last));
    const writer = new GraphWriter(connection);
    putBack(connection, writer, [...fates.values()]);
    const counts = { ...writer.counts };
    writer.changeNode(run, {
      key: run.record.key,
      properties: { ...run.record.properties, undone: occasion.at },
      extra: run.record.extra,
    });
    return { sequence: writer.journal.close(occasion, undefined), importId, ...counts };
  });
}

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

type NodeSubject = Subject & { kind: "node" };
type LinkSubject = Subject & { kind: "link" };

/** Links go before their ends and come after them; keys are freed before any is given out again. */
function putBack(connection: Connection, writer: GraphWriter, fates: readonly Fate[]): void {
  const ofLinks = fates.filter(({ subject }) => subject.kind === "link");
  const ofNodes = fates.filter(({ subject }) => subject.kind === "node");
  const added = ({ before, after }: Fate) => before === undefined && after !== undefined;
  const each = (list: readonly Fate[], work: (fate: Fate) => void) => {
    for (const fate of list) naming(fate.subject, () => work(fate));
  };
  each(ofLinks.filter(added), ({ subject, untouched }) => {
    const link =
      (untouched as Numbered<LinkRecord> | undefined) ??
      linkNow(connection, writer, subject as LinkSubject);
    if (link !== undefined) writer.removeLink(link);
  });
  each(ofNodes.filter(added), ({ subject, untouched }) => {
    const node =
      (untouched as Numbered<NodeRecord> | undefined) ??
      readNode(connection, (subject as NodeSubject).id);
    if (node !== undefined) writer.removeNode(node);
  });
  const altered = ofNodes.flatMap((fate) => {
    const { before, after } = fate;
    if (before === undefined || after === undefined) return [];
    if (sameContent(contentOf(before), contentOf(after))) return [];
    const node = readNode(connection, (fate.subject as NodeSubject).id);
    return node === undefined ? [] : [{ fate, node, before }];
  });
  for (const { node, before } of altered)
    if (before.key !== node.record.key) freeKey(connection, node);
  each(ofNodes, ({ subject, before, after }) => {
    const { id } = subject as NodeSubject;
    if (before !== undefined && after === undefined)
      writer.createNode(labelOf(id), id, { ...before, key: before.key ?? "" });
  });
  for (const { fate, node, before } of altered)
    naming(fate.subject, () => writer.changeNode(node, { ...before, key: before.key ?? "" }));
  each(ofLinks, ({ subject, before, after }) => {
    if (before === undefined) return;
    const { type, from, to } = subject as LinkSubject;
    if (after === undefined) return writer.createLink(type, from, to, before);
    if (sameContent(contentOf(before), contentOf(after))) return;
    const link = linkNow(connection, writer, subject as LinkSubject);
    if (link !== undefined) writer.changeLink(link, before);
  });
}

function linkNow(connection: Connection, writer: GraphWriter, { type, from, to }: LinkSubject) {
  const [a, b] = [writer.numberOf(from), writer.numberOf(to)];
  return a === undefined || b === undefined ? undefined : readLink(connection, type, a, b);
}

/** Gives a node that is about to get its old key back a passing one, so that keys may have changed places. */
function freeKey(connection: Connection, { n, record }: Numbered<NodeRecord>): void {
  connection.run(`UPDATE ${quoteName(record.label)} SET key = ? WHERE n = ?`, `\u001f${n}`, n);
}

/** Runs `work`, and where the graph refuses it says that the record can no longer be put back. */
function naming(subject: Subject, work: () => void): void {
  try {
    work();
  } catch (cause) {
    if (!(cause instanceof Problem) || cause.kind === "unavailable") throw cause;
    throw new Problem(
      "undo-blocked",
      `What the import did to ${subjectText(subject)} cannot be taken back any more: ${cause.message}`,
      { cause, facts: { standing: [{ subject: subjectText(subject), because: cause.code }] } },
    );
  }
}
