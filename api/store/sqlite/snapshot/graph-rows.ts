import {
  type NodeId,
  type NodeLabel,
  quoteName,
  type RelationshipType,
} from "../../../../graph-schema/index.ts";
import type { Adjacency } from "../../../scoring/snapshot/snapshot.ts";
import type { Connection, Row } from "../connection.ts";
import { arrange } from "./adjacency.ts";
import { texts } from "./cells.ts";

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

/** Reads nodes and relationships of the whole graph, or of the nodes in the table `chosen`. */
export class GraphRows {
  readonly #connection: Connection;
  readonly #chosen: boolean;

  constructor(connection: Connection, chosen: boolean) {
    this.#connection = connection;
    this.#chosen = chosen;
  }

  /** Nodes by key order; in `rows` the wanted properties stand at 0, 1, ... */
  nodes(label: NodeLabel, properties: readonly string[]): NodeRows {
    const only = this.#chosen ? "JOIN chosen ON chosen.n = r.n" : "";
    const read = this.#connection.rows(
      `SELECT ${[...properties.map((name) => `r.${quoteName(name)}`), "node.id", "r.n"].join(", ")}
       FROM ${quoteName(label)} r JOIN node ON node.n = r.n ${only} ORDER BY r.key`,
    );
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
    const only = this.#chosen
      ? "JOIN chosen a ON a.n = r.fromNode JOIN chosen b ON b.n = r.toNode"
      : "";
    const rows = this.#connection.rows(
      `SELECT ${[...properties, "fromNode", "toNode"].map((name) => `r.${quoteName(name)}`).join(", ")}
       FROM ${quoteName(type)} r ${only}`,
    );
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
