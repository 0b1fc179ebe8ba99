/**
 * Decimals of currencies that do not have two. Source: ISO 4217:2015 list one, checked against the JDK's
 * java.util.Currency. `Intl` cannot be asked: it gives the decimals in use (HUF 0, PKR 0), not the standard's.
 */
const decimalsOtherThanTwo: ReadonlyMap<string, number> = new Map([
  ...["BIF", "CLP", "DJF", "GNF", "ISK", "JPY", "KMF", "KRW", "PYG", "RWF"].map(
    (c) => [c, 0] as const,
  ),
  ...["UGX", "UYI", "VND", "VUV", "XAF", "XOF", "XPF"].map((c) => [c, 0] as const),
  ...["BHD", "IQD", "JOD", "KWD", "LYD", "OMR", "TND"].map((c) => [c, 3] as const),
  ["CLF", 4],
  ["UYW", 4],
]);

const codes: ReadonlySet<string> = new Set([
  ...Intl.supportedValuesOf("currency"),
  ...decimalsOtherThanTwo.keys(),
]);

/** Whether three letters are a currency code of ISO 4217. */
export const isCurrency = (code: string): boolean => codes.has(code);

/** Digits after the decimal mark of a currency: minor units per unit are ten to this power. */
export const minorDigits = (currency: string): number => decimalsOtherThanTwo.get(currency) ?? 2;

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
