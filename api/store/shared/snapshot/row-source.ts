import type { NodeLabel, RelationshipType } from "../../../../graph-schema/index.ts";

/** A value of a row: text, number, yes or no (SQLite: 1 or 0), or nothing. */
export type Cell = unknown;
export type Row = readonly Cell[];

/** Where a snapshot's rows come from: the whole graph, or what belongs to one vessel. */
export interface RowSource {
  /** Nodes by key order: the wanted properties, then id, then number. */
  nodeRows(label: NodeLabel, properties: readonly string[]): readonly Row[];
  /** Relationships in any order: the wanted properties, then the numbers of both ends. */
  linkRows(type: RelationshipType, properties: readonly string[]): readonly Row[];
}
