import { type Pmf, pointMass } from "./pmf.ts";
import { pmfFromRatios } from "./pmf-from-ratios.ts";
import { atLeastZero, requireNumber } from "./require-number.ts";

/**
 * The demand of a part that fails at a constant rate.
 *
 *   Pr(D = k) = e^-m m^k / k!
 *   m  expected pieces in the crossing: quantity × rate × exposure (pieces, ≥ 0)
 *
 * Throws `rate-invalid` when m is negative or not finite. Stable to means of 1e5 and beyond.
 * O(m + √m). Source: any text; checked against published tables in tests/external.
 */
export function poissonDemand(mean: number): Pmf {
  requireNumber("The expected demand", mean, atLeastZero);
  if (mean === 0) return pointMass(0);
  return pmfFromRatios(Math.floor(mean), (k) => mean / (k + 1));
}
