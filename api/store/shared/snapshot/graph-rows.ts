import type { NodeId, NodeLabel, RelationshipType } from "../../../../graph-schema/index.ts";
import type { Adjacency } from "../../../scoring/snapshot/snapshot.ts";
import { arrange } from "./adjacency.ts";
import { texts } from "./cells.ts";
import type { Row, RowSource } from "./row-source.ts";

/** The nodes of one label in a snapshot: their ids, their wanted properties, and where each number stands. */
export interface NodeRows {
  readonly id: readonly NodeId[];
  readonly rows: readonly Row[];
  readonly indexOf: ReadonlyMap<number, number>;
}

/** Relationships as pairs of places in two node lists, with their wanted properties. */
export interface LinkRows {
  readonly from: Int32Array;
  readonly to: Int32Array;
  readonly rows: readonly Row[];
}

/** Nodes and relationships as a snapshot's columns want them: by their places in lists of nodes. */
export class GraphRows {
  readonly #source: RowSource;

  constructor(source: RowSource) {
    this.#source = source;
  }

  /** Nodes by key order; in `rows` the wanted properties stand at 0, 1, ... */
  nodes(label: NodeLabel, properties: readonly string[]): NodeRows {
    const read = this.#source.nodeRows(label, properties);
    const idAt = properties.length;
    return {
      id: texts(read, idAt) as readonly NodeId[],
      rows: read,
      indexOf: new Map(read.map((row, index) => [Number(row[idAt + 1]), index])),
    };
  }

  /** Relationships between two lists of nodes; -1 at an end that is in neither list. */
  links(
    type: RelationshipType,
    from: NodeRows,
    to: NodeRows,
    properties: readonly string[] = [],
  ): LinkRows {
    const rows = this.#source.linkRows(type, properties);
    const fromAt = properties.length;
    const place = (nodes: NodeRows, at: number) =>
      Int32Array.from(rows, (row) => nodes.indexOf.get(Number(row[at])) ?? -1);
    return { rows, from: place(from, fromAt), to: place(to, fromAt + 1) };
  }

  /** Relationships between two lists of nodes, in the order of their ends; none with an end outside. */
  pairs(
    type: RelationshipType,
    from: NodeRows,
    to: NodeRows,
    properties: readonly string[] = [],
  ): LinkRows {
    const links = this.links(type, from, to, properties);
    const { order } = arrange(links.from, links.to, from.id.length, to.id.length);
    return {
      from: order.map((line) => links.from[line] ?? -1),
      to: order.map((line) => links.to[line] ?? -1),
      rows: Array.from(order, (line) => links.rows[line] ?? []),
    };
  }

  /** For a relationship of which each node has at most one: where it leads, by node; -1 where nowhere in `to`. */
  reference(type: RelationshipType, from: NodeRows, to: NodeRows): Int32Array {
    const links = this.links(type, from, to);
    const target = new Int32Array(from.id.length).fill(-1);
    links.from.forEach((source, line) => {
      if (source >= 0) target[source] = links.to[line] ?? -1;
    });
    return target;
  }

  /** A relationship as compressed adjacency, with its rows in the order of the lines. */
  adjacency(
    type: RelationshipType,
    from: NodeRows,
    to: NodeRows,
    properties: readonly string[] = [],
  ): { readonly adjacency: Adjacency; readonly rows: readonly Row[] } {
    const links = this.links(type, from, to, properties);
    const { adjacency, order } = arrange(links.from, links.to, from.id.length, to.id.length);
    return { adjacency, rows: Array.from(order, (line) => links.rows[line] ?? []) };
  }
}
