import type { Properties, PropertyValue } from "../../../graph-schema/index.ts";
import type { LinkRecord, ProposedChange } from "../../../importers/change-set.ts";
import { Problem } from "../../errors/problem.ts";
import type { GraphDesk } from "./graph-desk.ts";
import { planDeletion } from "./plan-deletion.ts";
import type { Content, Numbered } from "./record-state.ts";
import { linkText } from "./refusals.ts";
import { sameContent } from "./same-content.ts";

const nothing: Content["extra"] = Object.freeze({});

/** Applies one change: what it needs must be there, in the version it was based on. `set` and `extra` are laid over what is there. */
export function applyChange(desk: GraphDesk, change: ProposedChange): void {
  switch (change.kind) {
    case "create-node":
      desk.createNode(change.label, change.id, {
        key: change.key,
        properties: change.properties,
        extra: change.extra ?? nothing,
      });
      return;
    case "create-link":
      desk.createLink(change.type, change.from, change.to, {
        properties: change.properties,
        extra: change.extra ?? nothing,
      });
      return;
    case "update-node": {
      const current = currentNode(desk, change);
      const after = {
        key: change.key ?? current.record.key,
        ...laidOver(current.record, change),
      };
      if (!sameContent(current.record, after)) desk.changeNode(current, after);
      return;
    }
    case "update-link": {
      const current = currentLink(desk, change);
      const after = laidOver(current.record, change);
      if (!sameContent(current.record, after)) desk.changeLink(current, after);
      return;
    }
    case "delete-node":
      for (const step of planDeletion(desk, currentNode(desk, change)))
        if (step.kind === "link") desk.removeLink(step.link);
        else desk.removeNode(step.node);
      return;
    case "delete-link":
      desk.removeLink(currentLink(desk, change));
      return;
  }
}

function currentNode(
  desk: GraphDesk,
  change: ProposedChange & { kind: "update-node" | "delete-node" },
) {
  const current = desk.node(change.id);
  if (current === undefined) throw missing(change.id);
  refuseStale(change.id, change, current.record);
  return current;
}

function currentLink(
  desk: GraphDesk,
  change: ProposedChange & { kind: "update-link" | "delete-link" },
): Numbered<LinkRecord> {
  const subject = linkText(change.type, change.from, change.to);
  const current = desk.link(change.type, change.from, change.to);
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
