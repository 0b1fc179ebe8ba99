import type { Pmf } from "../demand/pmf.ts";
import { requireNumber, wholeCount } from "../demand/require-number.ts";
import { atMost } from "./at-most.ts";
import { requireNeeded } from "./k-of-n.ts";

/** A stopping part and the usable spares of it. */
export interface SparedPart {
  readonly demand: Pmf;
  readonly spares: number;
}

/**
 * The chance that a function is met when no part may be taken from a stopped item: every demand
 * left unfilled stops one more of them.
 *
 *   Pr(Σ_p max(0, D_p - s_p) ≤ n - k)
 *
 * Each shortfall has mass F(s) at 0 and Pr(D = s + j) at j; they are convolved up to n - k. It is
 * never above the chance with robbing. Not for safety gear, which takes no credit for redundancy.
 * Throws `input-invalid` when k exceeds n. O(parts (n-k)²).
 * Source: METHODS of this project, section 2; own derivation.
 */
export function noRobbingSurvival(
  parts: readonly SparedPart[],
  fitted: number,
  needed: number,
): number {
  requireNeeded(needed, fitted);
  const allowed = fitted - needed;
  let short = new Float64Array(allowed + 1);
  short[0] = 1;
  for (const { demand, spares } of parts) {
    requireNumber("The usable spares", spares, wholeCount);
    const next = new Float64Array(allowed + 1);
    for (let j = 0; j <= allowed; j += 1) {
      const weight = j === 0 ? atMost(demand, spares) : (demand.mass[spares + j] ?? 0);
      for (let i = 0; i + j <= allowed; i += 1) {
        next[i + j] = (next[i + j] ?? 0) + weight * (short[i] ?? 0);
      }
    }
    short = next;
  }
  return Math.min(
    1,
    short.reduce((sum, p) => sum + p, 0),
  );
}
