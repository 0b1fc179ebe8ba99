import {
  labelOf,
  type NodeId,
  type NodeKey,
  type NodeLabel,
  type RelationshipType,
  relationshipDeclaration,
} from "../../../graph-schema/index.ts";
import { Problem } from "../../errors/problem.ts";

/** What every store says of a write it refuses; the same words whichever store holds the graph. */

export const linkText = (type: RelationshipType, from: NodeId, to: NodeId): string =>
  `${type} ${from} > ${to}`;

/** Errors: `input-invalid` where the id of a new node does not begin with its label. */
export function refuseForeignId(label: NodeLabel, id: NodeId): void {
  if (labelOf(id) !== label)
    throw new Problem(
      "input-invalid",
      `The id of a node begins with its label; ${id} is proposed for a ${label}.`,
    );
}

/** Errors: `input-invalid` where a relationship may not lead from and to such nodes. */
export function refuseWrongEnds(type: RelationshipType, from: NodeId, to: NodeId): void {
  const declared = relationshipDeclaration(type);
  if (!declared.from.includes(labelOf(from)) || !declared.to.includes(labelOf(to)))
    throw new Problem(
      "input-invalid",
      `${type} leads from ${declared.from.join(" or ")} to ${declared.to.join(" or ")}; ${from} to ${to} was proposed.`,
    );
}

export const endMissing = (id: NodeId, type: RelationshipType): Problem =>
  new Problem(
    "not-found",
    `Both ends of a relationship must exist; ${id}, an end of a proposed ${type}, does not. Read the graph again and repeat the change.`,
    { facts: { subject: id } },
  );

export function linkTaken(
  type: RelationshipType,
  from: NodeId,
  to: NodeId,
  cause?: unknown,
): Problem {
  const text = linkText(type, from, to);
  return new Problem(
    "key-taken",
    relationshipDeclaration(type).each === "one"
      ? `${from} may have one ${type} and has one already; remove it before adding ${to}. Read the record again and repeat the change.`
      : `${text} exists already. Read it again and change it instead.`,
    { cause, facts: { subject: text } },
  );
}

export function keyTaken(id: NodeId, key: NodeKey, cause?: unknown): Problem {
  const words = key.replaceAll("\u001f", ", ");
  return new Problem(
    "key-taken",
    `A ${labelOf(id)} must have a name of its own; "${words}" (${id}) is taken. Change the one that exists, or choose another name.`,
    { cause, facts: { subject: id, key: words } },
  );
}
