import type { Properties, PropertyValue } from "../../../graph-schema/index.ts";
import type { ChangeSet, LinkRecord, ProposedChange } from "../../../importers/change-set.ts";
import { Problem } from "../../errors/problem.ts";
import type { WriteOccasion, WriteReceipt } from "../graph-store.ts";
import type { Connection } from "./connection.ts";
import { type Content, GraphWriter, linkText } from "./graph-writer.ts";
import { planDeletion } from "./plan-deletion.ts";
import { type Numbered, readLink, readNode } from "./read-records.ts";
import { recordImport } from "./record-import.ts";
import { sameContent } from "./same-content.ts";

type Progress = (done: number, total: number) => void;
const changesPerReport = 2000;
const nothing: Content["extra"] = Object.freeze({});

/**
 * Applies a change set in one transaction, journalled, durable on return. A change that alters nothing is
 * not written; an import that alters nothing leaves no Import node. `set` and `extra` are laid over what is there.
 */
export function applyChanges(
  connection: Connection,
  { changes }: ChangeSet,
  occasion: WriteOccasion,
  progress?: Progress,
): WriteReceipt {
  return connection.transaction("write", () => {
    const writer = new GraphWriter(connection);
    let done = 0;
    for (const change of changes) {
      applyOne(connection, writer, change);
      if (++done % changesPerReport === 0) progress?.(done, changes.length);
    }
    const counts = { ...writer.counts };
    const importId = recordImport(connection, writer, occasion);
    const sequence = writer.journal.close(occasion, importId);
    progress?.(changes.length, changes.length);
    return { sequence, ...(importId === undefined ? {} : { importId }), ...counts };
  });
}

function applyOne(connection: Connection, writer: GraphWriter, change: ProposedChange): void {
  switch (change.kind) {
    case "create-node":
      writer.createNode(change.label, change.id, {
        key: change.key,
        properties: change.properties,
        extra: change.extra ?? nothing,
      });
      return;
    case "create-link":
      writer.createLink(change.type, change.from, change.to, {
        properties: change.properties,
        extra: change.extra ?? nothing,
      });
      return;
    case "update-node": {
      const current = currentNode(connection, change);
      const after = {
        key: change.key ?? current.record.key,
        ...laidOver(current.record, change),
      };
      if (!sameContent(current.record, after)) writer.changeNode(current, after);
      return;
    }
    case "update-link": {
      const current = currentLink(connection, writer, change);
      const after = laidOver(current.record, change);
      if (!sameContent(current.record, after)) writer.changeLink(current, after);
      return;
    }
    case "delete-node":
      for (const step of planDeletion(connection, currentNode(connection, change)))
        if (step.kind === "link") writer.removeLink(step.link);
        else writer.removeNode(step.node);
      return;
    case "delete-link":
      writer.removeLink(currentLink(connection, writer, change));
      return;
  }
}

function currentNode(
  connection: Connection,
  change: ProposedChange & { kind: "update-node" | "delete-node" },
) {
  const current = readNode(connection, change.id);
  if (current === undefined) throw missing(change.id);
  refuseStale(change.id, change, current.record);
  return current;
}

function currentLink(
  connection: Connection,
  writer: GraphWriter,
  change: ProposedChange & { kind: "update-link" | "delete-link" },
): Numbered<LinkRecord> {
  const subject = linkText(change.type, change.from, change.to);
  const from = writer.numberOf(change.from);
  const to = writer.numberOf(change.to);
  const current =
    from === undefined || to === undefined
      ? undefined
      : readLink(connection, change.type, from, to);
  if (current === undefined) throw missing(subject);
  refuseStale(subject, change, current.record);
  return current;
}

function missing(subject: string): Problem {
  return new Problem(
    "not-found",
    `Only what exists can be changed or deleted; ${subject} does not exist (any more). Read the graph again and repeat the change.`,
    { facts: { subject } },
  );
}

function refuseStale(
  subject: string,
  change: {
    readonly basedOn: number;
    readonly set?: Properties;
    readonly clear?: readonly string[];
  },
  current: { readonly version: number; readonly properties: Properties },
): void {
  if (change.basedOn === current.version) return;
  throw new Problem(
    "write-stale",
    `A change must be based on the newest version; ${subject} is at version ${current.version}, the change was based on ${change.basedOn}. Nothing was written. Look at both and repeat the change.`,
    {
      facts: {
        subject,
        yours: { version: change.basedOn, set: change.set ?? {}, clear: change.clear ?? [] },
        theirs: { version: current.version, properties: current.properties },
      },
    },
  );
}

function laidOver(
  current: Content,
  change: {
    readonly set: Properties;
    readonly clear?: readonly string[];
    readonly extra?: Content["extra"];
  },
): Content {
  const properties: Record<string, PropertyValue> = { ...current.properties, ...change.set };
  for (const name of change.clear ?? []) delete properties[name];
  return {
    properties,
    extra: change.extra === undefined ? current.extra : { ...current.extra, ...change.extra },
  };
}
