import type { GraphStore } from "../../api/store/graph-store.ts";
import {
  joinKey,
  keyPiece,
  mintNodeId,
  type NodeId,
  type NodeLabel,
  type Properties,
  type RelationshipType,
} from "../../graph-schema/index.ts";
import type { ProposedChange } from "../../importers/change-set.ts";

/** A small graph written by hand in a test: nodes by name, links between them, then applied to a store. */
export class GraphSketch {
  readonly #changes: ProposedChange[] = [];

  node(label: NodeLabel, name: string, properties: Properties): NodeId {
    const key = joinKey(keyPiece(name));
    const id = mintNodeId(label, key);
    this.#changes.push({ kind: "create-node", label, id, key, properties });
    return id;
  }

  link(type: RelationshipType, from: NodeId, to: NodeId, properties: Properties = {}): void {
    this.#changes.push({ kind: "create-link", type, from, to, properties });
  }

  vessel(name: string): NodeId {
    return this.node("Vessel", name, { name });
  }

  model(name: string, category = ""): NodeId {
    const id = this.node("Model", name, {
      designation: name,
      ...(category === "" ? {} : { category }),
    });
    this.link("MADE_BY", id, this.maker());
    return id;
  }

  maker(): NodeId {
    const name = "Quillmark";
    const known = this.#changes.find((c) => c.kind === "create-node" && c.label === "Maker");
    return known?.kind === "create-node" ? known.id : this.node("Maker", name, { name });
  }

  part(partNumber: string, properties: Properties = {}): NodeId {
    const id = this.node("Part", partNumber, { partNumber, ...properties });
    this.link("MADE_BY", id, this.maker());
    return id;
  }

  item(position: string, vessel: NodeId, model: NodeId, properties: Properties = {}): NodeId {
    const id = this.node("FittedItem", position, { position, ...properties });
    this.link("FITTED_ON", id, vessel);
    this.link("IS_MODEL", id, model);
    return id;
  }

  duty(name: string, vessel: NodeId, tier: string, need: number, items: readonly NodeId[]): NodeId {
    const id = this.node("RequiredFunction", name, { name, tier, need });
    this.link("REQUIRED_ON", id, vessel);
    for (const item of items) this.link("SERVES", item, id);
    return id;
  }

  stock(part: NodeId, vessel: NodeId, quantity: number, properties: Properties = {}): NodeId {
    const id = this.node("StockLot", `${part} ${this.#changes.length}`, {
      quantity,
      ...properties,
    });
    this.link("LOT_OF", id, part);
    this.link("STOWED_IN", id, vessel);
    return id;
  }

  supplier(name: string): NodeId {
    return this.node("Supplier", name, { name });
  }

  async into(store: GraphStore): Promise<void> {
    await store.apply({ changes: this.#changes }, { who: "test", at: "2026-11-25T00:00:00.000Z" });
  }
}
