import type { Unit } from "../../graph-schema/index.ts";
import { type Cell, emptyCell, faultCell, isNothing, valueCell } from "./cell.ts";
import { type NumberRule, parseNumber, splitFigure } from "./parse-number.ts";
import { type WrittenUnit, writtenUnit } from "./units.ts";

export interface QuantityRule extends NumberRule {
  /** Unit of the answer. */
  readonly unit: Unit;
  /** Unit written in the header, which bare figures are in; the graph's own if the header names none. */
  readonly headerUnit?: string | undefined;
}

/** Drops the noise of binary fractions: 250 g is 0.25 kg, 3 lb 1.36077711 kg. */
const tidy = (value: number): number => Number(value.toPrecision(12));

/**
 * A quantity in the graph's unit: the figure times the unit beside it, or the header's, or one.
 * A unit that means two things (gal, fl oz) is a fault that says so; so is a unit of something else.
 */
export function parseQuantity(cell: string, rule: QuantityRule): Cell<number> {
  const text = cell.trim();
  if (isNothing(text)) return emptyCell;
  const parts = splitFigure(rule.unit === "piece" ? text.replace(/^[x×]\s*(?=\d)/i, "") : text);
  if (parts === undefined) return parseNumber(text, rule);
  const number = parseNumber(parts.figure, rule);
  if (number.kind !== "value") return number;
  const unitText = parts.rest !== "" ? parts.rest : (rule.headerUnit ?? "");
  if (unitText === "") return number;
  const written: WrittenUnit | undefined = writtenUnit(rule.unit, unitText);
  if (written === undefined) {
    return faultCell(
      "unit-unknown",
      `The unit must be one of ${wanted[rule.unit] ?? rule.unit}; "${unitText}" is not`,
      "Correct the unit, or put remarks in a column of their own.",
    );
  }
  if (typeof written !== "number") {
    return faultCell(
      "unit-ambiguous",
      `The unit must mean one thing; ${written.ambiguous}`,
      `Write "US ${unitText}" or "imp ${unitText}", or use litres.`,
    );
  }
  return valueCell(written === 1 ? number.value : tidy(number.value * written));
}

const wanted: Partial<Record<Unit, string>> = {
  kg: "mass (g, kg, lb, oz)",
  litre: "volume (ml, cl, l, US gal, imp gal)",
  hour: "hours (h, min)",
  day: "days (days, weeks)",
  month: "months (months, years)",
  year: "years (months, years)",
  "hour/day": "hours a day (h/day, min/day)",
  piece: "pieces (pcs, ea)",
  volt: "volts (V)",
  "kilogram-force": "load (kg, kN, daN, lbf)",
  millimetre: "length (mm, cm, m, in)",
  "1": "plain numbers (or %)",
};
