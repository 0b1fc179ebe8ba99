import { kitAtSlope, nearbyKit } from "./base-kit.ts";
import { breakSlope } from "./break-slope.ts";
import { convexSteps } from "./convex-steps.ts";
import { type Core, searchCore } from "./core-search.ts";
import { kitCost, kitExcess } from "./kit-excess.ts";
import type { Levels } from "./undominated-levels.ts";

export interface TierSolution {
  /** Level chosen of each part of the tier. */
  readonly kit: Int32Array;
  readonly cost: number;
  readonly lowerBound: number;
  readonly complete: boolean;
}

/**
 * Returns the least-cost kit of one tier, proven, for a target that is known to be within reach.
 *
 * min sum cost(level_k) such that sum loss(level_k) <= allowed, loss = -ln F, allowed = -ln target.
 * 1. Envelope steps and the break slope s give the base kit (the minimiser of cost + s loss) and the
 *    Lagrangian bound cost(base) + s (loss(base) - allowed).
 * 2. A nearby kit that reaches the target gives a gap; only levels whose penalty cost + s loss over
 *    the base lies within that gap can occur in a cheaper kit. All others are dropped.
 * 3. What is left is searched by dynamic programming (core-search.ts) until nothing can beat the best.
 *
 * @param levels undominated levels of the tier's parts, at least one each
 * @param allowed loss the target allows, > 0
 * @param below only kits cheaper than this whole number are wanted; where there is none, the kit returned is any that
 *   reaches the target and `lowerBound` is at least `below`. The proof is the shorter for it.
 * Source: Everett 1963 (multiplier); Pisinger 1995 (core); the reductions are proven by the bound in step 2.
 */
export function solveTier(
  levels: Levels,
  allowed: number,
  shouldStop: () => boolean,
  below = Infinity,
): TierSolution {
  const steps = convexSteps(levels);
  const bottom = levels.first.slice(0, levels.part.length);
  const need = kitExcess(levels, bottom, allowed);
  if (need <= 0) {
    const cost = kitCost(levels, bottom);
    return { kit: bottom, cost, lowerBound: cost, complete: true };
  }
  const slope = breakSlope(steps.slope, steps.gain, need);
  const base = kitAtSlope(levels, steps, slope);
  const baseCost = kitCost(levels, base);
  let kit = nearbyKit(levels, steps, slope, allowed);
  let cost = kitCost(levels, kit);
  if (kitExcess(levels, base, allowed) <= 0 && baseCost <= cost) {
    kit = base.slice();
    cost = baseCost;
  }
  const { core, level, group } = coreOf(levels, base, {
    excess: kitExcess(levels, base, allowed),
    slope,
    best: Math.min(cost, below) - baseCost,
    band: allowed * 2 ** -48,
  });
  const accept = (choices: readonly number[]): boolean => {
    const trial = base.slice();
    for (const choice of choices) trial[group[choice] ?? 0] = level[choice] ?? 0;
    if (kitExcess(levels, trial, allowed) > 0) return false;
    kit = trial;
    return true;
  };
  const answer = searchCore(core, accept, shouldStop);
  cost = kitCost(levels, kit);
  // Costs are whole units, so a bound between two of them holds at the upper one.
  const least = Math.ceil((answer.bound - core.slope * core.band) / core.unit) * core.unit;
  const proven = answer.complete ? Math.min(cost, below) : baseCost + least;
  const lowerBound = Math.max(0, Math.min(cost, proven));
  return { kit, cost, lowerBound, complete: answer.complete || lowerBound === cost };
}

/** The levels that can occur in a kit cheaper than the best, grouped by part, groups in order of least penalty. */
function coreOf(
  levels: Levels,
  base: Int32Array,
  known: { excess: number; slope: number; best: number; band: number },
): { core: Core; level: Int32Array; group: Int32Array } {
  const unit = costUnit(levels);
  const { slope, excess } = known;
  const room =
    known.best - unit - slope * excess + slope * known.band * 4 + Math.abs(known.best) * 2 ** -46;
  const found: { part: number; least: number; levels: number[] }[] = [];
  const penaltyOf = (part: number, j: number): number => {
    const from = base[part] ?? 0;
    return (
      (levels.cost[j] ?? 0) -
      (levels.cost[from] ?? 0) +
      slope * ((levels.loss[j] ?? 0) - (levels.loss[from] ?? 0))
    );
  };
  for (let k = 0; k < base.length; k++) {
    let least = Infinity;
    const usable: number[] = [];
    for (let j = levels.first[k] ?? 0; j < (levels.first[k + 1] ?? 0); j++) {
      if (j === base[k]) continue;
      const penalty = penaltyOf(k, j);
      if (penalty > room) continue;
      usable.push(j);
      least = Math.min(least, penalty);
    }
    if (usable.length > 0) found.push({ part: k, least, levels: usable });
  }
  found.sort((a, b) => a.least - b.least || a.part - b.part);
  const level = Int32Array.from(found.flatMap((f) => f.levels));
  const group = Int32Array.from(found.flatMap((f) => f.levels.map(() => f.part)));
  const first = new Int32Array(found.length + 1);
  found.forEach((f, g) => {
    first[g + 1] = (first[g] ?? 0) + f.levels.length;
  });
  const change = (values: Float64Array): Float64Array =>
    Float64Array.from(level, (j, c) => (values[j] ?? 0) - (values[base[group[c] ?? 0] ?? 0] ?? 0));
  return {
    core: {
      first,
      cost: change(levels.cost),
      loss: change(levels.loss),
      penalty: Float64Array.from(level, (j, c) => penaltyOf(group[c] ?? 0, j)),
      unit,
      ...known,
    },
    level,
    group,
  };
}

/** Greatest common divisor of the level costs (1 if all are free): two kits differ by a multiple of it. */
function costUnit(levels: Levels): number {
  let unit = 0;
  for (let k = 0; k < levels.part.length && unit !== 1; k++) {
    for (let j = levels.first[k] ?? 0; j < (levels.first[k + 1] ?? 0) && unit !== 1; j++) {
      let a = unit;
      let b = levels.cost[j] ?? 0;
      while (b > 0) [a, b] = [b, a % b];
      unit = a;
    }
  }
  return Math.max(1, unit);
}
