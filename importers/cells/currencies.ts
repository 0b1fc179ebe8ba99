import { decimalsOtherThanTwo } from "../../graph-schema/index.ts";

const codes: ReadonlySet<string> = new Set([
  ...Intl.supportedValuesOf("currency"),
  ...decimalsOtherThanTwo.keys(),
]);

/** Whether three letters are a currency code of ISO 4217. */
export const isCurrency = (code: string): boolean => codes.has(code);

/** Signs and usual short forms that mean one currency. */
const signs: ReadonlyMap<string, string> = new Map([
  ["€", "EUR"],
  ["euro", "EUR"],
  ["euros", "EUR"],
  ["£", "GBP"],
  ["us$", "USD"],
  ["$us", "USD"],
  ["a$", "AUD"],
  ["au$", "AUD"],
  ["c$", "CAD"],
  ["ca$", "CAD"],
  ["nz$", "NZD"],
  ["ec$", "XCD"],
  ["bds$", "BBD"],
  ["hk$", "HKD"],
  ["s$", "SGD"],
  ["r$", "BRL"],
  ["sfr", "CHF"],
  ["fr.", "CHF"],
  ["zł", "PLN"],
  ["₹", "INR"],
  ["₺", "TRY"],
  ["₩", "KRW"],
  ["₪", "ILS"],
  ["₫", "VND"],
  ["₽", "RUB"],
  ["₱", "PHP"],
  ["฿", "THB"],
  ["dkr", "DKK"],
  ["skr", "SEK"],
  ["nkr", "NOK"],
  ["cve$", "CVE"],
]);

/** Signs shared by several currencies, with those they may mean; the first is presumed only for the dollar. */
const sharedSigns: ReadonlyMap<string, readonly string[]> = new Map([
  [
    "$",
    [
      "USD",
      "AUD",
      "CAD",
      "NZD",
      "XCD",
      "BBD",
      "BSD",
      "BZD",
      "FJD",
      "HKD",
      "SGD",
      "TTD",
      "MXN",
      "ARS",
      "CLP",
      "COP",
      "BMD",
      "JMD",
      "KYD",
      "TWD",
      "NAD",
      "CVE",
    ],
  ],
  ["kr", ["SEK", "NOK", "DKK", "ISK"]],
  ["kr.", ["SEK", "NOK", "DKK", "ISK"]],
  ["¥", ["JPY", "CNY"]],
  ["fr", ["CHF", "XAF", "XOF", "XPF"]],
]);

export type CurrencySign =
  | { readonly kind: "one"; readonly currency: string }
  | { readonly kind: "shared"; readonly sign: string; readonly among: readonly string[] }
  | { readonly kind: "unknown" };

/** The currency a sign or code stands for: one, one of several, or none we know. */
export function currencyOf(sign: string): CurrencySign {
  const text = sign.trim();
  const code = text.toUpperCase();
  if (/^[A-Z]{3}$/.test(code) && codes.has(code)) return { kind: "one", currency: code };
  const low = text.toLowerCase();
  const one = signs.get(low);
  if (one !== undefined) return { kind: "one", currency: one };
  const among = sharedSigns.get(low);
  if (among !== undefined) return { kind: "shared", sign: text, among };
  return { kind: "unknown" };
}
