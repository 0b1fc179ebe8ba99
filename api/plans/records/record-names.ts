import {
  identifyingTypes,
  type NodeId,
  nodeDeclaration,
  relationshipDeclaration,
} from "../../../graph-schema/index.ts";
import type { LinkRecord, NodeRecord } from "../../../importers/change-set.ts";
import type { RecordDocument, RecordReference } from "../../contract/records.contract.ts";
import type { GraphStore, NodePage } from "../../store/graph-store.ts";
import { plural } from "../words.ts";

const deepest = 50;

/** A record's own name: its part number, position, designation; for a lot its pieces. */
export function ownName({
  id,
  label,
  properties,
}: Pick<NodeRecord, "id" | "label" | "properties">): string {
  const value = properties[nodeDeclaration(label).nameFrom];
  if (label === "StockLot") return plural(Number(value ?? 0), "piece");
  return value === undefined ? id : String(value);
}

export const referenceTo = (node: NodeRecord): RecordReference => ({
  id: node.id,
  label: node.label,
  name: ownName(node),
});

/** Names of records as people tell them apart, each read once. For one answer; a graph that changes makes it stale. */
export class RecordNames {
  readonly #store: GraphStore;
  readonly #nodes = new Map<NodeId, NodeRecord | undefined>();
  readonly #owning = new Map<NodeId, readonly LinkRecord[]>();

  constructor(store: GraphStore) {
    this.#store = store;
  }

  /** Takes in what a page read already. */
  learn(page: NodePage): void {
    for (const node of [...page.nodes, ...page.owners]) this.#nodes.set(node.id, node);
    const byNode = Map.groupBy(page.owning, ({ from }) => from);
    for (const { id } of page.nodes) this.#owning.set(id, byNode.get(id) ?? []);
  }

  know(node: NodeRecord): void {
    this.#nodes.set(node.id, node);
  }

  async node(id: NodeId): Promise<NodeRecord | undefined> {
    if (!this.#nodes.has(id)) this.#nodes.set(id, await this.#store.node(id));
    return this.#nodes.get(id);
  }

  /** Relationships of which the record has at most one. */
  async owning(id: NodeId): Promise<readonly LinkRecord[]> {
    const known = this.#owning.get(id);
    if (known !== undefined) return known;
    const all = await this.#store.linksFrom(id);
    const owning = all.filter(({ type }) => relationshipDeclaration(type).each === "one");
    this.#owning.set(id, owning);
    return owning;
  }

  /** The names of what a record hangs on, outermost first, then its own: "Tamarisk / Engine room / Box 3". */
  async path(node: NodeRecord, depth = 0): Promise<readonly string[]> {
    this.know(node);
    const wanted = identifyingTypes(node.label);
    if (wanted.length === 0 || depth > deepest) return [ownName(node)];
    const owning = await this.owning(node.id);
    const names: string[] = [];
    for (const type of wanted) {
      const link = owning.find((one) => one.type === type);
      const owner = link === undefined ? undefined : await this.node(link.to);
      if (owner !== undefined) names.push(...(await this.path(owner, depth + 1)));
    }
    return [...names, ownName(node)];
  }

  async title(node: NodeRecord): Promise<string> {
    return (await this.path(node)).join(" / ");
  }

  /** The title of a record that may be gone: then its id. */
  async titleOf(id: NodeId): Promise<string> {
    const node = await this.node(id);
    return node === undefined ? id : this.title(node);
  }

  async document(node: NodeRecord): Promise<RecordDocument> {
    const title = await this.title(node);
    const owners: RecordDocument["owners"] = [];
    for (const { type, to } of await this.owning(node.id)) {
      const owner = await this.node(to);
      if (owner !== undefined) owners.push({ type, ...referenceTo(owner) });
    }
    return {
      ...referenceTo(node),
      title,
      version: node.version,
      properties: { ...node.properties },
      extra: { ...node.extra },
      owners,
    };
  }
}
