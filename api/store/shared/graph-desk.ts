import type { NodeId, NodeLabel, RelationshipType } from "../../../graph-schema/index.ts";
import type { LinkRecord, NodeRecord } from "../../../importers/change-set.ts";
import type { Content, NodeContent, Numbered } from "./record-state.ts";

/**
 * The graph within one write: what is there, and the elementary writes. Each write checks its values against the
 * declarations and is journalled. What stores share of applying and undoing is written against this.
 */
export interface GraphDesk {
  node(id: NodeId): Numbered<NodeRecord> | undefined;
  link(type: RelationshipType, from: NodeId, to: NodeId): Numbered<LinkRecord> | undefined;
  /** In the order of their numbers. */
  linksFrom(node: Numbered<NodeRecord>, type: RelationshipType): readonly Numbered<LinkRecord>[];
  linksTo(node: Numbered<NodeRecord>, type: RelationshipType): readonly Numbered<LinkRecord>[];

  createNode(label: NodeLabel, id: NodeId, content: NodeContent): void;
  changeNode(current: Numbered<NodeRecord>, after: NodeContent): void;
  /** Removes a node that nothing is linked to any more. */
  removeNode(node: Numbered<NodeRecord>): void;
  /** Gives a node that is about to get another key a passing one, so that keys may change places. */
  freeKey(node: Numbered<NodeRecord>): void;
  createLink(type: RelationshipType, from: NodeId, to: NodeId, content: Content): void;
  changeLink(current: Numbered<LinkRecord>, after: Content): void;
  removeLink(link: Numbered<LinkRecord>): void;
}
