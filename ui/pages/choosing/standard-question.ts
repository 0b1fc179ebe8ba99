import type { StandardiseRequest } from "../../../api/contract/standardise.contract.ts";
import { whatIfOf } from "../../components/imagined/imagined-changes.ts";
import { inMinor } from "../../components/money.ts";
import type { Preferences } from "../../data/preferences.ts";

/** What changing makes is weighed with: money in whole units of the planning currency, as typed. */
export interface StandardTerms {
  readonly budget: number;
  readonly years: number;
  readonly supplierYearly: number;
  readonly kitYearly: number;
  readonly fitting: number;
}

/** What stands in the boxes until the reader types another figure. */
export const usualTerms: StandardTerms = {
  budget: 5000,
  years: 5,
  supplierYearly: 100,
  kitYearly: 25,
  fitting: 0,
};

const figure = (text: string | undefined, most: number, usual: number): number => {
  const value = Number(text);
  return text !== undefined && text !== "" && value >= 0 && value <= most ? value : usual;
};

/** The terms as the address says them; what it does not say is as usual. */
export const standardTerms = (query: ReadonlyMap<string, string>): StandardTerms => ({
  budget: figure(query.get("budget"), 1e9, usualTerms.budget),
  years: figure(query.get("years"), 50, usualTerms.years),
  supplierYearly: figure(query.get("supplieryear"), 1e9, usualTerms.supplierYearly),
  kitYearly: figure(query.get("kityear"), 1e9, usualTerms.kitYearly),
  fitting: figure(query.get("fitting"), 1e9, usualTerms.fitting),
});

/** The question for the terms: of one vessel where the address names it, at the reader's rates. `currency` is that of the terms. */
export function standardQuestion(
  query: ReadonlyMap<string, string>,
  set: Preferences,
  currency: string,
): StandardiseRequest {
  const terms = standardTerms(query);
  const minor = (amount: number) => inMinor(amount, currency);
  const vessel = query.get("fleet");
  const whatIf = whatIfOf(query);
  return {
    ...(whatIf === undefined ? {} : { whatIf }),
    budgetMinor: minor(terms.budget),
    horizonYears: terms.years,
    supplierYearlyMinor: minor(terms.supplierYearly),
    kitYearlyMinor: minor(terms.kitYearly),
    fittingMinor: minor(terms.fitting),
    ...(vessel === undefined ? {} : { vessel }),
    currency,
    ...(set.rates.length === 0
      ? {}
      : {
          rates: Object.fromEntries(
            set.rates.map(({ currency: code, value }) => [code, value] as const),
          ),
        }),
    ...(set.marginDays > 0 ? { marginDays: set.marginDays } : {}),
  };
}
