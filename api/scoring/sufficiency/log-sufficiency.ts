import { type Pmf, survival } from "../demand/pmf.ts";
import { atMost, moreThan } from "./at-most.ts";

/**
 * `ln F(x)` for each `x < mass.length`: logarithm of the sum in the lower half, `log1p(-Pr(D > x))`
 * above, so that the last steps towards certainty, which decide a kit, keep their digits. Where F is
 * smaller than a double can hold the value is -Infinity. O(n).
 */
export function logSufficiency(demand: Pmf): Float64Array {
  const result = survival(demand);
  let below = 0;
  for (let k = 0; k < result.length; k += 1) {
    below += demand.mass[k] ?? 0;
    result[k] = below < 0.5 ? Math.log(below) : Math.log1p(-(result[k] ?? 0));
  }
  return result;
}

/** `ln F(x)` at one number of pieces `x` (spares + robbing credit); -Infinity below zero. O(n). */
export function logSufficiencyAt(demand: Pmf, x: number): number {
  const reached = atMost(demand, x);
  return reached < 0.5 ? Math.log(reached) : Math.log1p(-moreThan(demand, x));
}

/** A part's demand and the pieces that may meet it: usable spares plus robbing credit. */
export interface Provision {
  readonly demand: Pmf;
  readonly pieces: number;
}

/**
 * `ln Π_p F_p(pieces_p)`, the logarithm of the chance that no part runs short, parts independent
 * given their rates. No parts: 0 (certain). Take `Math.exp` for the chance, `-Math.expm1` for the risk.
 */
export function logSufficiencyOfAll(parts: readonly Provision[]): number {
  // Smallest terms first: the sum is then the same whatever order the parts come in.
  const terms = parts.map((part) => logSufficiencyAt(part.demand, part.pieces));
  return terms.sort((a, b) => b - a).reduce((sum, term) => sum + term, 0);
}
