/** What a demand does: a failure that stops the item, any other demand on a part, a stop that no spare can mend. */
export const demandKind = { stops: 0, asks: 1, unsparable: 2 } as const;

/** Where a demand falls. `part`: row of the kit's classes, -1 none. `holder`: the pieces it is one of, -1 none. */
export interface DemandPlace {
  readonly part: number;
  readonly item: number;
  readonly holder: number;
  readonly kind: number;
}

/** Failures at a constant rate: `mean` over the crossing. */
export interface SteadySource extends DemandPlace {
  readonly mean: number;
}

/** Failures at one unknown rate shared by several places, all equally exposed: mean `scale` × Gamma(shape). */
export interface UncertainSource {
  readonly shape: number;
  readonly scale: number;
  readonly places: readonly DemandPlace[];
}

/** Pieces of one item that wear out and are renewed; time in the unit of the mean life. */
export interface WearingSource extends DemandPlace {
  readonly units: number;
  /** Weibull scale η and shape β. */
  readonly scale: number;
  readonly shape: number;
  /** At departure; NaN where unknown. */
  readonly age: number;
  readonly exposure: number;
}

/** Pieces asked for on one day: all of them, or each lost with a chance. */
export interface PlannedSource extends DemandPlace {
  readonly day: number;
  readonly pieces: number;
  /** NaN: used up. */
  readonly lossChance: number;
}

/** Pieces of one part in one item whose failure stops it. */
export interface Holder {
  readonly part: number;
  readonly item: number;
  /** Model of the item: failures that the formulas still count once it is stopped fall on its like. */
  readonly model: number;
  readonly pieces: number;
}

/** A required function over the model's items. */
export interface KeptFunction {
  /** Items that must run; all that serve it in the safety tier. */
  readonly need: number;
  readonly isSafety: boolean;
  readonly items: readonly number[];
}

/** One vessel's crossing as the simulation plays it: plain data, fit to be sent to a thread. Days from departure. */
export interface CrossingModel {
  readonly days: number;
  readonly items: number;
  /** Per part class: tier, pieces that donors may give, whether safety gear (never robbed). */
  readonly tier: Uint8Array;
  readonly credit: Int32Array;
  readonly isSafety: Uint8Array;
  /** Per part class, the one that supersedes it and serves its demand too, a later row; -1 where none. */
  readonly newer: Int32Array;
  readonly robbing: boolean;
  readonly functions: readonly KeptFunction[];
  readonly holders: readonly Holder[];
  readonly steady: readonly SteadySource[];
  readonly uncertain: readonly UncertainSource[];
  readonly wearing: readonly WearingSource[];
  readonly planned: readonly PlannedSource[];
}
