import type {
  NodeId,
  NodeLabel,
  Properties,
  RelationshipType,
} from "../../../graph-schema/index.ts";
import type { KnownGraph, LinkRecord, NodeRecord } from "../../../importers/change-set.ts";

/** The whole graph, walked along its relationships either way. */
export interface GraphView {
  /** Nodes of a label in the order of their keys. */
  all(label: NodeLabel): readonly NodeRecord[];
  node(id: NodeId): NodeRecord | undefined;
  from(type: RelationshipType, id: NodeId): readonly LinkRecord[];
  to(type: RelationshipType, id: NodeId): readonly LinkRecord[];
  /** The node at the end of the one relationship of that type. */
  one(type: RelationshipType, id: NodeId | undefined): NodeRecord | undefined;
}

export interface Facts {
  readonly properties: Properties;
  readonly extra: Readonly<Record<string, string>>;
}

const none: readonly LinkRecord[] = [];

function groupedBy(
  links: Iterable<LinkRecord>,
  end: "from" | "to",
): ReadonlyMap<NodeId, readonly LinkRecord[]> {
  const groups = new Map<NodeId, LinkRecord[]>();
  for (const link of links) {
    const group = groups.get(link[end]);
    if (group === undefined) groups.set(link[end], [link]);
    else group.push(link);
  }
  return groups;
}

/** A view on a known graph; each label and type is arranged once, when first asked. */
export function viewGraph(known: KnownGraph): GraphView {
  const nodesOf = new Map<NodeLabel, ReadonlyMap<NodeId, NodeRecord>>();
  const linksOf = new Map<string, ReadonlyMap<NodeId, readonly LinkRecord[]>>();
  const nodes = (label: NodeLabel): ReadonlyMap<NodeId, NodeRecord> => {
    const kept = nodesOf.get(label);
    if (kept !== undefined) return kept;
    const sorted = [...known.nodes(label).values()].sort((a, b) => (a.key < b.key ? -1 : 1));
    const made = new Map(sorted.map((node) => [node.id, node]));
    nodesOf.set(label, made);
    return made;
  };
  const links = (type: RelationshipType, end: "from" | "to") => {
    const name = `${type} ${end}`;
    const kept = linksOf.get(name);
    if (kept !== undefined) return kept;
    const made = groupedBy(known.links(type).values(), end);
    linksOf.set(name, made);
    return made;
  };
  const node = (id: NodeId): NodeRecord | undefined =>
    nodes(id.slice(0, id.indexOf(":")) as NodeLabel).get(id);
  const from = (type: RelationshipType, id: NodeId) => links(type, "from").get(id) ?? none;
  return {
    all: (label) => [...nodes(label).values()],
    node,
    from,
    to: (type, id) => links(type, "to").get(id) ?? none,
    one: (type, id) => {
      const link = id === undefined ? undefined : from(type, id)[0];
      return link === undefined ? undefined : node(link.to);
    },
  };
}
