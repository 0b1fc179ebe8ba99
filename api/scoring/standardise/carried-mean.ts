import { Problem } from "../../errors/problem.ts";

/**
 * Returns the largest mean of a Poisson demand at which `level` pieces are enough at a given price of protection.
 *
 * One piece more gains ln F(s+1; m) - ln F(s; m) = ln(1 + p(s+1; m) / F(s; m)) of ln sufficiency. It is worth its cost
 * c at the price λ (money per unit of ln sufficiency, that of the last piece of today's kit) while λ × gain > c. The gain
 * rises with m and falls with s, so level s is enough up to the m at which the gain is c / λ: found by bisection.
 * Equal protection here means equal at the margin, as in a kit of least cost.
 *
 * @param level s, pieces, a whole number >= 0
 * @param ratio c / λ, > 0; at Infinity (nothing is ever worth buying) the mean is unbounded
 * @returns the mean, pieces, >= 0, right to about 1e-12 relative
 * Errors: `input-invalid`. Source: METHODS, standardising ("the largest pooled mean it can carry at the part's
 * protection"); own derivation; oracle: brute force in tests.
 */
export function carriedMean(level: number, ratio: number): number {
  if (!Number.isInteger(level) || level < 0 || !(ratio > 0)) {
    throw new Problem(
      "input-invalid",
      `A carried mean needs a whole level and a cost above 0; received level ${level}, ratio ${ratio}. Give the part a price.`,
    );
  }
  const wanted = Math.expm1(ratio);
  if (!Number.isFinite(wanted)) return Number.POSITIVE_INFINITY;
  let low = 0;
  let high = level + 1;
  while (nextOverHeld(level, high) < wanted) high *= 2;
  for (let step = 0; step < 100 && high - low > high * 1e-13; step++) {
    const middle = (low + high) / 2;
    if (nextOverHeld(level, middle) <= wanted) low = middle;
    else high = middle;
  }
  return low;
}

/** p(s+1; m) / F(s; m), by terms relative to the (s+1)-th so that nothing overflows. */
function nextOverHeld(level: number, mean: number): number {
  if (mean === 0) return 0;
  // F(s) / p(s+1) = sum over j = 0..s of (s+1)! / (s-j)! / m^(j+1).
  let term = (level + 1) / mean;
  let sum = term;
  for (let k = level; k >= 1; k--) {
    term *= k / mean;
    sum += term;
    if (term < sum * 1e-17) break;
  }
  return 1 / sum;
}
