import type { OrderRequest } from "../../../api/contract/order.contract.ts";
import { inMinor } from "../../components/money.ts";
import { readDay } from "../../components/read-day.ts";
import { unitsAsked } from "../../components/units.ts";
import type { ExchangeRate, Preferences, SupplierTerms } from "../../data/preferences.ts";
import { kitQuestion } from "../crossing/kit-question.ts";

type Query = ReadonlyMap<string, string>;

/** Suppliers left out, as they stand in the address. */
export const leftOut = (query: Query): readonly string[] =>
  (query.get("without") ?? "").split(",").filter((id) => id !== "");

const asAsked = (terms: SupplierTerms): NonNullable<OrderRequest["terms"]>[number] => {
  const { supplier, currency, delivery, freeFrom, least, dutyPercent } = terms;
  return {
    supplier,
    currency,
    ...(delivery === undefined ? {} : { deliveryMinor: inMinor(delivery, currency) }),
    ...(freeFrom === undefined ? {} : { freeFromMinor: inMinor(freeFrom, currency) }),
    ...(least === undefined ? {} : { minimumMinor: inMinor(least, currency) }),
    ...(dutyPercent === undefined ? {} : { dutyPercent }),
  };
};

/** The oldest day the rates in use were read on, where each of them says one. */
function ratesDay(
  rates: Readonly<Record<string, number>>,
  known: readonly ExchangeRate[],
): string | undefined {
  const days = Object.entries(rates).map(
    ([currency, value]) =>
      known.find((rate) => rate.currency === currency && rate.value === value)?.asOf ?? "",
  );
  return days.includes("") ? undefined : days.sort()[0];
}

/**
 * The order asked for: the kit and the days of the address, the terms kept on this device. Terms of suppliers that are
 * not among `known` (of another list, or since taken out) stay at home.
 */
export function orderQuestion(
  query: Query,
  set: Preferences,
  known: ReadonlySet<string>,
): OrderRequest {
  const kit = kitQuestion(query);
  const orderedOn = readDay(query.get("ordered") ?? "");
  const neededBy = readDay(query.get("needed") ?? "");
  const terms = set.terms.filter(({ supplier }) => known.has(supplier)).map(asAsked);
  const without = leftOut(query).filter((id) => known.has(id));
  const ratesAsOf = kit.rates === undefined ? undefined : ratesDay(kit.rates, set.rates);
  return {
    ...kit,
    ...unitsAsked(set.units),
    ...(orderedOn === undefined ? {} : { orderedOn }),
    ...(neededBy === undefined ? {} : { neededBy }),
    ...(query.get("unknown") === "yes" ? { unknownLead: true } : {}),
    ...(terms.length === 0 ? {} : { terms }),
    ...(without.length === 0 ? {} : { without }),
    ...(ratesAsOf === undefined ? {} : { ratesAsOf }),
  };
}
