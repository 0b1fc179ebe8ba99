import { checkParts } from "./check-parts.ts";
import { compensatedSum } from "./compensated-sum.ts";
import { convexSteps } from "./convex-steps.ts";
import type { KitPart } from "./kit-problem.ts";
import { type Levels, undominatedLevels } from "./undominated-levels.ts";

/** Kits on the convex frontier: kit 0 is the least that can work at all, kit k + 1 is kit k and one step more. */
export interface KitFrontier {
  /** Part the step raises (index into the parts given); length n of steps. */
  readonly part: Int32Array;
  /** Pieces of that part held after the step. */
  readonly pieces: Int32Array;
  /** Cost per unit of ln sufficiency gained, never falling along the frontier. */
  readonly slope: Float64Array;
  /** Cost of kit k; length n + 1. */
  readonly cost: Float64Array;
  /** ln sufficiency of kit k; length n + 1. */
  readonly logSufficiency: Float64Array;
  /** exp(logSufficiency). */
  readonly sufficiency: Float64Array;
  /** Parts no stock can make work at all (probability 0 throughout): with any of them every sufficiency is 0. */
  readonly hopeless: readonly number[];
  /** Pieces to buy of each part in kit k, in the order of the parts given. */
  readonly buysAt: (k: number) => Int32Array;
}

/**
 * Returns the kits on the convex frontier of (cost, ln sufficiency) over all parts given, cheapest first.
 *
 * Each is a least-cost kit for its own sufficiency: it minimises cost - s ln sufficiency for the slope
 * s of its last step. (The least-cost kit for a sufficiency between two of them may be cheaper than
 * the next one: ask `minimumKit`.) Steps are taken in order of cost per ln sufficiency gained; ties in
 * order of part. Free parts are at their best from the start. Give the parts of one tier: tiers are
 * not told apart here.
 *
 * @throws Problem `input-invalid`
 * Cost O(n log n) in the steps, about the sum of the lengths of `logCdf`.
 * Source: Proschan's marginal analysis; Everett, Operations Research 11, 1963, main theorem.
 */
export function kitFrontier(parts: readonly KitPart[]): KitFrontier {
  checkParts(parts);
  const levels = undominatedLevels(
    parts,
    parts.map((_, p) => p),
  );
  const steps = convexSteps(levels);
  const count = steps.level.length;
  const owner = new Int32Array(count);
  for (let k = 0; k < parts.length; k++) {
    owner.fill(k, steps.first[k] ?? 0, steps.first[k + 1] ?? 0);
  }
  const order = Uint32Array.from({ length: count }, (_, s) => s).sort(
    (a, b) => (steps.slope[a] ?? 0) - (steps.slope[b] ?? 0) || a - b,
  );
  const { hopeless, buys } = startOf(levels);
  const cost = new Float64Array(count + 1);
  const log = new Float64Array(count + 1);
  const sum = compensatedSum();
  for (let k = 0; k < parts.length; k++) {
    const bottom = levels.first[k] ?? 0;
    if (bottom === (levels.first[k + 1] ?? 0)) continue;
    cost[0] = (cost[0] ?? 0) + (levels.cost[bottom] ?? 0);
    sum.add(-(levels.loss[bottom] ?? 0));
  }
  log[0] = hopeless.length > 0 ? -Infinity : sum.value();
  order.forEach((s, k) => {
    const to = steps.level[s] ?? 0;
    const first = s === (steps.first[owner[s] ?? 0] ?? 0);
    const from = first ? (levels.first[owner[s] ?? 0] ?? 0) : (steps.level[s - 1] ?? 0);
    cost[k + 1] = (cost[k] ?? 0) + (levels.cost[to] ?? 0) - (levels.cost[from] ?? 0);
    sum.add(levels.loss[from] ?? 0);
    sum.add(-(levels.loss[to] ?? 0));
    log[k + 1] = hopeless.length > 0 ? -Infinity : Math.min(0, sum.value());
  });
  const part = Int32Array.from(order, (s) => owner[s] ?? 0);
  const pieces = Int32Array.from(order, (s) => levels.pieces[steps.level[s] ?? 0] ?? 0);
  return {
    part,
    pieces,
    slope: Float64Array.from(order, (s) => steps.slope[s] ?? 0),
    cost,
    logSufficiency: log,
    sufficiency: log.map(Math.exp),
    hopeless,
    buysAt(k) {
      const kit = buys.slice();
      for (let at = 0; at < Math.min(k, count); at++) kit[part[at] ?? 0] = pieces[at] ?? 0;
      return kit;
    },
  };
}

function startOf(levels: Levels): { hopeless: number[]; buys: Int32Array } {
  const buys = new Int32Array(levels.part.length);
  const hopeless: number[] = [];
  for (let k = 0; k < buys.length; k++) {
    const bottom = levels.first[k] ?? 0;
    if (bottom === (levels.first[k + 1] ?? 0)) hopeless.push(k);
    else buys[k] = levels.pieces[bottom] ?? 0;
  }
  return { hopeless, buys };
}
