import {
  massFrom,
  massIn,
  massUnit,
  roomFrom,
  roomIn,
  roomUnit,
  type UnitSystem,
} from "../../graph-schema/amounts.ts";
import { measureText } from "./figures.ts";

export { massUnit, roomUnit };
export type Units = UnitSystem;

export const massText = (kg: number, units: Units): string => measureText(massIn(kg, units));
export const massColumnName = (units: Units): string => `Weight, ${massUnit(units)}`;
export const roomText = (litres: number, units: Units): string =>
  measureText(roomIn(litres, units));

/** What a question says of the reader's units, so that the program's sentences speak in them. */
export const unitsAsked = (units: Units): { readonly units?: Units } =>
  units === "metric" ? {} : { units };

/** The figure to show in a box, and back: without the digits that conversion alone would add. */
const shown = (n: number, units: Units): number =>
  units === "metric" ? n : Number(n.toPrecision(5));
const kept = (n: number, units: Units): number =>
  units === "metric" ? n : Number(n.toPrecision(7));

export const massValue = (kg: number | undefined, units: Units): number | undefined =>
  kg === undefined ? undefined : shown(massIn(kg, units), units);
export const massOf = (typed: number | undefined, units: Units): number | undefined =>
  typed === undefined ? undefined : kept(massFrom(typed, units), units);

export const roomValue = (litres: number | undefined, units: Units): number | undefined =>
  litres === undefined ? undefined : shown(roomIn(litres, units), units);
export const roomOf = (typed: number | undefined, units: Units): number | undefined =>
  typed === undefined ? undefined : kept(roomFrom(typed, units), units);
