import { Problem } from "../../errors/problem.ts";
import { chance, requireNumber, wholeCount } from "../demand/require-number.ts";

/**
 * The chance that at least `needed` of several independent items work.
 *
 *   Pr(Σ works ≥ k),   works_i = 1 with probability r_i
 *
 * by adding one item at a time to the distribution of how many have failed, counted only up to
 * n - k. O(n (n-k)). `needed` 0 is certain; `needed` above n throws `input-invalid`, since no item
 * can fail and the function still not be met.
 * Source: W. Kuo and M. Zuo, Optimal Reliability Modeling, k-out-of-n systems.
 */
export function kOfN(needed: number, reliabilities: readonly number[]): number {
  requireNeeded(needed, reliabilities.length);
  const spare = reliabilities.length - needed;
  const failed = new Float64Array(spare + 1);
  failed[0] = 1;
  for (const reliability of reliabilities) {
    requireNumber("A reliability", reliability, chance);
    for (let f = spare; f >= 0; f -= 1) {
      const oneMore = f > 0 ? (failed[f - 1] ?? 0) * (1 - reliability) : 0;
      failed[f] = (failed[f] ?? 0) * reliability + oneMore;
    }
  }
  return needed === 0
    ? 1
    : Math.min(
        1,
        failed.reduce((sum, p) => sum + p, 0),
      );
}

/** Checks that `needed` is a whole number from 0 to `fitted`. */
export function requireNeeded(needed: number, fitted: number): void {
  requireNumber("The number fitted", fitted, wholeCount);
  requireNumber("The number needed", needed, wholeCount);
  if (needed <= fitted) return;
  throw new Problem(
    "input-invalid",
    `A function may need at most the items that serve it; received ${needed} needed of ${fitted} ` +
      "fitted. Lower the need or fit more items.",
  );
}
