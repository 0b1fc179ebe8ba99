import {
  labelOf,
  type NodeId,
  type NodeLabel,
  nodeLabelNames,
  type RelationshipType,
  relationshipDeclaration,
  relationshipTypeNames,
} from "../../../graph-schema/index.ts";
import type { LinkRecord, NodeRecord } from "../../../importers/change-set.ts";
import type { Numbered } from "../shared/record-state.ts";
import type { Transaction } from "./client.ts";
import { decodeLink, decodeNode } from "./codec.ts";

const idsAtATime = 10_000;

/** A name within backticks: labels, types and properties of the declarations, never anything a person typed. */
export const ticked = (name: string): string => `\`${name.replaceAll("`", "``")}\``;

export function* pieces<T>(list: readonly T[], size = idsAtATime): Generator<readonly T[]> {
  for (let at = 0; at < list.length; at += size) yield list.slice(at, at + size);
}

export function grouped<T, K>(list: Iterable<T>, keyOf: (item: T) => K): Map<K, T[]> {
  const groups = new Map<K, T[]>();
  for (const item of list) {
    const key = keyOf(item);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [item]);
    else group.push(item);
  }
  return groups;
}

const isLabel = (label: string): label is NodeLabel =>
  (nodeLabelNames as readonly string[]).includes(label);

/** Nodes by id; those that do not exist are left out. */
export async function nodesById(
  transaction: Transaction,
  ids: Iterable<NodeId>,
): Promise<readonly Numbered<NodeRecord>[]> {
  const found: Numbered<NodeRecord>[] = [];
  for (const [label, ofLabel] of grouped(new Set(ids), labelOf)) {
    if (!isLabel(label)) continue;
    for (const piece of pieces(ofLabel))
      for (const [values] of await transaction.rows(
        `UNWIND $ids AS id MATCH (n:${ticked(label)} {id: id}) RETURN properties(n)`,
        { ids: piece },
      ))
        found.push(decodeNode(values));
  }
  return found;
}

export async function nodesByKey(
  transaction: Transaction,
  label: NodeLabel,
  keys: Iterable<string>,
): Promise<readonly Numbered<NodeRecord>[]> {
  const found: Numbered<NodeRecord>[] = [];
  for (const piece of pieces([...new Set(keys)]))
    for (const [values] of await transaction.rows(
      `UNWIND $keys AS key MATCH (n:${ticked(label)} {key: key}) RETURN properties(n)`,
      { keys: piece },
    ))
      found.push(decodeNode(values));
  return found;
}

export interface Ends {
  readonly type: RelationshipType;
  readonly from: NodeId;
  readonly to: NodeId;
}

/** Relationships by type and ends; those that do not exist are left out. */
export async function linksByEnds(
  transaction: Transaction,
  ends: readonly Ends[],
): Promise<readonly Numbered<LinkRecord>[]> {
  const found: Numbered<LinkRecord>[] = [];
  const groups = grouped(ends, ({ type, from, to }) => `${type} ${labelOf(from)} ${labelOf(to)}`);
  for (const group of groups.values()) {
    const [first] = group;
    if (first === undefined || !isLabel(labelOf(first.from)) || !isLabel(labelOf(first.to)))
      continue;
    const { type } = first;
    for (const piece of pieces(group))
      for (const [from, to, values] of await transaction.rows(
        `UNWIND $rows AS row
         MATCH (a:${ticked(labelOf(first.from))} {id: row[0]})
         MATCH (b:${ticked(labelOf(first.to))} {id: row[1]})
         MATCH (a)-[r:${ticked(type)}]->(b)
         RETURN row[0], row[1], properties(r)`,
        { rows: piece.map((end) => [end.from, end.to]) },
      ))
        found.push(decodeLink(type, from as NodeId, to as NodeId, values));
  }
  return found;
}

/** All relationships of a type that leave these nodes. */
export async function linksLeaving(
  transaction: Transaction,
  type: RelationshipType,
  ids: Iterable<NodeId>,
): Promise<readonly Numbered<LinkRecord>[]> {
  const found: Numbered<LinkRecord>[] = [];
  for (const [label, ofLabel] of grouped(new Set(ids), labelOf))
    for (const piece of pieces(ofLabel))
      for (const [from, to, values] of await transaction.rows(
        `UNWIND $ids AS id MATCH (:${ticked(label)} {id: id})-[r:${ticked(type)}]->(b) RETURN id, b.id, properties(r)`,
        { ids: piece },
      ))
        found.push(decodeLink(type, from as NodeId, to as NodeId, values));
  return found;
}

export interface LinksAt {
  /** Only relationships made after this sequence number. */
  readonly after?: number;
  readonly side?: "from" | "to" | "both";
  readonly types?: readonly RelationshipType[];
}

/** All relationships at these nodes, from either side. A relationship between two of them comes twice. */
export async function linksAt(
  transaction: Transaction,
  ids: Iterable<NodeId>,
  { after = 0, side = "both", types = relationshipTypeNames }: LinksAt = {},
): Promise<readonly Numbered<LinkRecord>[]> {
  const found: Numbered<LinkRecord>[] = [];
  const among = types.map(ticked).join("|");
  const arrow = `${side === "to" ? "<" : ""}-[r:${among}]-${side === "from" ? ">" : ""}`;
  for (const [label, ofLabel] of grouped(new Set(ids), labelOf)) {
    if (!isLabel(label)) continue;
    for (const piece of pieces(ofLabel))
      for (const [type, from, to, values] of await transaction.rows(
        `UNWIND $ids AS id MATCH (:${ticked(label)} {id: id})${arrow}() WHERE r.sequence > $after
         RETURN type(r), startNode(r).id, endNode(r).id, properties(r)`,
        { ids: piece, after },
      ))
        found.push(decodeLink(type as RelationshipType, from as NodeId, to as NodeId, values));
  }
  return found;
}

/** How many nodes of each label and relationships of each type there are, from the server's own counts. */
export async function storedCounts(
  transaction: Transaction,
): Promise<ReadonlyMap<NodeLabel | RelationshipType, number>> {
  const rows = await transaction.rows(
    [
      ...nodeLabelNames.map(
        (l) => `MATCH (n:${ticked(l)}) RETURN '${l}' AS name, count(n) AS held`,
      ),
      ...relationshipTypeNames.map(
        (t) => `MATCH ()-[r:${ticked(t)}]->() RETURN '${t}' AS name, count(r) AS held`,
      ),
    ].join(" UNION ALL "),
  );
  return new Map(rows.map(([name, held]) => [name as NodeLabel | RelationshipType, Number(held)]));
}

/** Whether deleting the target of such a relationship takes its source along. */
export const takesSourceAlong = (type: RelationshipType): boolean =>
  relationshipDeclaration(type).whenTargetGoes === "drop-source";
