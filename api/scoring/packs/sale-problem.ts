import type { Tier, TierTargets } from "../kit/kit-problem.ts";

/** What is limited and what can be made least, each counted in whole units: minor units of money, grams, millilitres, pieces. */
export type Resource = "cost" | "mass" | "volume" | "pieces";
export const resources: readonly Resource[] = ["cost", "mass", "volume", "pieces"];

/** One part class as the solver of packs and service kits sees it. */
export interface SalePart {
  /**
   * `logCdf[s]` = ln Pr(D <= s + credit) for s = 0..m good pieces, not decreasing, in [-Infinity, 0].
   * More than m pieces count as m. No concavity is assumed.
   */
  readonly logCdf: Float64Array;
  readonly tier: Tier;
  /** Pieces held before anything is bought or opened, an integer >= 0; 0 when absent. */
  readonly held?: number;
}

/** Pieces of one part that one unit of an offer gives (or, where negative, takes: a service kit aboard that is opened). */
export interface Content {
  readonly part: number;
  readonly pieces: number;
}

/** One thing that can be bought (a piece, a pack, a service kit) or done (a service kit aboard opened). */
export interface SaleOffer {
  readonly contents: readonly Content[];
  /** What one unit uses up of each resource: integers >= 0. */
  readonly uses: Readonly<Record<Resource, number>>;
  /** Least units if any are bought at all, an integer >= 1; 1 when absent. */
  readonly least?: number;
  /** Most units to be had, an integer >= 0; no limit when absent. */
  readonly most?: number;
  /** Of all offers with the same number here at most one unit in all is taken: ways of doing one thing. */
  readonly oneOf?: number;
}

/** Room for the whole of what is bought: grams and millilitres; absent = no limit. */
export interface Room {
  readonly mass?: number;
  readonly volume?: number;
}

export interface SaleCaps {
  readonly cost?: number;
  readonly mass?: number;
  readonly volume?: number;
  /** Everything bought must be stowed in these places, each unit whole in one of them; absent = anywhere. */
  readonly lockers?: readonly Room[];
}

/**
 * `least`: the least objective that reaches every target within the caps.
 * `most`: the greatest weighted log-sufficiency within the caps, the safety tier's target held first.
 */
export type Aim = "least" | "most";

export interface SaleProblem {
  readonly parts: readonly SalePart[];
  readonly offers: readonly SaleOffer[];
  /** A tier without a target is not provisioned where the aim is `least`. */
  readonly targets: TierTargets;
  readonly objective: Resource;
  readonly caps: SaleCaps;
  readonly aim: Aim;
  /** Weight of ln sufficiency per tier where the aim is `most`, each >= 0. */
  readonly weights: readonly [number, number, number];
}

/** `unproven`: the best kit found when the time ran out; the gap says how far it may be from the best. */
export type SaleStatus = "optimal" | "infeasible" | "unproven";

/** How a kit was found: the fast exact method on parts sold singly, its extension to packs and kits, or the MILP solver. */
export type SaleMethod = "steps" | "packs" | "programme";

export interface SaleAnswer {
  readonly status: SaleStatus;
  readonly method: SaleMethod;
  /** Units bought of each offer. */
  readonly units: Int32Array;
  /** Good pieces of each part with them, what was held included. */
  readonly pieces: Int32Array;
  /** Totals of what is bought. */
  readonly uses: Readonly<Record<Resource, number>>;
  /** What was made least (whole units) or most (weighted ln sufficiency, <= 0). */
  readonly value: number;
  /** No kit does better than this: a lower bound for `least`, an upper bound for `most`. */
  readonly bound: number;
  /** |value - bound|. */
  readonly gap: number;
  readonly sufficiency: readonly [number, number, number];
  /** Locker of each unit bought, per offer a list of locker numbers; present where lockers are asked for. */
  readonly stowed?: readonly (readonly number[])[];
  /** Set where the solver's own kit fell short of a target by its tolerance and another was sought. */
  readonly repaired: boolean;
}
