import {
  groupThousands,
  massIn,
  massUnit,
  moneyDigits,
  roomIn,
  roomUnit,
  type UnitSystem,
} from "../../graph-schema/index.ts";

/** A whole number with thin spaces between thousands. */
export const groupDigits = (value: number): string => groupThousands(String(Math.round(value)));

/** Money in words: minor units to `1 860.50 EUR`. */
export const moneyWords = (minor: number, currency: string): string =>
  `${moneyDigits(minor, currency)} ${currency}`;

/** Weight in the reader's units, two meaningful digits: `23 kg`, `51 lb`. */
export const massWords = (kg: number, units: UnitSystem = "metric"): string =>
  `${meanWords(massIn(kg, units))} ${massUnit(units)}`;

/** Room in the reader's units, two meaningful digits: `40 litres`, `1.4 cu ft`. */
export const roomWords = (litres: number, units: UnitSystem = "metric"): string =>
  `${meanWords(roomIn(litres, units))} ${roomUnit(units)}`;

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
