import type { PartClasses } from "../classes/part-classes.ts";
import { fittedScope } from "../commonality/fitted-scope.ts";
import { distinctKits } from "../commonality/kits.ts";
import { minimumCover } from "../coverage/minimum-cover.ts";
import { suppliedGear } from "../coverage/supplied-gear.ts";
import type { Snapshot } from "../snapshot/snapshot.ts";

/** How much variety the gear of one vessel makes. */
export interface GearFootprint {
  /** Part classes any fitted model takes, each by the lowest part row in it. */
  readonly parts: ReadonlySet<number>;
  /** Different spares kits. */
  readonly kits: number;
  /** The least number of suppliers that sell everything of it on sale. */
  readonly suppliers: number;
  /** Whether that number is proven least. */
  readonly suppliersProven: boolean;
}

/** Enough for any real fleet; beyond it the number is the best found, and said to be. */
const coverNodes = 2_000;

/** Returns the parts, spares kits and least suppliers of one vessel's gear. Source: commonality/kits.ts, coverage/minimum-cover.ts. */
export function gearFootprint(
  snapshot: Snapshot,
  classes: PartClasses,
  vessel: number,
): GearFootprint {
  const scope = fittedScope(snapshot, classes, { vessel });
  const { rowCount, columns } = suppliedGear(snapshot, classes, scope);
  const cover = minimumCover({ rowCount, columns }, coverNodes);
  return {
    parts: new Set(scope.partClasses.map((one) => classes.members[one]?.[0] ?? -1)),
    kits: distinctKits(scope.sparable).kitCount,
    suppliers: cover.chosen.length,
    suppliersProven: cover.status === "optimal",
  };
}

/** How the parts of one model that can be replaced at sea are to be had. */
export interface PartsSupply {
  readonly parts: number;
  readonly singleSource: number;
  readonly unsold: number;
  /** Days of the part that takes longest from its quickest supplier; NaN where no lead time is known. */
  readonly worstLeadTimeDays: number;
  readonly leadTimeUnknown: number;
  /** The part class that takes longest; -1 where unknown. */
  readonly slowest: number;
}

/** Returns who sells the sparable part classes of one model and how long they take. O(offers + parts list). */
export function partsSupply(snapshot: Snapshot, classes: PartClasses, model: number): PartsSupply {
  const { uses, offers, suppliers } = snapshot;
  const wanted = new Set<number>();
  for (let line = uses.start[model] ?? 0; line < (uses.start[model + 1] ?? 0); line++) {
    if (uses.fittableAtSea[line] !== 0) wanted.add(classes.classOf[uses.target[line] ?? 0] ?? -1);
  }
  const sellers = new Map<number, Set<number>>();
  const quickest = new Map<number, number>();
  for (let supplier = 0; supplier < suppliers.id.length; supplier++) {
    for (let o = offers.start[supplier] ?? 0; o < (offers.start[supplier + 1] ?? 0); o++) {
      const partClass = classes.classOf[offers.target[o] ?? 0] ?? -1;
      if (!wanted.has(partClass)) continue;
      sellers.set(partClass, (sellers.get(partClass) ?? new Set()).add(supplier));
      const days = offers.leadTimeDays[o] ?? Number.NaN;
      if (days < (quickest.get(partClass) ?? Infinity)) quickest.set(partClass, days);
    }
  }
  let slowest = -1;
  let worst = Number.NaN;
  for (const [partClass, days] of quickest) {
    if (Number.isNaN(worst) || days > worst) {
      worst = days;
      slowest = partClass;
    }
  }
  const counts = [...wanted].map((partClass) => sellers.get(partClass)?.size ?? 0);
  return {
    parts: wanted.size,
    singleSource: counts.filter((count) => count === 1).length,
    unsold: counts.filter((count) => count === 0).length,
    worstLeadTimeDays: worst,
    leadTimeUnknown: wanted.size - quickest.size,
    slowest,
  };
}
