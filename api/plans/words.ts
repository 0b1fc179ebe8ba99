import { minorDigits } from "../../graph-schema/index.ts";

const thin = "\u202f";

/** A whole number with thin spaces between thousands. */
export const groupDigits = (value: number): string =>
  String(Math.round(value)).replace(/\B(?=(\d{3})+(?!\d))/g, thin);

/** Money in words: minor units to `1 860.50 EUR`. */
export function moneyWords(minor: number, currency: string): string {
  const digits = minorDigits(currency);
  const [whole = "0", part] = (minor / 10 ** digits).toFixed(digits).split(".");
  return `${whole.replace(/\B(?=(\d{3})+(?!\d))/g, thin)}${part === undefined ? "" : `.${part}`} ${currency}`;
}

/** A probability rounded towards doubt: never shown higher than it is. */
export function sureWords(probability: number): string {
  if (probability >= 0.9995) return "over 0.999";
  return (Math.floor(probability * 1000 + 1e-9) / 1000).toFixed(3).replace(/0$/, "");
}

/** A chance as people read it: `1 in 40`, or `0.3` where it is likely. Rounded towards doubt. */
export function chanceWords(chance: number): string {
  if (chance <= 0) return "none";
  if (chance >= 0.2) return (Math.ceil(chance * 100 - 1e-9) / 100).toFixed(2);
  const odds = 1 / chance;
  if (odds > 999_999) return "below 1 in a million";
  const step = 10 ** Math.max(0, Math.floor(Math.log10(odds)) - 1);
  return `1 in ${groupDigits(Math.floor(odds / step) * step)}`;
}

/** A mean count: two meaningful digits, never falsely sharp. */
export function meanWords(mean: number): string {
  if (mean === 0) return "0";
  if (mean >= 10) return groupDigits(mean);
  return String(Number(mean.toPrecision(2)));
}

export const plural = (count: number, one: string, many = `${one}s`): string =>
  `${groupDigits(count)} ${count === 1 ? one : many}`;
