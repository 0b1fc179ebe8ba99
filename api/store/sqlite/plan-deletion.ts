import { labelOf, type NodeId, relationshipDeclaration } from "../../../graph-schema/index.ts";
import type { LinkRecord, NodeRecord } from "../../../importers/change-set.ts";
import type { Dependants } from "../graph-store.ts";
import type { Connection } from "./connection.ts";
import { typesFrom, typesTo } from "./link-types.ts";
import { linksWhere, type Numbered, readNode } from "./read-records.ts";

export type DeletionStep =
  | { readonly kind: "node"; readonly node: Numbered<NodeRecord> }
  | { readonly kind: "link"; readonly link: Numbered<LinkRecord> };

/**
 * What goes when a node goes, in an order in which it can go: links before their ends, dependants before what
 * they depend on, the node itself last. Follows `whenTargetGoes` of the declarations; rings of lockers are safe.
 */
export function planDeletion(
  connection: Connection,
  root: Numbered<NodeRecord>,
): readonly DeletionStep[] {
  const steps: DeletionStep[] = [];
  const seenNodes = new Set<NodeId>();
  const seenLinks = new Set<number>();
  const drop = (link: Numbered<LinkRecord>): void => {
    if (seenLinks.has(link.n)) return;
    seenLinks.add(link.n);
    steps.push({ kind: "link", link });
  };
  const visit = (node: Numbered<NodeRecord>): void => {
    const { id } = node.record;
    if (seenNodes.has(id)) return;
    seenNodes.add(id);
    for (const type of typesTo(labelOf(id)))
      for (const link of linksWhere(connection, type, "WHERE r.toNode = ? ORDER BY r.n", node.n)) {
        if (relationshipDeclaration(type).whenTargetGoes === "drop-source") {
          const source = readNode(connection, link.record.from);
          if (source !== undefined) visit(source);
        }
        drop(link);
      }
    for (const type of typesFrom(labelOf(id)))
      for (const link of linksWhere(connection, type, "WHERE r.fromNode = ? ORDER BY r.n", node.n))
        drop(link);
    steps.push({ kind: "node", node });
  };
  visit(root);
  return steps;
}

/** What would go with a node, without the node itself. */
export function dependantsOf(connection: Connection, root: Numbered<NodeRecord>): Dependants {
  const nodes: NodeRecord[] = [];
  const links: LinkRecord[] = [];
  for (const step of planDeletion(connection, root))
    if (step.kind === "link") links.push(step.link.record);
    else if (step.node.n !== root.n) nodes.push(step.node.record);
  return { nodes, links };
}
