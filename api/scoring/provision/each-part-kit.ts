import type { KitAnswer, KitPart, TierAnswer, TierTargets } from "../kit/kit-problem.ts";
import { perPartRule } from "../kit/per-part-rule.ts";

/**
 * Returns the kit of the rule practitioners know: every part by itself reaches its tier's target.
 *
 * Least by definition (each part's count is the smallest that reaches the share), so cost = lowerBound. The tier's
 * sufficiency is the product over its parts, usually well below the target.
 */
export function eachPartKit(parts: readonly KitPart[], targets: TierTargets): KitAnswer {
  const buys = new Int32Array(parts.length);
  const answerTier = (tier: 0 | 1 | 2): TierAnswer => {
    const own = parts.flatMap((part, index) => (part.tier === tier ? [index] : []));
    const subset = own.flatMap((index) => parts[index] ?? []);
    const target = targets[tier];
    const ceiling = subset.reduce((sum, part) => sum + (part.logCdf.at(-1) ?? 0), 0);
    const nothing = subset.reduce((sum, part) => sum + (part.logCdf[0] ?? 0), 0);
    const common = { tier, target, gap: 0, bestReachable: Math.exp(ceiling) };
    if (target === undefined || subset.length === 0) {
      return {
        ...common,
        status: "optimal",
        cost: 0,
        lowerBound: 0,
        sufficiency: Math.exp(nothing),
        blocking: [],
      };
    }
    const found = perPartRule(subset, target);
    own.forEach((index, k) => {
      buys[index] = found.buys[k] ?? 0;
    });
    return {
      ...common,
      status: found.unreached.length > 0 ? "infeasible" : "optimal",
      cost: found.cost,
      lowerBound: found.cost,
      sufficiency: found.sufficiency[tier],
      blocking: found.unreached.flatMap((k) => own[k] ?? []),
    };
  };
  const tiers = [answerTier(0), answerTier(1), answerTier(2)] as const;
  const cost = tiers[0].cost + tiers[1].cost + tiers[2].cost;
  return {
    status: tiers.some((tier) => tier.status === "infeasible") ? "infeasible" : "optimal",
    buys,
    cost,
    lowerBound: cost,
    gap: 0,
    sufficiency: [tiers[0].sufficiency, tiers[1].sufficiency, tiers[2].sufficiency],
    tiers,
  };
}
