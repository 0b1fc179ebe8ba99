import {
  type NodeId,
  type NodeKey,
  type NodeLabel,
  nodeLabelNames,
  type RelationshipType,
  relationshipTypeNames,
} from "../../../graph-schema/index.ts";
import {
  type KnownGraph,
  type LinkRecord,
  linkKey,
  type NodeRecord,
} from "../../../importers/change-set.ts";
import type { Transaction } from "./client.ts";
import { decodeLink, decodeNode } from "./codec.ts";
import { ticked } from "./read-records.ts";

/** The graph as an importer compares with it, read whole: an importer asks without waiting, a server only answers later. */
export async function readKnownGraph(transaction: Transaction): Promise<KnownGraph> {
  const nodes = new Map(nodeLabelNames.map((label) => [label, new Map<NodeKey, NodeRecord>()]));
  const links = new Map(
    relationshipTypeNames.map((type) => [type, new Map<string, LinkRecord>()] as const),
  );
  const labels = nodeLabelNames.map(ticked).join("|");
  for (const values of await transaction.lists(`MATCH (n:${labels}) RETURN [properties(n)]`)) {
    const { record } = decodeNode(values[0]);
    nodes.get(record.label)?.set(record.key, record);
  }
  const types = relationshipTypeNames.map(ticked).join("|");
  for (const [type, from, to, values] of await transaction.lists(
    `MATCH (a)-[r:${types}]->(b) RETURN [type(r), a.id, b.id, properties(r)]`,
  )) {
    const { record } = decodeLink(type as RelationshipType, from as NodeId, to as NodeId, values);
    links.get(record.type)?.set(linkKey(record.from, record.to), record);
  }
  return {
    nodes: (label: NodeLabel) => nodes.get(label) ?? new Map(),
    links: (type: RelationshipType) => links.get(type) ?? new Map(),
  };
}
