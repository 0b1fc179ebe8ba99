import { checkParts } from "./check-parts.ts";
import { compensatedSum } from "./compensated-sum.ts";
import type { KitPart } from "./kit-problem.ts";
import { logTarget } from "./log-target.ts";

export interface PerPartKit {
  /** Pieces to buy of each part: the least that reach the share, or the best level where none does. */
  readonly buys: Int32Array;
  readonly cost: number;
  /** Product over each tier's parts. */
  readonly sufficiency: readonly [number, number, number];
  /** Parts that no stock brings to the share. */
  readonly unreached: readonly number[];
}

/**
 * Returns the kit in which every part by itself reaches the share: x_p = least x with F_p(x) >= share.
 *
 * The rule practitioners know. It does not bound the kit's sufficiency, which is a product, and it
 * weighs no cost; shown beside `minimumKit` for comparison. Parts that cannot reach the share are
 * listed and held at the fewest pieces of their best level.
 *
 * @param share probability strictly between 0 and 1
 * @throws Problem `input-invalid`, `target-invalid`
 * Cost O(sum of the lengths of `logCdf`). Source: common practice, no source.
 */
export function perPartRule(parts: readonly KitPart[], share: number): PerPartKit {
  checkParts(parts);
  const threshold = logTarget(share);
  const buys = new Int32Array(parts.length);
  const unreached: number[] = [];
  const sums = [compensatedSum(), compensatedSum(), compensatedSum()] as const;
  let cost = 0;
  parts.forEach((part, p) => {
    const most = Math.min(part.logCdf.length - 1, part.maxBuy ?? Infinity);
    let pieces = 0;
    let log = Math.min(0, part.logCdf[0] ?? -Infinity);
    for (let x = 1; x <= most && log < threshold; x++) {
      const here = Math.min(0, part.logCdf[x] ?? -Infinity);
      if (here > log) {
        log = here;
        pieces = x;
      }
    }
    if (log < threshold) unreached.push(p);
    buys[p] = pieces;
    cost += part.stepCost?.[pieces] ?? part.unitCost * pieces;
    sums[part.tier].add(log);
  });
  return {
    buys,
    cost,
    sufficiency: [Math.exp(sums[0].value()), Math.exp(sums[1].value()), Math.exp(sums[2].value())],
    unreached,
  };
}
