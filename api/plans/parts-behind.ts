import type { Snapshot } from "../scoring/snapshot/snapshot.ts";
import type { SearchHit } from "../store/graph-store.ts";
import { lockerPath } from "./describe-lot.ts";
import type { GearIndex } from "./index-gear.ts";

const isWithin = ({ lockers }: Snapshot, locker: number, outer: number): boolean => {
  for (let at = locker, steps = 0; at >= 0 && steps < 50; at = lockers.within[at] ?? -1, steps++) {
    if (at === outer) return true;
  }
  return false;
};

/** Parts a hit of another kind leads to: stowed in the locker, made by the maker, taken by the gear. */
export function partsBehind(
  snapshot: Snapshot,
  index: GearIndex,
  { node }: SearchHit,
): readonly [part: number, matched: string][] {
  const { lots, parts, uses, items, models } = snapshot;
  const taken = (model: number): readonly [number, string][] =>
    model < 0
      ? []
      : [...uses.target.subarray(uses.start[model], uses.start[model + 1])].map((part) => [
          part,
          `taken by ${models.designation[model] ?? ""}`,
        ]);
  switch (node.label) {
    case "Locker": {
      const locker = index.lockerRow.get(node.id) ?? -1;
      const inside = [...lots.part.keys()].filter(
        (lot) =>
          (lots.quantity[lot] ?? 0) > 0 && isWithin(snapshot, lots.locker[lot] ?? -1, locker),
      );
      return inside.map((lot) => [
        lots.part[lot] ?? -1,
        `stowed in ${lockerPath(snapshot, lots.locker[lot] ?? -1)}`,
      ]);
    }
    case "Maker": {
      const maker = index.makerRow.get(node.id) ?? -1;
      const made = [...parts.maker.keys()].filter((part) => parts.maker[part] === maker);
      return made.map((part) => [part, `made by ${snapshot.makers.name[maker] ?? ""}`]);
    }
    case "Model":
      return taken(index.modelRow.get(node.id) ?? -1);
    case "FittedItem":
      return taken(items.model[index.itemRow.get(node.id) ?? -1] ?? -1);
    default:
      return [];
  }
}

/** Rows of the parts a set of hits leads to, each with the first reason why. */
export function partsOfHits(
  snapshot: Snapshot,
  index: GearIndex,
  hits: readonly SearchHit[],
): ReadonlyMap<number, string> {
  const found = new Map<number, string>();
  const add = (part: number, matched: string): void => {
    if (part >= 0 && !found.has(part)) found.set(part, matched);
  };
  for (const hit of hits) {
    if (hit.node.label === "Part") add(index.partRow.get(hit.node.id) ?? -1, hit.matched);
  }
  for (const hit of hits) {
    for (const [part, matched] of partsBehind(snapshot, index, hit)) add(part, matched);
  }
  return found;
}
