import { Problem } from "../../errors/problem.ts";

/** One way to buy: a pack of one supplier, and the pieces it brings. */
export interface OrderOffer {
  readonly supplier: number;
  /** Price of one pack, minor units of the planning currency, a whole number >= 0; counts towards thresholds. */
  readonly priceMinor: number;
  /** Duty on one pack, minor units, a whole number >= 0. */
  readonly dutyMinor: number;
  /** Least packs if any are ordered, >= 1. */
  readonly leastPacks: number;
  /** Pieces of each need that one pack brings, > 0. */
  readonly brings: readonly { readonly need: number; readonly pieces: number }[];
}

/** What dealing with a supplier costs. Minor units of the planning currency. */
export interface SupplierTerms {
  readonly deliveryMinor: number;
  /** Goods worth this much are delivered free; undefined: never. */
  readonly freeFromMinor: number | undefined;
  /** Goods worth less are not sold; 0: no minimum. */
  readonly minimumMinor: number;
}

/**
 * Minimise sum over offers of packs x (price + duty) + sum over suppliers dealt with of delivery, such that every need
 * is met, orders are whole packs, at least `leastPacks` of each offer taken, and worth the supplier's minimum.
 */
export interface OrderProblem {
  /** Pieces needed, whole numbers >= 1. */
  readonly needs: readonly number[];
  readonly offers: readonly OrderOffer[];
  readonly suppliers: readonly SupplierTerms[];
}

/** What one supplier is paid. */
export interface SupplierBill {
  readonly supplier: number;
  readonly goodsMinor: number;
  readonly dutyMinor: number;
  readonly deliveryMinor: number;
}

export interface OrderCost {
  readonly totalMinor: number;
  readonly bills: readonly SupplierBill[];
  /** Rules broken, in words; empty for an order that can be placed. */
  readonly broken: readonly string[];
}

/** Throws `input-invalid` unless counts and prices are whole numbers in range. */
export function requireOrder({ needs, offers, suppliers }: OrderProblem): void {
  const stop = (rule: string, received: unknown): never => {
    throw new Problem("input-invalid", `${rule}; received ${String(received)}. Correct the order.`);
  };
  const isCount = (value: number, least: number): boolean =>
    Number.isSafeInteger(value) && value >= least;
  for (const pieces of needs) if (!isCount(pieces, 1)) stop("A need is 1 piece or more", pieces);
  for (const offer of offers) {
    if (suppliers[offer.supplier] === undefined) stop("An offer has a supplier", offer.supplier);
    if (!isCount(offer.priceMinor, 0)) stop("A price is 0 or more minor units", offer.priceMinor);
    if (!isCount(offer.dutyMinor, 0)) stop("Duty is 0 or more minor units", offer.dutyMinor);
    if (!isCount(offer.leastPacks, 1)) stop("Least packs are 1 or more", offer.leastPacks);
    for (const { need, pieces } of offer.brings) {
      if (needs[need] === undefined) stop("An offer meets needs there are", need);
      if (!isCount(pieces, 1)) stop("A pack brings 1 piece or more", pieces);
    }
  }
  for (const { deliveryMinor, freeFromMinor = 0, minimumMinor } of suppliers) {
    for (const value of [deliveryMinor, freeFromMinor, minimumMinor]) {
      if (!isCount(value, 0)) stop("Terms are 0 or more minor units", value);
    }
  }
}

/** Costs an order exactly, in whole minor units, and says which rules it breaks. O(offers). */
export function orderCost(problem: OrderProblem, packs: ArrayLike<number>): OrderCost {
  const goods = problem.suppliers.map(() => 0);
  const duty = problem.suppliers.map(() => 0);
  const isUsed = problem.suppliers.map(() => false);
  const met = problem.needs.map(() => 0);
  const broken: string[] = [];
  problem.offers.forEach((offer, at) => {
    const count = packs[at] ?? 0;
    if (count === 0) return;
    if (!Number.isSafeInteger(count) || count < offer.leastPacks) {
      broken.push(`offer ${at}: ${count} packs, at least ${offer.leastPacks} whole ones are sold`);
    }
    isUsed[offer.supplier] = true;
    goods[offer.supplier] = (goods[offer.supplier] ?? 0) + count * offer.priceMinor;
    duty[offer.supplier] = (duty[offer.supplier] ?? 0) + count * offer.dutyMinor;
    for (const { need, pieces } of offer.brings) met[need] = (met[need] ?? 0) + count * pieces;
  });
  problem.needs.forEach((pieces, need) => {
    if ((met[need] ?? 0) < pieces) broken.push(`need ${need}: ${met[need]} of ${pieces} pieces`);
  });
  const bills = problem.suppliers.flatMap((terms, supplier): SupplierBill[] => {
    if (isUsed[supplier] !== true) return [];
    const goodsMinor = goods[supplier] ?? 0;
    if (goodsMinor < terms.minimumMinor) {
      broken.push(`supplier ${supplier}: goods ${goodsMinor}, least order ${terms.minimumMinor}`);
    }
    const isFree = terms.freeFromMinor !== undefined && goodsMinor >= terms.freeFromMinor;
    return [
      {
        supplier,
        goodsMinor,
        dutyMinor: duty[supplier] ?? 0,
        deliveryMinor: isFree ? 0 : terms.deliveryMinor,
      },
    ];
  });
  return {
    totalMinor: bills.reduce(
      (s, bill) => s + bill.goodsMinor + bill.dutyMinor + bill.deliveryMinor,
      0,
    ),
    bills,
    broken,
  };
}
