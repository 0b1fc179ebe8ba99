import { MilpBuilder, type MilpProgramme } from "../packs/milp.ts";
import type { OrderOffer, OrderProblem } from "./order-problem.ts";

/** An order as a programme; `packs` reads the packs of each offer out of a solution. */
export interface OrderProgramme {
  readonly programme: MilpProgramme;
  readonly packs: (values: ArrayLike<number>) => Int32Array;
}

/** Most packs of an offer that a least-cost order may hold: enough for its needs, and to reach any threshold. */
export function mostPacks(problem: OrderProblem, offer: OrderOffer): number {
  const forNeeds = Math.max(
    0,
    ...offer.brings.map(({ need, pieces }) => Math.ceil((problem.needs[need] ?? 0) / pieces)),
  );
  const terms = problem.suppliers[offer.supplier];
  const threshold = Math.max(terms?.minimumMinor ?? 0, terms?.freeFromMinor ?? 0);
  const forThreshold = offer.priceMinor > 0 ? Math.ceil(threshold / offer.priceMinor) : 0;
  return Math.max(offer.leastPacks, forNeeds + forThreshold);
}

/**
 * The order as a mixed-integer programme, exactly.
 *
 *   y_o packs of offer o, whole, 0 .. M_o;  u_s supplier dealt with, f_s delivered free, binary
 *   minimise sum y_o (price_o + duty_o) + sum delivery_s (u_s - f_s)
 *   sum pieces y_o >= need            for each need
 *   y_o <= M_o u_s                    nothing without dealing with its supplier
 *   leastPacks_o t_o <= y_o <= M_o t_o  t_o binary, where more than one pack is the least
 *   sum price_o y_o >= freeFrom_s f_s,  f_s <= u_s
 *   sum price_o y_o >= minimum_s u_s
 *
 * Source: fixed-charge facility location (Balinski 1965), with packs and thresholds; METHODS, suppliers.
 */
export function orderMilp(problem: OrderProblem): OrderProgramme {
  const builder = new MilpBuilder();
  const isOffering = problem.suppliers.map((_, s) => problem.offers.some((o) => o.supplier === s));
  const used = problem.suppliers.map((terms, s) =>
    isOffering[s] === true ? builder.column(terms.deliveryMinor, 0, 1) : -1,
  );
  const free = problem.suppliers.map((terms, s) =>
    isOffering[s] === true && terms.freeFromMinor !== undefined && terms.deliveryMinor > 0
      ? builder.column(-terms.deliveryMinor, 0, 1)
      : -1,
  );
  const most = problem.offers.map((offer) => mostPacks(problem, offer));
  const packs = problem.offers.map((offer, at) =>
    builder.column(offer.priceMinor + offer.dutyMinor, 0, most[at] ?? 0),
  );
  problem.needs.forEach((pieces, need) => {
    const terms = problem.offers.flatMap((offer, at) =>
      offer.brings
        .filter((brought) => brought.need === need)
        .map((brought) => [packs[at] ?? -1, brought.pieces] as const),
    );
    builder.row(pieces, Number.POSITIVE_INFINITY, terms);
  });
  problem.offers.forEach((offer, at) => {
    const column = packs[at] ?? -1;
    const bound = most[at] ?? 0;
    const dealt = used[offer.supplier] ?? -1;
    builder.row(Number.NEGATIVE_INFINITY, 0, [
      [column, 1],
      [dealt, -bound],
    ]);
    if (offer.leastPacks > 1) {
      const taken = builder.column(0, 0, 1);
      builder.row(Number.NEGATIVE_INFINITY, 0, [
        [column, 1],
        [taken, -bound],
      ]);
      builder.row(0, Number.POSITIVE_INFINITY, [
        [column, 1],
        [taken, -offer.leastPacks],
      ]);
    }
  });
  problem.suppliers.forEach((terms, supplier) => {
    const dealt = used[supplier] ?? -1;
    const isFree = free[supplier] ?? -1;
    const goods = problem.offers.flatMap((offer, at) =>
      offer.supplier === supplier ? [[packs[at] ?? -1, offer.priceMinor] as const] : [],
    );
    if (dealt >= 0 && terms.minimumMinor > 0) {
      builder.row(0, Number.POSITIVE_INFINITY, [...goods, [dealt, -terms.minimumMinor]]);
    }
    if (isFree >= 0) {
      builder.row(0, Number.POSITIVE_INFINITY, [...goods, [isFree, -(terms.freeFromMinor ?? 0)]]);
      builder.row(Number.NEGATIVE_INFINITY, 0, [
        [isFree, 1],
        [dealt, -1],
      ]);
    }
  });
  return {
    programme: builder.build("minimise"),
    packs: (values) => Int32Array.from(packs, (column) => Math.round(values[column] ?? 0)),
  };
}
