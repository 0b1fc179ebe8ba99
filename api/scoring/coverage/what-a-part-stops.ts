import type { PartClasses } from "../classes/part-classes.ts";
import type { GearPicture } from "../snapshot/snapshot.ts";

/** What fitted gear suffers when a part class fails and no piece can be had. */
export interface PartStops {
  /** 0 safety, 1 passage, 2 comfort: the strictest over all items that take it. */
  readonly tier: 0 | 1 | 2;
  /** Items a failure of it stops. */
  readonly itemsStopped: number;
  /** Items that take it. */
  readonly items: number;
}

/**
 * What each part class stops over the fitted gear of a snapshot, or of one vessel in it. An item's tier is that of
 * the strictest function it serves, passage where none is named; a failure that only degrades falls one tier
 * looser, one that does neither is comfort; a part marked as safety gear is in the safety tier.
 */
export function whatPartsStop(
  snapshot: GearPicture,
  classes: PartClasses,
  vessel?: number,
): ReadonlyMap<number, PartStops> {
  const { items, uses, serves, functions } = snapshot;
  const found = new Map<number, PartStops>();
  for (let item = 0; item < items.id.length; item++) {
    if (vessel !== undefined && items.vessel[item] !== vessel) continue;
    const served = [...serves.target.subarray(serves.start[item], serves.start[item + 1])];
    const own =
      served.length === 0 ? 1 : Math.min(...served.map((row) => functions.tier[row] ?? 1));
    const model = items.model[item] ?? -1;
    const stopping = new Map<number, { tier: number; stops: boolean }>();
    for (let line = uses.start[model] ?? 0; line < (uses.start[model + 1] ?? 0); line++) {
      if (uses.fittableAtSea[line] === 0) continue;
      const part = uses.target[line] ?? 0;
      const effect = uses.failureEffect[line] ?? 0;
      const bySafety = snapshot.parts.isSafety[part] === 1;
      const tier = bySafety ? 0 : effect === 0 ? own : effect === 1 ? Math.min(2, own + 1) : 2;
      const partClass = classes.classOf[part] ?? -1;
      const before = stopping.get(partClass);
      stopping.set(partClass, {
        tier: Math.min(tier, before?.tier ?? 2),
        stops: effect === 0 || before?.stops === true,
      });
    }
    for (const [partClass, { tier, stops }] of stopping) {
      const before = found.get(partClass);
      found.set(partClass, {
        tier: Math.min(tier, before?.tier ?? 2) as 0 | 1 | 2,
        itemsStopped: (before?.itemsStopped ?? 0) + (stops ? 1 : 0),
        items: (before?.items ?? 0) + 1,
      });
    }
  }
  return found;
}
