import { minorDigits } from "../../../graph-schema/index.ts";

/**
 * Returns an amount in minor units of another currency, rounded up to a whole one; undefined without a rate.
 * amount × rate × 10^(digits of the planning currency − digits of its own).
 *
 * @param rates value of one major unit of a currency in the planning currency
 */
export function moneyIn(
  currency: string,
  amount: { readonly minor: number; readonly currency: string },
  rates: Readonly<Record<string, number>>,
): number | undefined {
  const rate = amount.currency === currency ? 1 : rates[amount.currency];
  if (rate === undefined) return undefined;
  const digits = minorDigits(currency) - minorDigits(amount.currency);
  return Math.ceil(amount.minor * rate * 10 ** digits - 1e-9);
}
