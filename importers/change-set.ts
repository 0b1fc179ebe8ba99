import type {
  NodeId,
  NodeKey,
  NodeLabel,
  Properties,
  RelationshipType,
} from "../graph-schema/index.ts";

/** A node as stored. `version` rises by one with each change; `extra` holds unknown columns of its rows. */
export interface NodeRecord {
  readonly id: NodeId;
  readonly label: NodeLabel;
  readonly key: NodeKey;
  readonly properties: Properties;
  readonly extra: Readonly<Record<string, string>>;
  readonly version: number;
}

/** A relationship as stored; told apart by type and its two ends. */
export interface LinkRecord {
  readonly type: RelationshipType;
  readonly from: NodeId;
  readonly to: NodeId;
  readonly properties: Properties;
  readonly extra: Readonly<Record<string, string>>;
  readonly version: number;
}

/**
 * One proposed change. `basedOn` is the version it was proposed from: a store refuses the whole set when
 * the record has moved on. `set` holds new values, `clear` the names of values taken away.
 */
export type ProposedChange =
  | {
      readonly kind: "create-node";
      readonly label: NodeLabel;
      readonly id: NodeId;
      readonly key: NodeKey;
      readonly properties: Properties;
      readonly extra?: Readonly<Record<string, string>>;
    }
  | {
      readonly kind: "update-node";
      readonly id: NodeId;
      readonly basedOn: number;
      readonly set: Properties;
      readonly clear?: readonly string[];
      readonly key?: NodeKey;
      readonly extra?: Readonly<Record<string, string>>;
    }
  | { readonly kind: "delete-node"; readonly id: NodeId; readonly basedOn: number }
  | {
      readonly kind: "create-link";
      readonly type: RelationshipType;
      readonly from: NodeId;
      readonly to: NodeId;
      readonly properties: Properties;
      readonly extra?: Readonly<Record<string, string>>;
    }
  | {
      readonly kind: "update-link";
      readonly type: RelationshipType;
      readonly from: NodeId;
      readonly to: NodeId;
      readonly basedOn: number;
      readonly set: Properties;
      readonly clear?: readonly string[];
      readonly extra?: Readonly<Record<string, string>>;
    }
  | {
      readonly kind: "delete-link";
      readonly type: RelationshipType;
      readonly from: NodeId;
      readonly to: NodeId;
      readonly basedOn: number;
    };

/** Changes in an order in which they can be applied one after another. */
export interface ChangeSet {
  readonly changes: readonly ProposedChange[];
}

/** Nodes of a label by key. A store that fetches them late lists keys and ids for less than the records. */
export type KnownNodes = ReadonlyMap<NodeKey, NodeRecord> & { ids?(): Iterable<NodeId> };

/** What an importer may ask about the graph as it stands. Answers are pictures; nothing is written. */
export interface KnownGraph {
  /** All nodes of a label by key. */
  nodes(label: NodeLabel): KnownNodes;
  /** All relationships of a type by `${from}>${to}`. */
  links(type: RelationshipType): ReadonlyMap<string, LinkRecord>;
  /**
   * Of a graph behind a wire, which an importer cannot wait for: fetches what was asked for and was not at hand. True
   * if there was any; then what was worked out from it is to be worked out again.
   */
  catchUp?(): Promise<boolean>;
}

export const linkKey = (from: NodeId, to: NodeId): string => `${from}>${to}`;
