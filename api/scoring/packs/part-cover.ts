import type { SaleOffer } from "./sale-problem.ts";

/** An offer that gives pieces of one part only. */
export interface PackOffer {
  /** Its number among the problem's offers. */
  readonly offer: number;
  readonly pieces: number;
  readonly cost: number;
  readonly least: number;
  readonly most: number;
  /** At most one unit of all offers of one number. */
  readonly oneOf: number | undefined;
}

/** The cheapest ways to gain at least so many pieces of one part. */
export interface PartCover {
  /** Least cost of at least n pieces, n = 0, 1, ...; Infinity where they cannot be had. Never falls. */
  readonly cost: Float64Array;
  /** What to buy for at least n pieces: pairs of offer and units. */
  readonly units: (n: number) => readonly (readonly [offer: number, units: number])[];
}

export function packOffer(offer: SaleOffer, at: number, cost: number): PackOffer {
  return {
    offer: at,
    pieces: offer.contents[0]?.pieces ?? 0,
    cost,
    least: offer.least ?? 1,
    most: offer.oneOf === undefined ? (offer.most ?? Infinity) : Math.min(1, offer.most ?? 1),
    oneOf: offer.oneOf,
  };
}

/**
 * Returns the least cost of gaining at least n pieces, n = 0..most, from packs with least orders.
 *
 * Offer by offer: best_j(n) = min over k in {0} and {least_j .. most_j} of k cost_j + best_j-1(max(0, n - k pack_j)).
 * Ways of doing one thing are one step of this, k = 0 or 1 of one of them. O(offers × most² / pack). Source: the covering knapsack's recursion, textbook.
 */
export function partCover(offers: readonly PackOffer[], most: number): PartCover {
  const only = offers[0];
  if (offers.length === 1 && only?.pieces === 1 && only.least <= 1 && only.most === Infinity) {
    return {
      cost: Float64Array.from({ length: most + 1 }, (_, n) => n * only.cost),
      units: (n) => (n > 0 ? [[only.offer, n]] : []),
    };
  }
  let best = new Float64Array(most + 1).fill(Infinity);
  best[0] = 0;
  const stages = asStages(offers).map((ways) => {
    const next = best.slice();
    const way = new Int32Array(most + 1);
    const count = new Int32Array(most + 1);
    ways.forEach((offer, w) => {
      for (let n = 1; n <= most; n++) {
        const enough = Math.max(offer.least, Math.ceil(n / offer.pieces));
        for (let k = offer.least; k <= Math.min(enough, offer.most); k++) {
          const cost = k * offer.cost + (best[Math.max(0, n - k * offer.pieces)] ?? Infinity);
          if (cost < (next[n] ?? Infinity)) {
            next[n] = cost;
            way[n] = w;
            count[n] = k;
          }
        }
      }
    });
    best = next;
    return { ways, way, count };
  });
  return {
    cost: best,
    units: (n) => {
      const found: [number, number][] = [];
      let left = n;
      for (const { ways, way, count } of stages.toReversed()) {
        const k = count[left] ?? 0;
        const offer = ways[way[left] ?? 0];
        if (left === 0 || k === 0 || offer === undefined) continue;
        found.push([offer.offer, k]);
        left = Math.max(0, left - k * offer.pieces);
      }
      return found;
    },
  };
}

/** Offers one by one; those of which one unit in all is taken stand together. */
function asStages(offers: readonly PackOffer[]): readonly (readonly PackOffer[])[] {
  const stages: PackOffer[][] = [];
  const known = new Map<number, PackOffer[]>();
  for (const offer of offers) {
    const together = offer.oneOf === undefined ? undefined : known.get(offer.oneOf);
    if (together !== undefined) {
      together.push(offer);
      continue;
    }
    const stage = [offer];
    stages.push(stage);
    if (offer.oneOf !== undefined) known.set(offer.oneOf, stage);
  }
  return stages;
}
