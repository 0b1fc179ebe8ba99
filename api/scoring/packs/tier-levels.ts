import type { Levels } from "../kit/undominated-levels.ts";
import { logAt } from "./judge-sale.ts";
import type { SaleGroups } from "./sale-groups.ts";
import type { SalePart } from "./sale-problem.ts";

/** The levels of one part worth buying by itself, from a count of pieces it already has. */
export interface PartLevels {
  /** Pieces to gain by buying, rising. */
  readonly gain: readonly number[];
  readonly cost: readonly number[];
  /** -ln F, falling strictly as cost rises strictly. */
  readonly loss: readonly number[];
}

/**
 * Returns the undominated levels of a part that already has `from` pieces: none that costs as much or more than one
 * with no more loss. Levels of probability 0 are left out. O(last useful piece).
 * Source: Kettelle, Operations Research 10, 1962 (dominance).
 */
export function partLevels(
  part: SalePart,
  cover: { readonly cost: Float64Array },
  last: number,
  from: number,
): PartLevels {
  const gain: number[] = [];
  const costs: number[] = [];
  const losses: number[] = [];
  let least = Infinity;
  for (let n = 0; from + n <= Math.max(last, from); n++) {
    const cost = cover.cost[n] ?? Infinity;
    if (cost === Infinity) break;
    const loss = -logAt(part.logCdf, from + n);
    if (!(loss < least)) continue;
    least = loss;
    if (costs.length > 0 && costs[costs.length - 1] === cost) {
      gain.pop();
      costs.pop();
      losses.pop();
    }
    gain.push(n);
    costs.push(cost);
    losses.push(loss);
  }
  return { gain, cost: costs, loss: losses };
}

/** Levels of many parts in the form the kit solver reads. */
export function joinLevels(parts: readonly number[], own: readonly PartLevels[]): Levels {
  const count = own.reduce((sum, levels) => sum + levels.gain.length, 0);
  const first = new Int32Array(parts.length + 1);
  const pieces = new Int32Array(count);
  const cost = new Float64Array(count);
  const loss = new Float64Array(count);
  let end = 0;
  own.forEach((levels, k) => {
    pieces.set(levels.gain, end);
    cost.set(levels.cost, end);
    loss.set(levels.loss, end);
    end += levels.gain.length;
    first[k + 1] = end;
  });
  return { part: Int32Array.from(parts), first, pieces, cost, loss };
}

/**
 * Returns, for a part and a multiplier, the least cost + multiplier × loss from each count of pieces 0..last, and the
 * loss of that choice. The value never rises with the count. O(last²).
 */
export function priceTable(
  part: SalePart,
  { covers, last }: SaleGroups,
  p: number,
  multiplier: number,
): { readonly value: Float64Array; readonly loss: Float64Array } {
  const end = last[p] ?? 0;
  const cover = covers[p];
  const value = new Float64Array(end + 1).fill(Infinity);
  const loss = new Float64Array(end + 1).fill(Infinity);
  for (let s = 0; s <= end; s++) {
    for (let n = 0; s + n <= end; n++) {
      const cost = cover?.cost[n] ?? Infinity;
      if (cost === Infinity) break;
      const here = -logAt(part.logCdf, s + n);
      if (here === Infinity) continue;
      const sum = cost + multiplier * here;
      if (sum < (value[s] ?? Infinity)) {
        value[s] = sum;
        loss[s] = here;
      }
    }
  }
  return { value, loss };
}
