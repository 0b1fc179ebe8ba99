import { minorDigits } from "../../../graph-schema/index.ts";
import type { OrderAnswer } from "../../contract/order.contract.ts";
import type { OrderOffer, OrderProblem, SupplierTerms } from "../../scoring/order/order-problem.ts";
import { kitContents } from "../../scoring/provision/kit-contents.ts";
import type { VesselKit } from "../../scoring/provision/vessel-kit.ts";
import type { Snapshot } from "../../scoring/snapshot/snapshot.ts";

/** What one supplier asks besides prices; money in the planning currency. */
export interface NamedTerms extends SupplierTerms {
  readonly dutyPercent: number;
}

export interface OrderTerms {
  readonly terms: ReadonlyMap<number, NamedTerms>;
  readonly without: ReadonlySet<number>;
  readonly currency: string;
  readonly rates: Readonly<Record<string, number>>;
  /** Days from ordering to the needed-by date; undefined: any lead time will do. */
  readonly daysAllowed: number | undefined;
  readonly unknownLead: boolean;
}

type Why = OrderAnswer["unmet"][number]["why"];

/** A need nobody can meet as asked, with the nearest reason. */
export interface UnmetNeed {
  readonly partClass: number;
  readonly pieces: number;
  readonly why: Why;
  readonly daysLate?: number;
  /** Supplier row that comes nearest; -1 where there is none. */
  readonly supplier: number;
}

export interface BoundOrder {
  readonly problem: OrderProblem;
  /** Part class of each need. */
  readonly needClass: readonly number[];
  /** Row of snapshot.offers of each offer. */
  readonly offerRow: readonly number[];
  /** Pieces in one pack of each offer. */
  readonly packSize: readonly number[];
  readonly unmet: readonly UnmetNeed[];
}

const noTerms: NamedTerms = {
  deliveryMinor: 0,
  freeFromMinor: undefined,
  minimumMinor: 0,
  dutyPercent: 0,
};

/** Minor units of another currency in those of the planning currency, rounded up; undefined without a rate. */
export function inCurrency(
  minor: number,
  code: string,
  { currency, rates }: Pick<OrderTerms, "currency" | "rates">,
): number | undefined {
  if (code === currency) return minor;
  const rate = rates[code];
  if (rate === undefined) return undefined;
  return Math.ceil(minor * rate * 10 ** (minorDigits(currency) - minorDigits(code)) - 1e-9);
}

/** How near an offer that does not count comes to counting: the nearest reason is the one told. */
const nearness: readonly Why[] = [
  "left out",
  "too late",
  "lead time unknown",
  "no rate",
  "no price",
];

/**
 * Binds what a kit is to buy, and every offer of it, as an order. An offer brings its own part's class and, where the
 * part is a service kit that is not needed whole, what the kit contains, boxes within it opened in their turn. Offers without a price, in a currency without a rate, of a supplier
 * left out or that would come too late do not count, and a need left without any says which it was.
 */
export function bindOrder(snapshot: Snapshot, kit: VesselKit, asked: OrderTerms): BoundOrder {
  const needClass: number[] = [];
  const needs: number[] = [];
  const needOf = new Map<number, number>();
  for (const row of kit.rows) {
    if (row.buy === 0) continue;
    needOf.set(row.demand.partClass, needs.length);
    needClass.push(row.demand.partClass);
    needs.push(row.buy);
  }
  const { offers: sold } = snapshot;
  const asks = new Set(kit.rows.map((row) => row.demand.partClass));
  const inside = kitContents(snapshot, kit.classes, (partClass) => asks.has(partClass));
  const offers: OrderOffer[] = [];
  const offerRow: number[] = [];
  const packSizes: number[] = [];
  const refused = new Map<number, { why: Why; daysLate?: number; supplier: number }>();
  for (let supplier = 0; supplier < snapshot.suppliers.id.length; supplier++) {
    const terms = asked.terms.get(supplier) ?? noTerms;
    const end = sold.start[supplier + 1] ?? 0;
    for (let row = sold.start[supplier] ?? 0; row < end; row++) {
      const part = sold.target[row] ?? -1;
      const packSize = wholeOr(sold.packSize[row], 1);
      const brings = new Map<number, number>();
      const bring = (partClass: number, pieces: number): void => {
        const need = needOf.get(partClass);
        if (need !== undefined) brings.set(need, (brings.get(need) ?? 0) + pieces * packSize);
      };
      // A box that is itself needed is counted whole: it is not opened as well.
      const own = kit.classes.classOf[part] ?? -1;
      bring(own, 1);
      if (!needOf.has(own))
        for (const one of inside.get(part) ?? [])
          bring(kit.classes.classOf[one.part] ?? -1, one.pieces);
      if (brings.size === 0) continue;
      const verdict = judge(supplier, row);
      if (typeof verdict !== "number") {
        for (const need of brings.keys()) {
          const known = refused.get(need);
          const isNearer =
            known === undefined ||
            nearness.indexOf(verdict.why) < nearness.indexOf(known.why) ||
            (verdict.why === known.why && (verdict.daysLate ?? 0) < (known.daysLate ?? 0));
          if (isNearer) refused.set(need, { ...verdict, supplier });
        }
        continue;
      }
      offers.push({
        supplier,
        priceMinor: verdict,
        dutyMinor: Math.round((verdict * terms.dutyPercent) / 100),
        leastPacks: Math.max(1, Math.ceil(wholeOr(sold.minimumOrder[row], 1) / packSize)),
        brings: [...brings].map(([need, pieces]) => ({ need, pieces })),
      });
      offerRow.push(row);
      packSizes.push(packSize);
    }
  }
  return withoutUnmet();

  function judge(supplier: number, row: number): number | { why: Why; daysLate?: number } {
    if (asked.without.has(supplier)) return { why: "left out" };
    const price = sold.priceMinor[row] ?? Number.NaN;
    const code = sold.currency[row] ?? "";
    if (!(price > 0) || code === "") return { why: "no price" };
    const priced = inCurrency(price, code, asked);
    if (priced === undefined) return { why: "no rate" };
    const lead = sold.leadTimeDays[row] ?? Number.NaN;
    if (asked.daysAllowed !== undefined) {
      if (Number.isNaN(lead)) {
        if (!asked.unknownLead) return { why: "lead time unknown" };
      } else if (lead > asked.daysAllowed) {
        return { why: "too late", daysLate: Math.ceil(lead - asked.daysAllowed) };
      }
    }
    return priced;
  }

  /** Needs nobody meets are taken out, so that the rest can be ordered. */
  function withoutUnmet(): BoundOrder {
    const isMet = needs.map(() => false);
    for (const { brings } of offers) for (const { need } of brings) isMet[need] = true;
    const kept = [...needs.keys()].filter((need) => isMet[need]);
    const place = new Map(kept.map((need, at) => [need, at]));
    const unmet = [...needs.keys()]
      .filter((need) => !isMet[need])
      .map((need): UnmetNeed => {
        const nearest = refused.get(need) ?? { why: "nobody offers" as const, supplier: -1 };
        return { partClass: needClass[need] ?? -1, pieces: needs[need] ?? 0, ...nearest };
      });
    return {
      problem: {
        needs: kept.map((need) => needs[need] ?? 1),
        offers: offers.map((offer) => ({
          ...offer,
          brings: offer.brings.map(({ need, pieces }) => ({ need: place.get(need) ?? -1, pieces })),
        })),
        suppliers: snapshot.suppliers.id.map((_, supplier) => asked.terms.get(supplier) ?? noTerms),
      },
      needClass: kept.map((need) => needClass[need] ?? -1),
      offerRow,
      packSize: packSizes,
      unmet,
    };
  }
}

const wholeOr = (value: number | undefined, otherwise: number): number =>
  value === undefined || Number.isNaN(value) || value < 1 ? otherwise : Math.ceil(value);
