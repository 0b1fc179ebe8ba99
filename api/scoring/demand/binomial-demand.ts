import { type Pmf, pointMass } from "./pmf.ts";
import { pmfFromRatios } from "./pmf-from-ratios.ts";
import { chance, requireNumber, wholeCount } from "./require-number.ts";

/**
 * The demand of a piece that may be dropped or spoilt each time it is handled.
 *
 *   Pr(D = k) = C(n, k) ℓ^k (1-ℓ)^(n-k)
 *   n  pieces handled: quantity × services falling due (≥ 0, whole)
 *   ℓ  chance of losing one piece in one service, in [0, 1]
 *
 * Throws `input-invalid` (n) or `rate-invalid` (ℓ). O(n).
 */
export function binomialDemand(handled: number, lossChance: number): Pmf {
  requireNumber("The number of pieces handled", handled, wholeCount);
  requireNumber("The chance of loss", lossChance, chance);
  if (handled === 0 || lossChance === 0) return pointMass(0);
  if (lossChance === 1) return pointMass(handled);
  const odds = lossChance / (1 - lossChance);
  const mode = Math.min(handled, Math.floor((handled + 1) * lossChance));
  return pmfFromRatios(mode, (k) => ((handled - k) / (k + 1)) * odds);
}
