/**
 * Decimals of currencies that do not have two. Source: ISO 4217:2015 list one, checked against the JDK's
 * java.util.Currency. `Intl` cannot be asked: it gives the decimals in use (HUF 0, PKR 0), not the standard's.
 */
export const decimalsOtherThanTwo: ReadonlyMap<string, number> = new Map([
  ...["BIF", "CLP", "DJF", "GNF", "ISK", "JPY", "KMF", "KRW", "PYG", "RWF"].map(
    (c) => [c, 0] as const,
  ),
  ...["UGX", "UYI", "VND", "VUV", "XAF", "XOF", "XPF"].map((c) => [c, 0] as const),
  ...["BHD", "IQD", "JOD", "KWD", "LYD", "OMR", "TND"].map((c) => [c, 3] as const),
  ["CLF", 4],
  ["UYW", 4],
]);

/** Digits after the decimal mark of a currency: minor units per unit are ten to this power. */
export const minorDigits = (currency: string): number => decimalsOtherThanTwo.get(currency) ?? 2;
