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

/** What an importer may ask about the graph as it stands. Answers are pictures; nothing is written. */
export interface KnownGraph {
  /** All nodes of a label by key. Asked once per label and file, so a store may load the label in bulk. */
  nodes(label: NodeLabel): ReadonlyMap<NodeKey, NodeRecord>;
  /** All relationships of a type by `${from}>${to}`. */
  links(type: RelationshipType): ReadonlyMap<string, LinkRecord>;
}

export const linkKey = (from: NodeId, to: NodeId): string => `${from}>${to}`;
