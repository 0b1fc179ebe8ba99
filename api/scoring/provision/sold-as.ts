import type { KitAnswer, TierAnswer } from "../kit/kit-problem.ts";
import { judgeSale } from "../packs/judge-sale.ts";
import type { SaleAnswer, SaleProblem } from "../packs/sale-problem.ts";
import type { Purchase, SoldKit } from "./kit-sale.ts";
import type { VesselOffer } from "./sale-offers.ts";
import type { KitRow, VesselKit } from "./vessel-kit.ts";

/** The kit with these purchases: rows, costs and chances reckoned from what the units really give. */
export function withPurchases(
  kit: VesselKit,
  problem: SaleProblem,
  offers: readonly VesselOffer[],
  bought: Pick<SaleAnswer, "units" | "method" | "repaired" | "stowed">,
  isSettled = true,
): SoldKit {
  const judged = judgeSale(problem, bought.units);
  const opened = new Int32Array(kit.groups.length);
  const step = new Int32Array(kit.groups.length);
  offers.forEach((offer, u) => {
    const count = bought.units[u] ?? 0;
    if (count === 0) return;
    for (const { part, pieces } of offer.sale.contents) {
      if (offer.kind === "aboard") opened[part] = (opened[part] ?? 0) + pieces * count;
      if (offer.kind === "tree") step[part] = pieces;
    }
  });
  const rows = kit.rows.map((row, at): KitRow => {
    const place = row.group;
    const group = kit.groups[place];
    if (group?.steps !== undefined) {
      const link = group.rows.indexOf(at);
      return { ...row, buy: group.steps.buys[step[place] ?? 0]?.[link] ?? 0 };
    }
    const held = problem.parts[place]?.held ?? 0;
    const moved = opened[place] ?? 0;
    return {
      ...row,
      usable: row.usable + moved,
      buy: (judged.pieces[place] ?? 0) - held - moved,
    };
  });
  const tierCost = [0, 0, 0];
  offers.forEach((offer, u) => {
    const count = bought.units[u] ?? 0;
    if (count === 0) return;
    const tiers = offer.sale.contents.map(({ part }) => problem.parts[part]?.tier ?? 2);
    const tier = Math.min(...tiers);
    tierCost[tier] = (tierCost[tier] ?? 0) + offer.sale.uses[problem.objective] * count;
  });
  const tierOf = (tier: 0 | 1 | 2): TierAnswer => {
    const before = kit.answer.tiers[tier];
    const cost = tierCost[tier] ?? 0;
    return {
      ...before,
      cost,
      lowerBound: before.status === "optimal" ? cost : Math.min(cost, before.lowerBound),
      gap: before.status === "optimal" ? 0 : Math.max(0, cost - before.lowerBound),
      sufficiency: Math.exp(judged.log[tier]),
    };
  };
  const tiers = [tierOf(0), tierOf(1), tierOf(2)] as const;
  const cost = judged.uses[problem.objective];
  const lowerBound = tiers.reduce((sum, tier) => sum + tier.lowerBound, 0);
  const purchases = offers.flatMap((offer, u): Purchase[] => {
    const units = bought.units[u] ?? 0;
    if (units === 0) return [];
    const lockers = bought.stowed?.[u] ?? [];
    if (offer.kind === "tree") return treePurchases(kit, offer, lockers);
    const given = offer.sale.contents.map(({ part, pieces }) => ({
      row: kit.groups[part]?.rows[0] ?? -1,
      pieces,
    }));
    return [{ offer, units, rows: given, lockers }];
  });
  const answer: KitAnswer = {
    ...kit.answer,
    buys: Int32Array.from(rows, (row) => row.buy),
    cost,
    lowerBound,
    gap: cost - lowerBound,
    sufficiency: [tiers[0].sufficiency, tiers[1].sufficiency, tiers[2].sufficiency],
    tiers,
  };
  const { method, repaired } = bought;
  const sale = { problem, offers, purchases, method, isSettled, repaired, uses: judged.uses };
  return { ...kit, rows, answer, sale };
}

/** A way of buying for a supersession tree, told part by part; sizes of a piece are the mean over the tree's pieces. */
function treePurchases(kit: VesselKit, tree: VesselOffer, lockers: readonly number[]): Purchase[] {
  const [content] = tree.sale.contents;
  const group = kit.groups[content?.part ?? -1];
  const buys = group?.steps?.buys[content?.pieces ?? 0];
  return (group?.rows ?? []).flatMap((row, link): Purchase[] => {
    const units = buys?.[link] ?? 0;
    if (units === 0) return [];
    const partClass = kit.rows[row]?.demand.partClass ?? -1;
    const price = kit.prices.price(partClass);
    const part = price.part >= 0 ? price.part : (kit.classes.members[partClass]?.[0] ?? 0);
    const share = (of: "mass" | "volume"): number =>
      Math.round(tree.sale.uses[of] / Math.max(1, tree.sale.uses.pieces));
    const offer: VesselOffer = {
      ...tree,
      kind: "piece",
      part,
      supplier: price.supplier,
      priceMinor: price.minor,
      leadTimeDays: price.leadTimeDays,
      inside: [{ part, pieces: 1 }],
      sale: {
        contents: tree.sale.contents,
        uses: { cost: price.minor, mass: share("mass"), volume: share("volume"), pieces: 1 },
      },
    };
    const places = Array.from({ length: lockers.length === 0 ? 0 : units }, () => lockers[0] ?? 0);
    return [{ offer, units, rows: [{ row, pieces: 1 }], lockers: places }];
  });
}

/** The kit as the solver of packs, or a mixed-integer solver, answered: its status and bound stand for the whole. */
export function withAnswer(
  kit: VesselKit,
  problem: SaleProblem,
  offers: readonly VesselOffer[],
  answer: SaleAnswer,
  status: SaleAnswer["status"],
  isLeast = true,
): SoldKit {
  const sold = withPurchases(kit, problem, offers, answer);
  const isInfeasible = status === "infeasible" || kit.answer.status === "infeasible";
  const overall = isInfeasible ? "infeasible" : status === "unproven" ? "time-limited" : "optimal";
  const lowerBound = isLeast && problem.aim === "least" ? answer.bound : sold.answer.cost;
  const tiers = sold.answer.tiers.map((tier): TierAnswer => {
    if (tier.status === "infeasible") return tier;
    return {
      ...tier,
      status: status === "unproven" ? "time-limited" : "optimal",
      lowerBound: status === "unproven" ? 0 : tier.cost,
      gap: status === "unproven" ? tier.cost : 0,
    };
  });
  const [safety, passage, comfort] = tiers;
  if (safety === undefined || passage === undefined || comfort === undefined) return sold;
  return {
    ...sold,
    answer: {
      ...sold.answer,
      status: overall,
      tiers: [safety, passage, comfort],
      lowerBound,
      gap: Math.max(0, sold.answer.cost - lowerBound),
    },
  };
}
