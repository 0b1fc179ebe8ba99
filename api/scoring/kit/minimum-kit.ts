import { checkParts } from "./check-parts.ts";
import { compensatedSum } from "./compensated-sum.ts";
import { kitExcess } from "./kit-excess.ts";
import type {
  KitAnswer,
  KitOptions,
  KitPart,
  KitProblem,
  KitStatus,
  Tier,
  TierAnswer,
} from "./kit-problem.ts";
import { logTarget } from "./log-target.ts";
import { solveTier } from "./solve-tier.ts";
import { tierReach } from "./tier-blocking.ts";
import { undominatedLevels } from "./undominated-levels.ts";

/**
 * Returns the least-cost kit that reaches each tier's target, with the proof that none costs less.
 *
 * Minimise sum_p c_p x_p subject to, for each tier t with a target R_t,
 * sum over p in t of ln F_p(x_p) >= ln R_t, x_p integer, 0 <= x_p <= maxBuy_p. Symbols: c_p unit
 * cost >= 0; F_p(x) = exp(logCdf_p[x]) in [0, 1]. Tiers share no constraint, so each is solved alone.
 *
 * @param problem parts and targets; see kit-problem.ts for units and ranges
 * @param options `shouldStop` sets a limit of the caller's own making; default none
 * @returns status `optimal` (cost = lowerBound, gap 0), `infeasible` (a tier's best reachable
 *   sufficiency and the parts in the way are told; nothing is bought for it, the other tiers are
 *   solved) or `time-limited` (the best kit found, reaching its targets, and the gap).
 * @throws Problem `input-invalid`, `target-invalid`.
 *
 * Free parts are filled to their best level in every tier with a target. A kit counts only if the
 * compensated sum of its logarithms reaches the target before any rounding; kits within about
 * 4e-15 (relative to -ln R) of the target are told apart by that sum alone. Among kits of equal cost any one may
 * be returned. Time grows about linearly with the levels; the core searched at the end is small
 * for real costs, but no polynomial limit exists (the problem is a knapsack).
 * Source: see solve-tier.ts.
 */
export function minimumKit(problem: KitProblem, options: KitOptions = {}): KitAnswer {
  checkParts(problem.parts);
  const shouldStop = options.shouldStop ?? (() => false);
  const buys = new Int32Array(problem.parts.length);
  const tiers = [
    answerTier(problem, 0, buys, shouldStop),
    answerTier(problem, 1, buys, shouldStop),
    answerTier(problem, 2, buys, shouldStop),
  ] as const;
  const has = (status: KitStatus): boolean => tiers.some((tier) => tier.status === status);
  const cost = tiers[0].cost + tiers[1].cost + tiers[2].cost;
  const lowerBound = tiers[0].lowerBound + tiers[1].lowerBound + tiers[2].lowerBound;
  return {
    status: has("infeasible") ? "infeasible" : has("time-limited") ? "time-limited" : "optimal",
    buys,
    cost,
    lowerBound,
    gap: cost - lowerBound,
    sufficiency: [tiers[0].sufficiency, tiers[1].sufficiency, tiers[2].sufficiency],
    tiers,
  };
}

function answerTier(
  problem: KitProblem,
  tier: Tier,
  buys: Int32Array,
  shouldStop: () => boolean,
): TierAnswer {
  const { parts } = problem;
  const target = problem.targets[tier];
  const threshold = target === undefined ? -Infinity : logTarget(target);
  const chosen: number[] = [];
  for (let p = 0; p < parts.length; p++) if (parts[p]?.tier === tier) chosen.push(p);
  const levels = undominatedLevels(parts, chosen);
  const reach = tierReach(levels, threshold);
  const unbought = {
    tier,
    target,
    cost: 0,
    lowerBound: 0,
    gap: 0,
    sufficiency: sufficiencyOfNone(parts, chosen),
    bestReachable: Math.exp(reach.logSufficiency),
    blocking: reach.blocking,
  };
  if (target === undefined) return { ...unbought, status: "optimal" };
  if (reach.blocking.length > 0) return { ...unbought, status: "infeasible" };
  const solution = solveTier(levels, -threshold, shouldStop);
  solution.kit.forEach((level, k) => {
    buys[levels.part[k] ?? 0] = levels.pieces[level] ?? 0;
  });
  return {
    ...unbought,
    status: solution.complete ? "optimal" : "time-limited",
    cost: solution.cost,
    lowerBound: solution.lowerBound,
    gap: solution.cost - solution.lowerBound,
    sufficiency: Math.exp(-kitExcess(levels, solution.kit, 0)),
  };
}

function sufficiencyOfNone(parts: readonly KitPart[], chosen: readonly number[]): number {
  const sum = compensatedSum();
  for (const p of chosen) sum.add(Math.min(0, parts[p]?.logCdf[0] ?? -Infinity));
  return Math.exp(sum.value());
}
