import { type OrderProblem, orderCost } from "./order-problem.ts";

/**
 * Returns the order that takes each need by itself from whoever asks least for it, duty included and delivery left out
 * of account: what people do by hand. Packs of one offer taken twice are added. Undefined where that breaks a
 * supplier's least order, or a need has no offer.
 *
 * It is never cheaper than the least order (leastOrder), and stands beside it. O(needs x offers).
 */
export function cheapestEach(problem: OrderProblem): Int32Array | undefined {
  const packs = new Int32Array(problem.offers.length);
  for (const [need, pieces] of problem.needs.entries()) {
    let best: { at: number; count: number; cost: number } | undefined;
    problem.offers.forEach((offer, at) => {
      const brought = offer.brings.find((line) => line.need === need)?.pieces ?? 0;
      if (brought === 0) return;
      const count = Math.max(offer.leastPacks, Math.ceil(pieces / brought));
      const cost = count * (offer.priceMinor + offer.dutyMinor);
      if (best === undefined || cost < best.cost) best = { at, count, cost };
    });
    if (best === undefined) return undefined;
    const { at, count } = best;
    packs[at] = Math.max(packs[at] ?? 0, count);
  }
  return orderCost(problem, packs).broken.length === 0 ? packs : undefined;
}

/** Needs that no offer brings. */
export const needsWithoutOffer = ({ needs, offers }: OrderProblem): readonly number[] =>
  [...needs.keys()].filter(
    (need) => !offers.some(({ brings }) => brings.some((line) => line.need === need)),
  );
