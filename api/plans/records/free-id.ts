import {
  mintNodeId,
  type NodeId,
  type NodeKey,
  type NodeLabel,
} from "../../../graph-schema/index.ts";
import type { GraphStore } from "../../store/graph-store.ts";

/** The id a new record gets; the first is taken only after a renaming. */
export async function freeId(store: GraphStore, label: NodeLabel, key: NodeKey): Promise<NodeId> {
  for (let attempt = 0; ; attempt++) {
    const id = mintNodeId(label, key, attempt);
    if ((await store.node(id)) === undefined) return id;
  }
}
