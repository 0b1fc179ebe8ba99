import {
  mintNodeId,
  type NodeId,
  type NodeKey,
  type NodeLabel,
  nodeDeclaration,
  type PropertyValue,
  type RelationshipType,
} from "../../graph-schema/index.ts";
import type { KnownGraph, KnownNodes, NodeRecord } from "../change-set.ts";
import { type FilledProperty, RecordTable } from "./record-table.ts";

/** The node a new node hangs on: the relationship that is part of what it is, and where it leads. */
export interface Owner {
  readonly type: RelationshipType;
  readonly table: NodeTable;
  readonly node: number;
}

/** Nodes of one label that a file speaks of, by key; those the graph has already carry its record. */
export class NodeTable extends RecordTable {
  readonly label: NodeLabel;
  readonly known: KnownNodes;
  /** The name as the file writes it; the first in sort order of several spellings. */
  readonly names: string[] = [];
  readonly records: (NodeRecord | undefined)[] = [];
  /** Puts together the owners of a node that was made without them. */
  makeOwners: ((node: number) => readonly Owner[]) | undefined;
  /** How many `makeOwners` puts together. */
  ownersMade = 0;
  readonly #owners: (readonly Owner[] | undefined)[] = [];
  /** Puts together the key of a node that was told apart without it. */
  makeKey: ((node: number) => NodeKey) | undefined;
  readonly #keys: (NodeKey | undefined)[] = [];
  readonly #byKey = new Map<NodeKey, number>();
  readonly #ids: (NodeId | undefined)[] = [];
  readonly #asOwner: (Owner | undefined)[] = [];
  readonly #nameProperty: string;
  #takenIds: Set<NodeId> | undefined;

  constructor(label: NodeLabel, graph: KnownGraph, properties: readonly FilledProperty[]) {
    super(properties);
    this.label = label;
    this.known = graph.nodes(label);
    this.#nameProperty = nodeDeclaration(label).nameFrom;
  }

  /** The node of a key, made if the file has not named it before. */
  node(key: NodeKey, name: string, owners: readonly Owner[]): number {
    const before = this.#byKey.get(key);
    if (before !== undefined) {
      if (name < (this.names[before] ?? "")) this.names[before] = name;
      return before;
    }
    const node = this.nodeApart(key, name, owners);
    this.#byKey.set(key, node);
    return node;
  }

  /**
   * A node that the caller knows to be unlike all others of the table; its key and its owners are put together by
   * `makeKey` and `makeOwners` when they are needed, unless given.
   */
  nodeApart(key: NodeKey | undefined, name: string, owners: readonly Owner[] | undefined): number {
    const node = this.addRecord();
    this.#keys.push(key);
    this.names.push(name);
    this.#owners.push(owners);
    this.records.push(this.known.size === 0 ? undefined : this.known.get(this.key(node)));
    return node;
  }

  get count(): number {
    return this.#keys.length;
  }

  key(node: number): NodeKey {
    const before = this.#keys[node];
    if (before !== undefined) return before;
    const key = this.makeKey?.(node) ?? "";
    this.#keys[node] = key;
    return key;
  }

  /** What a node hangs on. */
  ownersOf(node: number): readonly Owner[] {
    return this.#owners[node] ?? this.makeOwners?.(node) ?? [];
  }

  ownerCountOf(node: number): number {
    return this.#owners[node]?.length ?? this.ownersMade;
  }

  /** The id of a node: the graph's, or a new one that no other key has. */
  id(node: number): NodeId {
    const before = this.#ids[node];
    if (before !== undefined) return before;
    const id = this.records[node]?.id ?? this.#mint(this.key(node));
    this.#ids[node] = id;
    return id;
  }

  /** A new id; asked for once per key. An id that another node has is passed over. */
  #mint(key: NodeKey): NodeId {
    if (this.#takenIds === undefined) {
      this.#takenIds = new Set(this.known.ids?.() ?? idsOf(this.known.values()));
    }
    const taken = this.#takenIds;
    for (let attempt = 0; ; attempt += 1) {
      const id = mintNodeId(this.label, key, attempt);
      const { size } = taken;
      if (taken.add(id).size > size) return id;
    }
  }

  /** Properties a new node gets: its name and what the rows say. */
  fresh(node: number): Record<string, PropertyValue> {
    if (this.label === "StockLot") return this.said(node);
    return this.said(node, { [this.#nameProperty]: this.names[node] ?? "" });
  }

  /** A node of this table as the owner of others; the same object each time. */
  asOwner(type: RelationshipType, node: number): Owner {
    const before = this.#asOwner[node];
    if (before?.type === type) return before;
    const owner = { type, table: this, node };
    this.#asOwner[node] = owner;
    return owner;
  }
}

function* idsOf(records: Iterable<NodeRecord>): Generator<NodeId> {
  for (const { id } of records) yield id;
}
