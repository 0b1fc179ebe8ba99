import { measureText } from "./figures.ts";

type Units = "metric" | "imperial";

/** International avoirdupois pound, exactly 0.45359237 kg (agreement of 1959). */
const kgPerPound = 0.45359237;
/** Cubic foot of 0.3048 m, in litres: 0.3048^3 m3 exactly. */
const litresPerCubicFoot = 28.316846592;

export const massText = (kg: number, units: Units): string =>
  measureText(units === "metric" ? kg : kg / kgPerPound);
export const massUnit = (units: Units): string => (units === "metric" ? "kg" : "lb");
export const massColumnName = (units: Units): string => `Weight, ${massUnit(units)}`;

export const roomText = (litres: number, units: Units): string =>
  measureText(units === "metric" ? litres : litres / litresPerCubicFoot);
export const roomUnit = (units: Units): string => (units === "metric" ? "litres" : "cu ft");
