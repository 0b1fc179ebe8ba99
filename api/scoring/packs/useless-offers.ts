import { resources, type SaleOffer } from "./sale-problem.ts";

/**
 * Returns the offers that another makes useless: one of the same contents, no larger least order, unlimited,
 * that uses no more of anything. Of two alike the first stays.
 *
 * Any purchase of the useless one can be made of the other instead, so no value is lost, whatever is capped or made
 * least. O(offers × offers of the same contents).
 */
export function uselessOffers(offers: readonly SaleOffer[]): ReadonlySet<number> {
  const alike = new Map<string, number[]>();
  offers.forEach((offer, u) => {
    if (offer.oneOf !== undefined) return;
    const contents = offer.contents.map(({ part, pieces }) => `${part} ${pieces}`).sort();
    const name = contents.join();
    const known = alike.get(name);
    if (known === undefined) alike.set(name, [u]);
    else known.push(u);
  });
  const useless = new Set<number>();
  for (const group of alike.values()) {
    for (const u of group) {
      const beaten = group.some((v) => {
        if (u === v || useless.has(v)) return false;
        const worse = offers[u];
        const better = offers[v];
        return worse !== undefined && better !== undefined && isNoWorse(better, worse);
      });
      if (beaten) useless.add(u);
    }
  }
  return useless;
}

const isNoWorse = (better: SaleOffer, worse: SaleOffer): boolean =>
  (better.least ?? 1) <= (worse.least ?? 1) &&
  (better.most ?? Infinity) === Infinity &&
  resources.every((name) => better.uses[name] <= worse.uses[name]);
