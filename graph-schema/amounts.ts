import { minorDigits } from "./minor-digits.ts";

/** How a reader counts weight and room. */
export type UnitSystem = "metric" | "imperial";

/** International avoirdupois pound, exactly 0.45359237 kg (agreement of 1959; NIST SP 811, appendix B). */
const kgPerPound = 0.453_592_37;
/** Cubic foot of 0.3048 m, in litres: 0.3048^3 m3 exactly. */
const litresPerCubicFoot = 28.316_846_592;

const thinSpace = "\u202f";

/** The digits of a number with thin spaces between thousands, in the program's sentences, tables and pictures alike. */
export function groupThousands(digits: string): string {
  const [whole = "0", decimals] = digits.split(".");
  const grouped = whole.replace(/\B(?=(\d{3})+(?!\d))/g, thinSpace);
  return decimals === undefined ? grouped : `${grouped}.${decimals}`;
}

/** Money without its currency, with the minor digits of ISO 4217: 186050 of EUR is `1 860.50`. */
export const moneyDigits = (minor: number, currency: string): string =>
  groupThousands((minor / 10 ** minorDigits(currency)).toFixed(minorDigits(currency)));

export const massIn = (kg: number, units: UnitSystem): number =>
  units === "metric" ? kg : kg / kgPerPound;
export const massFrom = (shown: number, units: UnitSystem): number =>
  units === "metric" ? shown : shown * kgPerPound;
export const massUnit = (units: UnitSystem): string => (units === "metric" ? "kg" : "lb");

export const roomIn = (litres: number, units: UnitSystem): number =>
  units === "metric" ? litres : litres / litresPerCubicFoot;
export const roomFrom = (shown: number, units: UnitSystem): number =>
  units === "metric" ? shown : shown * litresPerCubicFoot;
export const roomUnit = (units: UnitSystem): string => (units === "metric" ? "litres" : "cu ft");
