import {
  labelOf,
  type NodeId,
  type NodeLabel,
  nodeLabelNames,
  quoteName,
  type RelationshipType,
} from "../../../graph-schema/index.ts";
import type { LinkRecord, NodeRecord } from "../../../importers/change-set.ts";
import type { Numbered } from "../shared/record-state.ts";
import type { Connection, Row } from "./connection.ts";
import { decode, decodeExtra, linkColumns, nodeColumns } from "./record-columns.ts";

const isLabel = (label: string): label is NodeLabel =>
  (nodeLabelNames as readonly string[]).includes(label);

export function nodeNumber(connection: Connection, id: NodeId): number | undefined {
  const n = connection.row("SELECT n FROM node WHERE id = ?", id)?.[0];
  return typeof n === "number" ? n : undefined;
}

const selectNodes = (label: NodeLabel): string =>
  `SELECT r.n, node.id, r.key, r.version, r.extra${nodeColumns(label).selected} FROM ${quoteName(label)} r JOIN node ON node.n = r.n`;

function toNode(label: NodeLabel, row: Row): Numbered<NodeRecord> {
  return {
    n: Number(row[0]),
    record: {
      id: row[1] as NodeId,
      label,
      key: String(row[2]),
      version: Number(row[3]),
      extra: decodeExtra(row[4]),
      properties: decode(nodeColumns(label), row, 5),
    },
  };
}

/** Nodes of a label under a condition on the alias `r` (and what may follow a condition: order, limit). */
export function nodesWhere(
  connection: Connection,
  label: NodeLabel,
  condition: string,
  ...values: readonly (string | number)[]
): readonly Numbered<NodeRecord>[] {
  return connection
    .rows(`${selectNodes(label)} ${condition}`, ...values)
    .map((row) => toNode(label, row));
}

export function readNode(connection: Connection, id: NodeId): Numbered<NodeRecord> | undefined {
  const label = labelOf(id);
  if (!isLabel(label)) return undefined;
  return nodesWhere(connection, label, "WHERE node.id = ?", id)[0];
}

/** The nodes of these ids that exist, label by label. */
export function nodesOf(
  connection: Connection,
  ids: readonly NodeId[],
): readonly Numbered<NodeRecord>[] {
  const byLabel = Map.groupBy(ids, labelOf);
  return [...byLabel].flatMap(([label, some]) =>
    isLabel(label)
      ? nodesWhere(
          connection,
          label,
          "WHERE node.id IN (SELECT value FROM json_each(?))",
          JSON.stringify(some),
        )
      : [],
  );
}

const selectLinks = (type: RelationshipType): string =>
  `SELECT r.n, a.id, b.id, r.version, r.extra${linkColumns(type).selected} FROM ${quoteName(type)} r JOIN node a ON a.n = r.fromNode JOIN node b ON b.n = r.toNode`;

function toLink(type: RelationshipType, row: Row): Numbered<LinkRecord> {
  return {
    n: Number(row[0]),
    record: {
      type,
      from: row[1] as NodeId,
      to: row[2] as NodeId,
      version: Number(row[3]),
      extra: decodeExtra(row[4]),
      properties: decode(linkColumns(type), row, 5),
    },
  };
}

/** Relationships of a type under a condition on the alias `r`, `a` (from) and `b` (to). */
export function linksWhere(
  connection: Connection,
  type: RelationshipType,
  condition: string,
  ...values: readonly (string | number)[]
): readonly Numbered<LinkRecord>[] {
  return connection
    .rows(`${selectLinks(type)} ${condition}`, ...values)
    .map((row) => toLink(type, row));
}

export function readLink(
  connection: Connection,
  type: RelationshipType,
  from: number,
  to: number,
): Numbered<LinkRecord> | undefined {
  return linksWhere(connection, type, "WHERE r.fromNode = ? AND r.toNode = ?", from, to)[0];
}

/** Relationships of some types that leave or lead to any of these nodes. */
export function linksAt(
  connection: Connection,
  ids: readonly NodeId[],
  side: "from" | "to",
  types: readonly RelationshipType[],
): readonly LinkRecord[] {
  const numbers = connection
    .rows("SELECT n FROM node WHERE id IN (SELECT value FROM json_each(?))", JSON.stringify(ids))
    .map((row) => Number(row[0]));
  if (numbers.length === 0) return [];
  const end = side === "from" ? "r.fromNode" : "r.toNode";
  return types.flatMap((type) =>
    linksWhere(
      connection,
      type,
      `WHERE ${end} IN (SELECT value FROM json_each(?))`,
      JSON.stringify(numbers),
    ).map(({ record }) => record),
  );
}
