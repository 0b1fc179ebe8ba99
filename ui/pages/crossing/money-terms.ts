import type { Preferences } from "../../data/preferences.ts";

/** Rates as they stand in the address: `GBP:1.17,USD:0.92`. */
export const writeRates = (rates: Readonly<Record<string, number>>): string =>
  Object.entries(rates)
    .map(([currency, value]) => `${currency}:${value}`)
    .join(",");

/** Rates out of an address or a typed line; parts that are no rate are left out. */
export function readRates(text: string | undefined): Readonly<Record<string, number>> {
  const rates: Record<string, number> = {};
  for (const part of (text ?? "").split(/[,;]\s*|\n/)) {
    const found = /^\s*([A-Za-z]{3})\s*[:= ]\s*(\d+(?:\.\d+)?)\s*$/.exec(part);
    const value = Number(found?.[2]);
    if (found?.[1] !== undefined && value > 0) rates[found[1].toUpperCase()] = value;
  }
  return rates;
}

/**
 * What the reader's settings add to a question that does not say it: margin, currency, exchange rates. Written into the
 * address, so that it asks the same question on another device.
 */
export function settledTerms(
  query: ReadonlyMap<string, string>,
  set: Preferences,
): Readonly<Record<string, string>> {
  const terms: Record<string, string> = {};
  if (!query.has("margin") && set.marginDays > 0) terms["margin"] = String(set.marginDays);
  if (!query.has("currency") && set.currency !== "") terms["currency"] = set.currency;
  if (!query.has("rates") && set.rates.length > 0)
    terms["rates"] = writeRates(
      Object.fromEntries(set.rates.map(({ currency, value }) => [currency, value])),
    );
  return terms;
}
