import type { NodeId } from "../../graph-schema/index.ts";
import type { GearPicture } from "../scoring/snapshot/snapshot.ts";
import type { GraphStore } from "../store/graph-store.ts";

interface Kept {
  readonly sequence: number;
  readonly picture: Promise<GearPicture>;
}

/** The most snapshots kept: the whole fleet and a few vessels. */
const mostKept = 8;

/**
 * The same store, whose snapshots are kept until the graph changes. A snapshot is immutable, so plans may share it.
 */
export function keepSnapshot(store: GraphStore): GraphStore {
  const kept = new Map<string, Kept>();
  const keep = async <P extends GearPicture>(name: string, read: () => Promise<P>): Promise<P> => {
    const sequence = await store.sequence();
    const known = kept.get(name);
    if (known !== undefined && known.sequence === sequence) return known.picture as Promise<P>;
    const picture = read();
    if (kept.size >= mostKept) kept.clear();
    kept.set(name, { sequence, picture });
    picture.catch(() => kept.delete(name));
    return picture;
  };
  const snapshot = (vessel?: NodeId) => keep(vessel ?? "", () => store.snapshot(vessel));
  return new Proxy(store, {
    get(target, name) {
      if (name === "snapshot") return snapshot;
      const member: unknown = Reflect.get(target, name);
      if (name === "fleetGear" && target.fleetGear !== undefined)
        return () => keep("fleet gear", () => target.fleetGear?.() ?? target.snapshot());
      return typeof member === "function" ? member.bind(target) : member;
    },
  });
}
