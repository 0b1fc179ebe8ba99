import type { KitPart } from "./kit-problem.ts";

/** The stock levels worth holding of each part, columnar: part k owns the levels first[k] .. first[k + 1] - 1. */
export interface Levels {
  /** Index of part k in the caller's list. */
  readonly part: Int32Array;
  readonly first: Int32Array;
  /** Pieces bought at each level, rising within a part. */
  readonly pieces: Int32Array;
  /** Cost of the level, rising strictly within a part. */
  readonly cost: Float64Array;
  /** -ln F >= 0 at the level, falling strictly within a part. */
  readonly loss: Float64Array;
}

/**
 * Returns, for the parts listed, the levels not dominated by one that costs no more and protects no less.
 *
 * Levels of probability 0 are left out, so a part none of whose levels has a positive probability owns
 * no level. A part that costs nothing keeps its best level alone (it is filled for free). Values above
 * 0 (rounding of a convolution) count as 0. Cost O(number of levels).
 * Source: Kettelle, "Least-Cost Allocations of Reliability Investment", Operations Research 10, 1962.
 */
export function undominatedLevels(parts: readonly KitPart[], chosen: readonly number[]): Levels {
  let room = 0;
  for (const index of chosen) room += parts[index]?.logCdf.length ?? 0;
  const pieces = new Int32Array(room);
  const cost = new Float64Array(room);
  const loss = new Float64Array(room);
  const first = new Int32Array(chosen.length + 1);
  let end = 0;
  chosen.forEach((index, k) => {
    const part = parts[index];
    if (part === undefined) return;
    const begin = end;
    const most = Math.min(part.logCdf.length - 1, part.maxBuy ?? Infinity);
    let least = Infinity;
    for (let x = 0; x <= most; x++) {
      const here = Math.max(0, -(part.logCdf[x] ?? -Infinity));
      if (here >= least) continue;
      least = here;
      const price = part.stepCost?.[x] ?? part.unitCost * x;
      if (end > begin && (cost[end - 1] ?? 0) >= price) end--;
      pieces[end] = x;
      cost[end] = price;
      loss[end] = here;
      end++;
    }
    first[k + 1] = end;
  });
  return {
    part: Int32Array.from(chosen),
    first,
    pieces: pieces.subarray(0, end),
    cost: cost.subarray(0, end),
    loss: loss.subarray(0, end),
  };
}
