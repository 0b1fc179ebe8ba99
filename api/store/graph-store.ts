import type { NodeId, NodeLabel, Properties, RelationshipType } from "../../graph-schema/index.ts";
import type { ChangeSet, KnownGraph, LinkRecord, NodeRecord } from "../../importers/change-set.ts";
import type { Snapshot } from "../scoring/snapshot/snapshot.ts";

/** Who writes, and on what occasion. An import's node is created in the same transaction. */
export interface WriteOccasion {
  readonly who: string;
  /** ISO instant; the caller's clock, so that stores stay testable. */
  readonly at: string;
  /** Present when a file is taken in: becomes an Import node, and the handle for undo. */
  readonly importOf?: Properties;
}

export interface WriteReceipt {
  /** Sequence number of the last journal entry written; 0 when nothing changed. */
  readonly sequence: number;
  readonly importId?: NodeId;
  readonly nodesCreated: number;
  readonly nodesChanged: number;
  readonly nodesDeleted: number;
  readonly linksCreated: number;
  readonly linksChanged: number;
  readonly linksDeleted: number;
}

/** One entry of the journal: what one record was before and after one change. */
export interface JournalEntry {
  readonly sequence: number;
  readonly at: string;
  readonly who: string;
  readonly importId?: NodeId;
  readonly kind: "created" | "changed" | "deleted";
  readonly subject:
    | { readonly kind: "node"; readonly id: NodeId }
    | {
        readonly kind: "link";
        readonly type: RelationshipType;
        readonly from: NodeId;
        readonly to: NodeId;
      };
  readonly before?: Properties;
  readonly after?: Properties;
}

/** One hit of a search, best first. */
export interface SearchHit {
  readonly node: NodeRecord;
  /** Which property matched, and its text. */
  readonly property: string;
  readonly matched: string;
}

/** What goes when a node goes. */
export interface Dependants {
  readonly nodes: readonly NodeRecord[];
  readonly links: readonly LinkRecord[];
}

/**
 * The port behind which the graph is kept. Every method may throw Problem `store-busy`, `store-damaged` or
 * `store-full`; after any failure the graph is as it was before the call.
 */
export interface GraphStore {
  /** The picture an importer compares a file with. Loads lazily, label by label. */
  knownGraph(): Promise<KnownGraph>;

  /**
   * Applies a change set in one transaction, journalled. Durable when the promise resolves.
   * Errors: `write-stale` (facts: both versions), `key-taken`, `input-invalid`, `not-found`.
   */
  apply(
    changes: ChangeSet,
    occasion: WriteOccasion,
    progress?: (done: number, total: number) => void,
  ): Promise<WriteReceipt>;

  /** Takes back a whole import. Errors: `undo-blocked` when later changes stand on it (facts: which), `not-found`. */
  undoImport(importId: NodeId, occasion: WriteOccasion): Promise<WriteReceipt>;

  node(id: NodeId): Promise<NodeRecord | undefined>;
  nodeByKey(label: NodeLabel, key: string): Promise<NodeRecord | undefined>;
  /** Nodes of a label by key order, `limit` from `offset`. */
  list(label: NodeLabel, offset: number, limit: number): Promise<readonly NodeRecord[]>;
  count(label: NodeLabel): Promise<number>;
  linksFrom(id: NodeId, type?: RelationshipType): Promise<readonly LinkRecord[]>;
  linksTo(id: NodeId, type?: RelationshipType): Promise<readonly LinkRecord[]>;

  /** Nodes whose names, numbers or descriptions hold the text (prefix of any word, case and accents ignored). */
  search(text: string, limit: number, labels?: readonly NodeLabel[]): Promise<readonly SearchHit[]>;

  /** What would go with this node if it were deleted. */
  dependants(id: NodeId): Promise<Dependants>;

  /** Journal, newest first. */
  journal(query: {
    readonly about?: NodeId;
    readonly importId?: NodeId;
    readonly limit: number;
    readonly before?: number;
  }): Promise<readonly JournalEntry[]>;

  /** The columnar picture scoring works on: everything, or what belongs to one vessel. */
  snapshot(vessel?: NodeId): Promise<Snapshot>;

  /** A number that rises with every committed change; lets callers keep a snapshot. */
  sequence(): Promise<number>;

  close(): Promise<void>;
}
