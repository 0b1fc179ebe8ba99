import type { RelationshipType } from "../../graph-schema/index.ts";
import type { KnownGraph, LinkRecord } from "../change-set.ts";
import type { NodeTable } from "./node-table.ts";
import { Pairing } from "./pairing.ts";
import { type FilledProperty, RecordTable } from "./record-table.ts";

/** Relationships of one type that a file speaks of, by their two ends. */
export class LinkTable extends RecordTable {
  readonly type: RelationshipType;
  readonly fromTable: NodeTable;
  readonly toTable: NodeTable;
  readonly known: ReadonlyMap<string, LinkRecord>;
  readonly from: number[] = [];
  readonly to: number[] = [];
  readonly #pairs = new Pairing();

  constructor(
    type: RelationshipType,
    fromTable: NodeTable,
    toTable: NodeTable,
    graph: KnownGraph,
    properties: readonly FilledProperty[],
  ) {
    super(properties);
    this.type = type;
    this.fromTable = fromTable;
    this.toTable = toTable;
    this.known = graph.links(type);
  }

  link(from: number, to: number): number {
    const before = this.#pairs.get(from, to);
    if (before !== -1) return before;
    const link = this.addRecord();
    this.#pairs.set(from, to, link);
    this.from.push(from);
    this.to.push(to);
    return link;
  }
}
