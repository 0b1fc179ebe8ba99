import { minorDigits } from "../../graph-schema/minor-digits.ts";

/** An amount typed in whole units of a currency, in its minor units (ISO 4217: JPY 0, EUR 2, BHD 3 digits). */
export const inMinor = (amount: number, currency: string): number =>
  Math.round(amount * 10 ** minorDigits(currency));

/** Minor units of a currency as the amount people type. */
export const inWhole = (minor: number, currency: string): number =>
  minor / 10 ** minorDigits(currency);

/** Why an amount cannot be one of a currency: it has more decimals than the currency; nothing where it can. */
export function decimalsFault(amount: number, currency: string): string | undefined {
  const digits = minorDigits(currency);
  const scaled = amount * 10 ** digits;
  if (Math.abs(scaled - Math.round(scaled)) <= Math.max(1e-6, scaled * 1e-12)) return undefined;
  return digits === 0
    ? `${currency} has no decimals: write a whole number.`
    : `${currency} has ${digits} decimals at most.`;
}
