import type { GraphStore } from "../../api/store/graph-store.ts";
import {
  type NodeLabel,
  nodeLabelNames,
  type RelationshipType,
  relationshipTypeNames,
} from "../../graph-schema/index.ts";

/** All a store holds, in a form that can be compared: every node and link with its content, sorted. */
export async function graphPicture(
  store: GraphStore,
  without: readonly (NodeLabel | RelationshipType)[] = [],
) {
  const known = await store.knownGraph();
  const nodes = nodeLabelNames
    .filter((label) => !without.includes(label))
    .flatMap((label) => [...known.nodes(label).values()])
    .map(({ id, key, properties, extra }) => ({ id, key, properties, extra }))
    .sort((a, b) => (a.id < b.id ? -1 : 1));
  const links = relationshipTypeNames
    .filter((type) => !without.includes(type))
    .flatMap((type) => [...known.links(type).values()])
    .map(({ type, from, to, properties, extra }) => ({ type, from, to, properties, extra }))
    .sort((a, b) => (`${a.type}${a.from}${a.to}` < `${b.type}${b.from}${b.to}` ? -1 : 1));
  return { nodes, links };
}
