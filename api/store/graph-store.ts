import type {
  NodeId,
  NodeLabel,
  Properties,
  PropertyValue,
  RelationshipType,
} from "../../graph-schema/index.ts";
import type { ChangeSet, KnownGraph, LinkRecord, NodeRecord } from "../../importers/change-set.ts";
import type { GearPicture, Snapshot } from "../scoring/snapshot/snapshot.ts";
import type { JournalEntry } from "./shared/journal-entry.ts";
import type { StoredRecord } from "./shared/stored-record.ts";

export type { JournalEntry } from "./shared/journal-entry.ts";

/** Who writes, and on what occasion. An import's node is created in the same transaction. */
export interface WriteOccasion {
  readonly who: string;
  /** ISO instant; the caller's clock, so that stores stay testable. */
  readonly at: string;
  /** What is done, as a person would say it: "2 of 0040-07 used for Port primary". Shown in the list of changes. */
  readonly what?: string;
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

/** One write as the list of changes tells it. It is named by the last sequence number it wrote. */
export interface WriteNote {
  readonly sequence: number;
  /** The first sequence number it wrote: `sequence - first + 1` records were touched, some perhaps twice. */
  readonly first: number;
  readonly at: string;
  readonly who: string;
  readonly what?: string;
  readonly importId?: NodeId;
  /** Present once it was taken back. */
  readonly undone?: { readonly at: string; readonly who: string };
  /** The write this one took back. */
  readonly undoes?: number;
}

/** What must hold of a property. Letters A to Z match without regard to case; `holds` is for text only. */
export interface PropertyTest {
  readonly property: string;
  readonly is: "equal" | "holds" | "at least" | "at most" | "present" | "absent";
  readonly value?: PropertyValue;
}

/** Which nodes of a label to list, and in which order. */
export interface PageQuery {
  readonly label: NodeLabel;
  readonly offset: number;
  readonly limit: number;
  /** A property of the label; key order when absent. Nodes without the value come last either way. */
  readonly sortBy?: string;
  readonly descending?: boolean;
  /** Only nodes that a search for this text would find by their own words. */
  readonly text?: string;
  /** All of these must hold. */
  readonly where?: readonly PropertyTest[];
}

export interface NodePage {
  /** Nodes that meet the conditions, on all pages. */
  readonly total: number;
  readonly nodes: readonly NodeRecord[];
  /** Relationships of which each node has at most one, leaving the nodes of the page. */
  readonly owning: readonly LinkRecord[];
  /** The nodes those relationships lead to. */
  readonly owners: readonly NodeRecord[];
}

/** One hit of a search, best first. */
export interface SearchHit {
  readonly node: NodeRecord;
  /** Which property matched, and its text; `OFFERS.supplierCode` where a supplier's code for the part did. */
  readonly property: string;
  readonly matched: string;
}

/** What goes when a node goes. */
export interface Dependants {
  readonly nodes: readonly NodeRecord[];
  readonly links: readonly LinkRecord[];
}

/**
 * The port behind which the graph is kept. Every method may throw Problem `store-busy`, `store-damaged`,
 * `store-full`, and with a server `store-unreachable` or `store-refused`; after any failure the graph is as it was before the call.
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
  undoImport(
    importId: NodeId,
    occasion: WriteOccasion,
    progress?: (done: number, total: number) => void,
  ): Promise<WriteReceipt>;

  /**
   * Takes back the whole write that wrote the sequence number: an edit, a deletion, an import, or an undo, which is
   * thereby done again. Errors: `undo-blocked` when it was taken back before or later changes stand on it
   * (facts: which), `not-found`.
   */
  undo(
    sequence: number,
    occasion: WriteOccasion,
    progress?: (done: number, total: number) => void,
  ): Promise<WriteReceipt>;

  /** Writes, newest first; those before the sequence number `before`. */
  history(query: {
    readonly limit: number;
    readonly before?: number;
  }): Promise<readonly WriteNote[]>;

  node(id: NodeId): Promise<NodeRecord | undefined>;
  /** Nodes by id, in any order; those that do not exist are left out. */
  nodes(ids: readonly NodeId[]): Promise<readonly NodeRecord[]>;
  nodeByKey(label: NodeLabel, key: string): Promise<NodeRecord | undefined>;
  /** Nodes of a label by key order, `limit` from `offset`. */
  list(label: NodeLabel, offset: number, limit: number): Promise<readonly NodeRecord[]>;
  /** Nodes of a label that meet conditions, in order, with what they belong to. Errors: `input-invalid` (property). */
  page(query: PageQuery): Promise<NodePage>;
  count(label: NodeLabel): Promise<number>;
  linksFrom(id: NodeId, type?: RelationshipType): Promise<readonly LinkRecord[]>;
  linksTo(id: NodeId, type?: RelationshipType): Promise<readonly LinkRecord[]>;
  /** Relationships of some types that leave (`from`) or lead to (`to`) any of the nodes, in any order. */
  linksAt(
    ids: readonly NodeId[],
    side: "from" | "to",
    types: readonly RelationshipType[],
  ): Promise<readonly LinkRecord[]>;

  /**
   * Nodes whose names, numbers or descriptions hold the text (prefix of any word, case and accents ignored), and parts
   * for which a supplier's code begins so. Exact numbers first, then exact codes, then numbers that begin so.
   */
  search(text: string, limit: number, labels?: readonly NodeLabel[]): Promise<readonly SearchHit[]>;

  /** What would go with this node if it were deleted. */
  dependants(id: NodeId): Promise<Dependants>;

  /** Journal, newest first. */
  journal(query: {
    readonly about?: NodeId;
    readonly importId?: NodeId;
    readonly limit: number;
    readonly before?: number;
    /** The least sequence number wanted. */
    readonly since?: number;
  }): Promise<readonly JournalEntry[]>;

  /** The columnar picture scoring works on: everything, or what belongs to one vessel. */
  snapshot(vessel?: NodeId): Promise<Snapshot>;

  /**
   * The whole fleet's snapshot with no evidence on parts lists, and no parts lists of models that are not fitted: for a
   * store to which reading those costs much. Plans that need no more ask for it through `plans/gear-picture.ts`.
   */
  fleetGear?(): Promise<GearPicture>;

  /**
   * Everything, journal included, as it is at one moment: writes, nodes, links, entries, each by rising number (nodes
   * and links label by label, type by type). The same graph gives the same records from every store.
   */
  backup(): AsyncIterable<StoredRecord>;

  /**
   * Fills an empty store with what `backup` gave, in one transaction. Errors: `store-occupied` where the store holds
   * anything; `input-invalid` where a record breaks its declaration or leads nowhere.
   */
  restore(records: AsyncIterable<StoredRecord>): Promise<void>;

  /** A number that rises with every committed change; lets callers keep a snapshot. */
  sequence(): Promise<number>;

  close(): Promise<void>;
}
