import { labelOf, type NodeId, relationshipDeclaration } from "../../../graph-schema/index.ts";
import type { LinkRecord, NodeRecord } from "../../../importers/change-set.ts";
import type { Dependants } from "../graph-store.ts";
import type { GraphDesk } from "./graph-desk.ts";
import { typesFrom, typesTo } from "./link-types.ts";
import type { Numbered } from "./record-state.ts";

export type DeletionStep =
  | { readonly kind: "node"; readonly node: Numbered<NodeRecord> }
  | { readonly kind: "link"; readonly link: Numbered<LinkRecord> };

/**
 * What goes when a node goes, in an order in which it can go: links before their ends, dependants before what
 * they depend on, the node itself last. Follows `whenTargetGoes` of the declarations; rings of lockers are safe.
 */
export function planDeletion(
  desk: Pick<GraphDesk, "node" | "linksFrom" | "linksTo">,
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
      for (const link of desk.linksTo(node, type)) {
        if (relationshipDeclaration(type).whenTargetGoes === "drop-source") {
          const source = desk.node(link.record.from);
          if (source !== undefined) visit(source);
        }
        drop(link);
      }
    for (const type of typesFrom(labelOf(id)))
      for (const link of desk.linksFrom(node, type)) drop(link);
    steps.push({ kind: "node", node });
  };
  visit(root);
  return steps;
}

/** What would go with a node, without the node itself. */
export function dependantsOf(
  desk: Pick<GraphDesk, "node" | "linksFrom" | "linksTo">,
  root: Numbered<NodeRecord>,
): Dependants {
  const nodes: NodeRecord[] = [];
  const links: LinkRecord[] = [];
  for (const step of planDeletion(desk, root))
    if (step.kind === "link") links.push(step.link.record);
    else if (step.node.n !== root.n) nodes.push(step.node.record);
  return { nodes, links };
}
