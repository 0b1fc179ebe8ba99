import { compensatedSum } from "../kit/compensated-sum.ts";
import { logTarget } from "../kit/log-target.ts";
import { type Resource, resources, type SaleProblem } from "./sale-problem.ts";

/** What a choice of units amounts to, reckoned afresh and exactly: integers, and compensated sums of logarithms. */
export interface SaleJudgement {
  readonly pieces: Int32Array;
  readonly uses: Record<Resource, number>;
  /** ln sufficiency per tier. */
  readonly log: readonly [number, number, number];
  /** By how much each tier's ln sufficiency misses its target; <= 0 where it is reached or there is none. */
  readonly short: readonly [number, number, number];
  /** True where units are whole, within each offer's limits, and no part is opened below nothing. */
  readonly isPossible: boolean;
  /** True where money, mass and volume caps hold (lockers are judged by stow-units.ts). */
  readonly isWithinCaps: boolean;
}

/** ln Pr(D <= s + credit) with s pieces: more than the array holds count as its last. */
export const logAt = (logCdf: Float64Array, pieces: number): number =>
  pieces < 0 ? -Infinity : Math.min(0, logCdf[Math.min(pieces, logCdf.length - 1)] ?? -Infinity);

/**
 * Returns what the units bought amount to: s_p = held_p + sum_u contains(u, p) y_u, totals of each resource, and
 * ln sufficiency per tier against its target.
 *
 * This, and no solver's own arithmetic, decides whether a kit counts. O(contents + parts).
 * Source: METHODS section 3, "how it is sold"; targets as in log-target.ts.
 */
export function judgeSale(problem: SaleProblem, units: ArrayLike<number>): SaleJudgement {
  const { parts, offers, caps } = problem;
  const pieces = Int32Array.from(parts, (part) => part.held ?? 0);
  const uses: Record<Resource, number> = { cost: 0, mass: 0, volume: 0, pieces: 0 };
  let isPossible = true;
  const taken = new Map<number, number>();
  offers.forEach((offer, u) => {
    const count = units[u] ?? 0;
    if (count === 0) return;
    if (!(Number.isSafeInteger(count) && count >= (offer.least ?? 1))) isPossible = false;
    if (count > (offer.most ?? Infinity)) isPossible = false;
    if (offer.oneOf !== undefined) {
      const sum = (taken.get(offer.oneOf) ?? 0) + count;
      taken.set(offer.oneOf, sum);
      if (sum > 1) isPossible = false;
    }
    for (const name of resources) uses[name] += offer.uses[name] * count;
    for (const content of offer.contents) {
      pieces[content.part] = (pieces[content.part] ?? 0) + content.pieces * count;
    }
  });
  if (pieces.some((count) => count < 0)) isPossible = false;
  const sums = [compensatedSum(), compensatedSum(), compensatedSum()] as const;
  parts.forEach((part, p) => {
    sums[part.tier].add(logAt(part.logCdf, pieces[p] ?? 0));
  });
  const log = [sums[0].value(), sums[1].value(), sums[2].value()] as const;
  const shortOf = (tier: 0 | 1 | 2): number => {
    const target = problem.targets[tier];
    return target === undefined ? 0 : logTarget(target) - log[tier];
  };
  return {
    pieces,
    uses,
    log,
    short: [shortOf(0), shortOf(1), shortOf(2)],
    isPossible,
    isWithinCaps:
      uses.cost <= (caps.cost ?? Infinity) &&
      uses.mass <= (caps.mass ?? Infinity) &&
      uses.volume <= (caps.volume ?? Infinity),
  };
}
