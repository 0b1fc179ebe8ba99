import type { NodeLabel, RelationshipType } from "../../graph-schema/index.ts";
import {
  type ChangeSet,
  type KnownGraph,
  type LinkRecord,
  linkKey,
  type NodeRecord,
} from "../../importers/change-set.ts";

/** A graph in memory for importers to compare with: what change sets, applied in order, would leave. */
export function knownGraphOf(...changeSets: readonly ChangeSet[]): KnownGraph {
  const nodes = new Map<string, Map<string, NodeRecord>>();
  const byId = new Map<string, NodeRecord>();
  const links = new Map<string, Map<string, LinkRecord>>();
  const put = (record: NodeRecord): void => {
    const table = nodes.get(record.label) ?? new Map<string, NodeRecord>();
    nodes.set(record.label, table.set(record.key, record));
    byId.set(record.id, record);
  };
  for (const { changes } of changeSets) {
    for (const change of changes) {
      if (change.kind === "create-node") {
        if (byId.has(change.id)) throw new Error(`id taken: ${change.id}`);
        const { id, label, key, properties, extra = {} } = change;
        put({ id, label, key, properties, extra, version: 1 });
      } else if (change.kind === "update-node") {
        const old = byId.get(change.id);
        if (old === undefined || old.version !== change.basedOn) throw new Error("stale update");
        const properties = { ...old.properties, ...change.set };
        put({ ...old, properties, extra: change.extra ?? old.extra, version: old.version + 1 });
      } else if (change.kind === "create-link" || change.kind === "update-link") {
        const { type, from, to } = change;
        if (!byId.has(from) || !byId.has(to)) throw new Error(`link to nowhere: ${type}`);
        const table = links.get(type) ?? new Map<string, LinkRecord>();
        links.set(type, table);
        const old = table.get(linkKey(from, to));
        if ((old === undefined) !== (change.kind === "create-link")) throw new Error("link twice");
        const set = change.kind === "create-link" ? change.properties : change.set;
        const properties = { ...old?.properties, ...set };
        const extra = change.extra ?? old?.extra ?? {};
        const version = (old?.version ?? 0) + 1;
        table.set(linkKey(from, to), { type, from, to, properties, extra, version });
      } else if (change.kind === "delete-link") {
        links.get(change.type)?.delete(linkKey(change.from, change.to));
      }
    }
  }
  return {
    nodes: (label: NodeLabel) => nodes.get(label) ?? new Map(),
    links: (type: RelationshipType) => links.get(type) ?? new Map(),
  };
}

/** What a graph holds, in an order of its own, for comparing two. */
export function contentOf(
  graph: KnownGraph,
  labels: readonly NodeLabel[],
  types: readonly RelationshipType[],
): unknown {
  return {
    nodes: labels.flatMap((label) =>
      [...graph.nodes(label).values()].sort((a, b) => (a.key < b.key ? -1 : 1)),
    ),
    links: types.flatMap((type) =>
      [...graph.links(type).values()].sort((a, b) =>
        linkKey(a.from, a.to) < linkKey(b.from, b.to) ? -1 : 1,
      ),
    ),
  };
}
