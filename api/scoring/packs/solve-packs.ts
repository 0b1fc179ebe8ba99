import { logTarget } from "../kit/log-target.ts";
import { solveTier } from "../kit/solve-tier.ts";
import { tierReach } from "../kit/tier-blocking.ts";
import { checkSale } from "./check-sale.ts";
import { judgeSale } from "./judge-sale.ts";
import { type Budget, eachKitChoice, type KitChoice } from "./kit-choices.ts";
import { bestMultipliers, type Relaxation } from "./relaxation.ts";
import { type SaleGroups, saleGroups } from "./sale-groups.ts";
import type { SaleAnswer, SaleProblem } from "./sale-problem.ts";
import { answerOf } from "./solve-by-programme.ts";
import { joinLevels, type PartLevels, partLevels } from "./tier-levels.ts";

/** Steps of search over the counts of service kits before another method is asked. */
const MOST_STEPS = 400_000;
/** Combinations of kit counts solved one by one before another method is asked. */
const MOST_COMBINATIONS = 20_000;

/** What is known of one tier for given gains from kits. */
interface TierKit {
  readonly cost: number;
  /** No kit of the tier costs less; equal to cost where `isExact`. */
  readonly lowerBound: number;
  readonly isExact: boolean;
  /** Pieces to gain by buying, per part of the tier. */
  readonly gain: readonly number[];
}

/**
 * Returns the least-cost purchase of packs and service kits that reaches every target, proven; undefined where the
 * service kits are too many and too entangled for this method, or no purchase was found (ask another method).
 *
 * For given counts y of service kits the tiers fall apart and each is an ordinary kit of parts bought by themselves,
 * solved exactly by solve-tier.ts on levels whose costs are the least covers by packs. Over y: with multipliers
 * m_t >= 0, no purchase with counts y costs less than
 *   B(y) = sum_k cost_k y_k + sum_p min_x [cover_p(x) + m_t loss_p(held_p + contents_p(y) + x)] - sum_t m_t allowed_t,
 * which is a sum over groups of kits that share parts. All y with B(y) below the best purchase by at least one unit
 * are listed, in order of B, and solved; when none is left the best is proven. Any multipliers are valid, good ones
 * keep the list short (relaxation.ts).
 *
 * @param problem aim `least`, no caps; targets within reach (a tier out of reach gets no target)
 * @param shouldStop once it says true the best purchase so far is returned, `unproven`, with its bound
 * Source: Everett, Operations Research 11, 1963 (bound); own derivation of the enumeration, refereed by a MILP solver
 * and by trying every purchase (tests/properties).
 */
export function solvePacks(
  problem: SaleProblem,
  shouldStop: () => boolean = () => false,
): SaleAnswer | undefined {
  checkSale(problem);
  const groups = saleGroups(problem);
  const budget: Budget = { left: MOST_STEPS };
  const relaxed = groups.groups.length === 0 ? undefined : bestMultipliers(problem, groups, budget);
  const solver = tierSolver(problem, groups, relaxed, shouldStop);
  const none = groups.groups.map((group) => new Int32Array(group.kits.length));
  const starts = relaxed === undefined ? [none] : [relaxed.choices, none];
  let best: { units: Int32Array; cost: number; bound: number } | undefined;
  const consider = (choice: readonly Int32Array[]): void => {
    const found = solver(choice, best?.cost ?? Infinity);
    if (found !== undefined && found.cost < (best?.cost ?? Infinity)) best = found;
  };
  for (const start of starts) consider(start);
  if (best === undefined) return undefined;
  if (groups.groups.length === 0) return finished(problem, best.units, best.cost, best.bound);
  if (relaxed === undefined) return undefined;
  const listed = combinations(problem, groups, relaxed, () => best?.cost ?? Infinity, budget);
  if (listed === undefined) return undefined;
  for (const { choice, value } of listed) {
    if (value > best.cost - 1 + relaxed.slack) break;
    if (shouldStop()) {
      return finished(problem, best.units, best.cost, Math.min(best.cost, wholeUp(value, relaxed)));
    }
    consider(choice);
  }
  return finished(problem, best.units, best.cost, solver.isComplete() ? best.cost : best.bound);
}

/** A bound between two whole units holds at the upper one. */
const wholeUp = (value: number, { slack }: Relaxation): number =>
  Math.max(0, Math.ceil(value - slack));

function finished(
  problem: SaleProblem,
  units: Int32Array,
  cost: number,
  bound: number,
): SaleAnswer | undefined {
  const judged = judgeSale(problem, units);
  // Packs give more than was asked of them, never less; anything else would be a fault here.
  if (!judged.isPossible || judged.short.some((short) => short > 0)) return undefined;
  const answer = answerOf(problem, units, judged, cost, [], false);
  const isProven = bound >= cost;
  return {
    ...answer,
    method: "packs",
    status: isProven ? "optimal" : "unproven",
    bound: isProven ? cost : bound,
    gap: isProven ? 0 : cost - bound,
  };
}

interface TierSolver {
  (
    choice: readonly Int32Array[],
    below: number,
  ): { units: Int32Array; cost: number; bound: number } | undefined;
  /** False once some tier's proof was cut short. */
  readonly isComplete: () => boolean;
}

/** Solves the tiers for given counts of kits; tiers whose parts gain the same from the kits are solved once. */
function tierSolver(
  problem: SaleProblem,
  { covers, last, groups }: SaleGroups,
  relaxed: Relaxation | undefined,
  shouldStop: () => boolean,
): TierSolver {
  const { parts, targets } = problem;
  const tied = new Set(groups.flatMap((group) => group.parts));
  const held = Int32Array.from(parts, (part) => part.held ?? 0);
  const levelsOf = (p: number, from: number): PartLevels => {
    const part = parts[p];
    const cover = covers[p];
    if (part === undefined || cover === undefined) return { gain: [], cost: [], loss: [] };
    return partLevels(part, cover, last[p] ?? 0, from);
  };
  const tiers = ([0, 1, 2] as const).flatMap((tier) => {
    const target = targets[tier];
    if (target === undefined) return [];
    const own = parts.flatMap((part, p) => (part.tier === tier ? [p] : []));
    const fixed = own.map((p) => (tied.has(p) ? undefined : levelsOf(p, held[p] ?? 0)));
    const loose = own.filter((p) => tied.has(p));
    const known = new Map<string, TierKit | null>();
    return [{ tier, own, fixed, loose, threshold: logTarget(target), known }];
  });
  let isComplete = true;
  const solve = (choice: readonly Int32Array[], below: number) => {
    const pieces = held.slice();
    let cost = 0;
    groups.forEach((group, g) => {
      group.kits.forEach((kit, k) => {
        const count = choice[g]?.[k] ?? 0;
        cost += kit.cost * count;
        for (const content of kit.contents)
          pieces[content.part] = (pieces[content.part] ?? 0) + content.pieces * count;
      });
    });
    if (pieces.some((count) => count < 0)) return undefined;
    // Each tier first at its share of the relaxed bound, then exactly, until the whole cannot beat `below`.
    const atLeast = tiers.map(({ tier, loose, known }) => {
      const name = loose.map((p) => pieces[p]).join();
      const exact = known.get(name);
      if (exact === null) return Infinity;
      if (relaxed === undefined) return exact?.lowerBound ?? 0;
      const share = loose.reduce(
        (sum, p) => sum + (relaxed.table(p)[Math.min(last[p] ?? 0, pieces[p] ?? 0)] ?? Infinity),
        relaxed.shares[tier] ?? 0,
      );
      return Math.max(0, Math.ceil(share - relaxed.slack), exact?.lowerBound ?? 0);
    });
    let bound = atLeast.reduce((sum, least) => sum + least, cost);
    if (bound >= below) return undefined;
    const bought: { parts: readonly number[]; gain: readonly number[] }[] = [];
    for (const [t, tier] of tiers.entries()) {
      const name = tier.loose.map((p) => pieces[p]).join();
      const room = below - bound + (atLeast[t] ?? 0);
      let kit = tier.known.get(name);
      if (kit === undefined || (kit !== null && !kit.isExact && kit.lowerBound < room)) {
        const levels = joinLevels(
          tier.own,
          tier.own.map((p, k) => tier.fixed[k] ?? levelsOf(p, pieces[p] ?? 0)),
        );
        if (tierReach(levels, tier.threshold).blocking.length > 0) kit = null;
        else {
          const found = solveTier(levels, -tier.threshold, shouldStop, room);
          if (!found.complete) isComplete = false;
          kit = {
            ...found,
            isExact: found.lowerBound === found.cost,
            gain: Array.from(found.kit, (level) => levels.pieces[level] ?? 0),
          };
        }
        tier.known.set(name, kit);
      }
      if (kit === null) return undefined;
      cost += kit.cost;
      bound += kit.lowerBound - (atLeast[t] ?? 0);
      if (bound >= below) return undefined;
      bought.push({ parts: tier.own, gain: kit.gain });
    }
    const units = new Int32Array(problem.offers.length);
    groups.forEach((group, g) => {
      group.kits.forEach((kit, k) => {
        units[kit.offer] = choice[g]?.[k] ?? 0;
      });
    });
    for (const { parts: own, gain } of bought) {
      own.forEach((p, k) => {
        for (const [offer, count] of covers[p]?.units(gain[k] ?? 0) ?? [])
          units[offer] = (units[offer] ?? 0) + count;
      });
    }
    return { units, cost, bound };
  };
  return Object.assign(solve, { isComplete: () => isComplete });
}

interface Combination {
  readonly choice: readonly Int32Array[];
  /** B(y): no purchase with these counts costs less. */
  readonly value: number;
}

/** Every combination of kit counts whose bound lies below the best cost, least bound first; undefined where too many. */
function combinations(
  problem: SaleProblem,
  { groups, last }: SaleGroups,
  relaxed: Relaxation,
  best: () => number,
  budget: Budget,
): readonly Combination[] | undefined {
  const held = Int32Array.from(problem.parts, (part) => part.held ?? 0);
  const room = best() - 1 + relaxed.slack - relaxed.bound;
  const lists = groups.map((group, g) => {
    const least = relaxed.least[g] ?? 0;
    const own: KitChoice[] = [];
    eachKitChoice(
      group,
      held,
      last,
      relaxed.table,
      () => least + room,
      (choice) => {
        own.push(choice);
      },
      budget,
    );
    return own.sort((a, b) => a.value - b.value);
  });
  if (budget.left <= 0) return undefined;
  const found: Combination[] = [];
  const chosen: Int32Array[] = [];
  const visit = (g: number, over: number): boolean => {
    if (g === groups.length) {
      if (found.length >= MOST_COMBINATIONS) return false;
      found.push({ choice: [...chosen], value: relaxed.bound + over });
      return true;
    }
    for (const { units, value } of lists[g] ?? []) {
      const next = over + value - (relaxed.least[g] ?? 0);
      if (next > room) break;
      chosen[g] = units;
      if (!visit(g + 1, next)) return false;
    }
    return true;
  };
  if (!visit(0, 0)) return undefined;
  return found.sort((a, b) => a.value - b.value);
}
