import { compensatedSum } from "./compensated-sum.ts";
import type { Levels } from "./undominated-levels.ts";

export interface Reach {
  /** Sum of ln F with every part at its ceiling; -Infinity if a part has no level of positive probability. */
  readonly logSufficiency: number;
  /** Parts in the way of the target, worst first; empty where it can be reached. */
  readonly blocking: readonly number[];
}

/**
 * Returns the log-sufficiency with every part at its ceiling, and the fewest parts whose loss must
 * vanish before the others can reach `logTarget`.
 *
 * Cost O(n log n) where out of reach, O(n) otherwise. Own derivation: removing the greatest losses
 * first removes the fewest terms that bring a sum of non-negative terms under a bound.
 */
export function tierReach(levels: Levels, logTarget: number): Reach {
  const count = levels.part.length;
  const ceiling = Float64Array.from({ length: count }, (_, k) => {
    const top = levels.first[k + 1] ?? 0;
    return top > (levels.first[k] ?? 0) ? -(levels.loss[top - 1] ?? 0) : -Infinity;
  });
  const total = compensatedSum();
  for (const value of ceiling) total.add(value);
  const logSufficiency = total.value();
  if (logSufficiency >= logTarget) return { logSufficiency, blocking: [] };
  const order = Array.from({ length: count }, (_, k) => k).sort(
    (a, b) => (ceiling[a] ?? 0) - (ceiling[b] ?? 0) || a - b,
  );
  // From the best part up, so that infinite losses never have to be subtracted again.
  const rest = compensatedSum();
  let kept = 0;
  for (const k of order.toReversed()) {
    rest.add(ceiling[k] ?? 0);
    if (!(rest.value() >= logTarget)) break;
    kept++;
  }
  return {
    logSufficiency,
    blocking: order.slice(0, count - kept).map((k) => levels.part[k] ?? 0),
  };
}
