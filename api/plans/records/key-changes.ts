import {
  identifyingTypes,
  labelsToldApartBy,
  type NodeId,
  type NodeKey,
  nodeKey,
  type Properties,
  type RelationshipType,
} from "../../../graph-schema/index.ts";
import type { NodeRecord, ProposedChange } from "../../../importers/change-set.ts";
import type { GraphStore } from "../../store/graph-store.ts";

/**
 * The key a node has with the given properties, where some of its relationships lead elsewhere than they do now.
 *
 * @param leads targets of relationships that are about to change
 */
export async function keyWith(
  store: GraphStore,
  node: Pick<NodeRecord, "id" | "label">,
  properties: Properties,
  leads: ReadonlyMap<RelationshipType, NodeRecord> = new Map(),
  keys: ReadonlyMap<NodeId, NodeKey> = new Map(),
): Promise<NodeKey> {
  const owners = new Map<RelationshipType, NodeKey>();
  for (const type of identifyingTypes(node.label)) {
    const given = leads.get(type);
    const to = given?.id ?? (await store.linksFrom(node.id, type))[0]?.to;
    const owner = given ?? (to === undefined ? undefined : await store.node(to));
    if (owner !== undefined) owners.set(type, keys.get(owner.id) ?? owner.key);
  }
  return nodeKey(node.label, properties, (type) => owners.get(type));
}

/**
 * The changes of key that follow from one node's new key: a part told apart by its maker's name goes with the maker's.
 * Each is in the order in which it can be applied; ids never change.
 */
export async function followingKeys(
  store: GraphStore,
  node: NodeRecord,
  key: NodeKey,
): Promise<readonly ProposedChange[]> {
  if (key === node.key) return [];
  const keys = new Map<NodeId, NodeKey>([[node.id, key]]);
  const records = new Map<NodeId, NodeRecord>();
  const queue: NodeRecord[] = [node];
  for (let owner = queue.shift(); owner !== undefined; owner = queue.shift()) {
    for (const { label, type } of labelsToldApartBy(owner.label)) {
      for (const { from } of await store.linksTo(owner.id, type)) {
        if (from === node.id) continue;
        const hanging = records.get(from) ?? (await store.node(from));
        if (hanging?.label !== label) continue;
        const fresh = await keyWith(store, hanging, hanging.properties, new Map(), keys);
        if (fresh === (keys.get(from) ?? hanging.key)) continue;
        keys.set(from, fresh);
        records.set(from, hanging);
        queue.push(hanging);
      }
    }
  }
  return [...records.values()].map((hanging) => ({
    kind: "update-node",
    id: hanging.id,
    basedOn: hanging.version,
    set: {},
    key: keys.get(hanging.id) ?? hanging.key,
  }));
}
