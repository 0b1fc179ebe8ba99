import { measureText } from "./figures.ts";

type Units = "metric" | "imperial";

/** International avoirdupois pound, exactly 0.45359237 kg (agreement of 1959). */
const kgPerPound = 0.45359237;

export const massText = (kg: number, units: Units): string =>
  measureText(units === "metric" ? kg : kg / kgPerPound);
export const massUnit = (units: Units): string => (units === "metric" ? "kg" : "lb");
export const massColumnName = (units: Units): string => `Weight, ${massUnit(units)}`;
