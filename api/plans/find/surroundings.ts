import type { NodeId, RelationshipType } from "../../../graph-schema/index.ts";
import type { LinkRecord, NodeRecord } from "../../../importers/change-set.ts";
import type { GraphStore } from "../../store/graph-store.ts";

const deepest = 20;

/** The part of the graph round some records, read in a few steps however many they are. */
export class Surroundings {
  readonly #store: GraphStore;
  readonly #nodes = new Map<NodeId, NodeRecord>();
  readonly #from = new Map<string, readonly LinkRecord[]>();
  readonly #to = new Map<string, readonly LinkRecord[]>();

  constructor(store: GraphStore) {
    this.#store = store;
  }

  know(nodes: readonly NodeRecord[]): void {
    for (const node of nodes) this.#nodes.set(node.id, node);
  }

  node(id: NodeId | undefined): NodeRecord | undefined {
    return id === undefined ? undefined : this.#nodes.get(id);
  }

  text(id: NodeId | undefined, property: string): string {
    const value = this.node(id)?.properties[property];
    return typeof value === "string" ? value : "";
  }

  /** Ids that a relationship read before leads to. */
  targets(id: NodeId, type: RelationshipType): readonly NodeId[] {
    return (this.#from.get(`${type} ${id}`) ?? []).map(({ to }) => to);
  }

  /** Ids from which a relationship read before comes. */
  sources(id: NodeId, type: RelationshipType): readonly NodeId[] {
    return (this.#to.get(`${type} ${id}`) ?? []).map(({ from }) => from);
  }

  /** Reads relationships that leave the records, and what they lead to; gives the ids led to. */
  async follow(
    ids: readonly NodeId[],
    types: readonly RelationshipType[],
  ): Promise<readonly NodeId[]> {
    const links = await this.#store.linksAt(ids, "from", types);
    for (const [name, group] of Map.groupBy(links, ({ type, from }) => `${type} ${from}`))
      this.#from.set(name, group);
    return this.#read(links.map(({ to }) => to));
  }

  /** Reads relationships that lead to the records, and where they come from; gives those ids, at most `most`. */
  async followBack(
    ids: readonly NodeId[],
    types: readonly RelationshipType[],
    most = Number.POSITIVE_INFINITY,
  ): Promise<readonly NodeId[]> {
    const links = await this.#store.linksAt(ids, "to", types);
    for (const [name, group] of Map.groupBy(links, ({ type, to }) => `${type} ${to}`))
      this.#to.set(name, group);
    const from = links.map((link) => link.from);
    return this.#read(from.length > most ? from.slice(0, most) : from);
  }

  async #read(ids: readonly NodeId[]): Promise<readonly NodeId[]> {
    const wanted = [...new Set(ids)];
    const missing = wanted.filter((id) => !this.#nodes.has(id));
    if (missing.length > 0) this.know(await this.#store.nodes(missing));
    return wanted;
  }

  /** Reads the places lots or lockers are in, up to their vessels. */
  async followPlaces(lots: readonly NodeId[], lockers: readonly NodeId[] = []): Promise<void> {
    let at: readonly NodeId[] = [...lockers, ...(await this.follow(lots, ["STOWED_IN"]))];
    const seen = new Set<NodeId>();
    for (let depth = 0; depth < deepest && at.length > 0; depth++) {
      const inner = at.filter((id) => id.startsWith("Locker:") && !seen.has(id));
      for (const id of inner) seen.add(id);
      at = inner.length === 0 ? [] : await this.follow(inner, ["IS_WITHIN"]);
    }
  }

  /** The lockers round a place read before, outermost first, and the vessel that carries them. */
  placeOf(place: NodeId | undefined): {
    readonly vessel: NodeId | undefined;
    readonly path: string;
  } {
    const names: string[] = [];
    let at = place;
    for (let depth = 0; at?.startsWith("Locker:") === true && depth < deepest; depth++) {
      names.unshift(this.text(at, "name"));
      at = this.targets(at, "IS_WITHIN")[0];
    }
    return { vessel: at?.startsWith("Vessel:") === true ? at : undefined, path: names.join(" › ") };
  }
}
