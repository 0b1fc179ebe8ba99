import type { NodeId } from "../../graph-schema/index.ts";
import type { Snapshot } from "../scoring/snapshot/snapshot.ts";
import type { GraphStore } from "../store/graph-store.ts";

interface Kept {
  readonly sequence: number;
  readonly snapshot: Promise<Snapshot>;
}

/** The most snapshots kept: the whole fleet and a few vessels. */
const mostKept = 8;

/**
 * The same store, whose snapshots are kept until the graph changes. A snapshot is immutable, so plans may share it.
 */
export function keepSnapshot(store: GraphStore): GraphStore {
  const kept = new Map<string, Kept>();
  const snapshot = async (vessel?: NodeId): Promise<Snapshot> => {
    const sequence = await store.sequence();
    const name = vessel ?? "";
    const known = kept.get(name);
    if (known !== undefined && known.sequence === sequence) return known.snapshot;
    const fresh = { sequence, snapshot: store.snapshot(vessel) };
    if (kept.size >= mostKept) kept.clear();
    kept.set(name, fresh);
    fresh.snapshot.catch(() => kept.delete(name));
    return fresh.snapshot;
  };
  return new Proxy(store, {
    get(target, name) {
      if (name === "snapshot") return snapshot;
      const member: unknown = Reflect.get(target, name);
      return typeof member === "function" ? member.bind(target) : member;
    },
  });
}
