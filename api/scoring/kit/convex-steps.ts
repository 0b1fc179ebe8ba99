import type { Levels } from "./undominated-levels.ts";

/** Steps along each part's convex envelope, in order of level within a part; part k owns first[k] .. first[k + 1] - 1. */
export interface ConvexSteps {
  readonly first: Int32Array;
  /** Level the step arrives at (an index into the levels). */
  readonly level: Int32Array;
  /** Cost per unit of ln F gained, rising within a part. */
  readonly slope: Float64Array;
  /** ln F gained. */
  readonly gain: Float64Array;
}

/**
 * Returns the steps of the lower convex envelope of (ln F, cost) of every part.
 *
 * For a log-concave distribution each step is one piece; otherwise a step may leap over levels that
 * lie above the envelope. They stay in the problem (see core-search.ts) and are only left out of the bound.
 * Cost O(number of levels). Source: Proschan; Sherbrooke, Optimal Inventory Modeling of Systems, 2004, ch. 2
 * (marginal analysis); the envelope form is Everett's, Operations Research 11, 1963.
 */
export function convexSteps(levels: Levels): ConvexSteps {
  const { cost, loss } = levels;
  const count = levels.part.length;
  const first = new Int32Array(count + 1);
  const level = new Int32Array(loss.length);
  const slope = new Float64Array(loss.length);
  const gain = new Float64Array(loss.length);
  let end = 0;
  for (let k = 0; k < count; k++) {
    const begin = end;
    const bottom = levels.first[k] ?? 0;
    const top = levels.first[k + 1] ?? 0;
    for (let j = bottom + 1; j < top; j++) {
      for (;;) {
        const from = end > begin ? (level[end - 1] ?? 0) : bottom;
        const gained = (loss[from] ?? 0) - (loss[j] ?? 0);
        const steep = ((cost[j] ?? 0) - (cost[from] ?? 0)) / gained;
        if (end > begin && steep < (slope[end - 1] ?? 0)) {
          end--;
          continue;
        }
        level[end] = j;
        slope[end] = steep;
        gain[end] = gained;
        end++;
        break;
      }
    }
    first[k + 1] = end;
  }
  return {
    first,
    level: level.subarray(0, end),
    slope: slope.subarray(0, end),
    gain: gain.subarray(0, end),
  };
}
