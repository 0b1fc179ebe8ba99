/** Strictness of the function a part can stop: 0 safety, 1 passage, 2 comfort. Each tier has its own target. */
export type Tier = 0 | 1 | 2;

/**
 * One part class as the kit solver sees it.
 *
 * `logCdf[x]` = ln Pr(D <= base + x) for x = 0..m, where `base` (usable stock plus redundancy
 * credit) is already applied by the caller; values in [-Infinity, 0], not decreasing. It may stop
 * where the remaining tail no longer matters: x cannot exceed m. No concavity is assumed.
 */
export interface KitPart {
  readonly logCdf: Float64Array;
  /** Cost of one piece in whole units of what is minimised (cents, grams, millilitres): a safe integer >= 0. */
  readonly unitCost: number;
  readonly tier: Tier;
  /**
   * Cost of each step where it is not unitCost × x: integers ≥ 0, not falling, as long as `logCdf`. What is bought in
   * lumps (see chain-steps.ts) is one part so; "pieces" of it are then steps.
   */
  readonly stepCost?: Float64Array;
  /** Most pieces that can be bought, an integer >= 0; default: as far as `logCdf` goes. */
  readonly maxBuy?: number;
}

/** A tier without a target (undefined) is not provisioned: nothing is bought for it. */
export type TierTargets = readonly [number | undefined, number | undefined, number | undefined];

/** Minimise sum unitCost_p x_p such that, per tier t, sum of logCdf_p[x_p] >= ln targets[t]. */
export interface KitProblem {
  readonly parts: readonly KitPart[];
  /** Required probability of sufficiency per tier, each strictly between 0 and 1. */
  readonly targets: TierTargets;
}

export interface KitOptions {
  /** Asked now and then during the proof; once it says true the best kit so far is returned with its gap. */
  readonly shouldStop?: () => boolean;
}

/**
 * `optimal`: the kit is proven least-cost (cost = lowerBound). `infeasible`: no stock reaches the
 * target. `time-limited`: `shouldStop` said stop, or the proof outgrew its memory, first.
 */
export type KitStatus = "optimal" | "infeasible" | "time-limited";

export interface TierAnswer {
  readonly tier: Tier;
  readonly target: number | undefined;
  readonly status: KitStatus;
  /** Cost of this tier's buys; 0 where infeasible (nothing is bought for a target out of reach). */
  readonly cost: number;
  /** No kit that reaches the target costs less; equal to `cost` when optimal. */
  readonly lowerBound: number;
  readonly gap: number;
  /** Product of the parts' Pr(D <= stock) with these buys, never below the target unless infeasible. */
  readonly sufficiency: number;
  /** Sufficiency with every part at its ceiling. */
  readonly bestReachable: number;
  /**
   * Where infeasible: indices of the parts in the way, worst first: the fewest whose shortfall must
   * vanish for the rest, at their ceilings, to reach the target. Empty otherwise.
   */
  readonly blocking: readonly number[];
}

export interface KitAnswer {
  readonly status: KitStatus;
  /** Pieces to buy of each part, in the order given. */
  readonly buys: Int32Array;
  readonly cost: number;
  readonly lowerBound: number;
  /** cost - lowerBound, in cost units. */
  readonly gap: number;
  readonly sufficiency: readonly [number, number, number];
  readonly tiers: readonly [TierAnswer, TierAnswer, TierAnswer];
}
