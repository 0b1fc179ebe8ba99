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

const decimalPoint: NumberRule = { convention: "point" };

const packWords =
  /^(?:[x×]|lots? de|packs? (?:of|de|à|zu)|sets? (?:of|de|van)|box(?:es)? of|bags? of|bo[iî]tes? de|sachets? de|paquetes? de|cajas? de|bolsas? de|cx\.? ?(?:c\/|com|de)|caixas? (?:com|de)|p(?:ac)?k(?:t|g)?\.? of|confezion[ei] da|pacchi da|embalagens? de|per|à|zu|je|ve)\s*(?=\d)/iu;
const limitWords =
  /^(?:within|sous|innerhalb(?: von)?|binnen|dentro de|entro|em até|max\.?|up to|bis(?: zu)?|jusqu'à)\s*(?=\d)/iu;

/** A quantity without the words people put before it: "x2", "pack of 10"; "within 48 h" for times. */
function bareOf(text: string, unit: Unit): string {
  if (unit === "piece")
    return text.replace(packWords, "").replace(/(?<=^\d+)\s*er[- ]?(?:pack|set)$/i, "");
  return unit === "day" ? text.replace(limitWords, "") : text;
}

/** Units people measure in halves and quarters. */
const inFractions: ReadonlySet<Unit> = new Set(["kg", "litre", "hour", "millimetre"]);
const fraction = /^(?:(\d{1,4})(?:\s+|-))?(\d{1,2})\s*[/⁄]\s*(2|3|4|8|16|32|64)(?![\d/.,])/u;
const fractionSigns: Readonly<Record<string, string>> = {
  "½": "1/2",
  "⅓": "1/3",
  "⅔": "2/3",
  "¼": "1/4",
  "¾": "3/4",
  "⅛": "1/8",
  "⅜": "3/8",
  "⅝": "5/8",
  "⅞": "7/8",
};

/** "2 1/2 lb" and "2½ lb" with a decimal point in place of the fraction; other texts as they are. */
function inDecimals(text: string, unit: Unit): string {
  if (!inFractions.has(unit)) return text;
  const spelt = text.replace(/\s*([½⅓⅔¼¾⅛⅜⅝⅞])/u, (_, sign: string) => ` ${fractionSigns[sign]}`);
  const bare = spelt.trim();
  const match = fraction.exec(bare);
  if (match === null) return text;
  const [all, whole = "0", above = "", below = ""] = match;
  if (Number(above) >= Number(below)) return text;
  return `${tidy(Number(whole) + Number(above) / Number(below))}${bare.slice(all.length)}`;
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
  const bare = bareOf(text, rule.unit);
  const decimal = inDecimals(bare, rule.unit);
  const parts = splitFigure(decimal);
  if (parts === undefined) return parseNumber(text, rule);
  const number = parseNumber(parts.figure, decimal === bare ? rule : decimalPoint);
  if (number.kind !== "value") return number;
  const unitText = parts.rest !== "" ? parts.rest : (rule.headerUnit ?? "");
  if (unitText === "") return number;
  const written: WrittenUnit | undefined = writtenUnit(rule.unit, unitText);
  if (written === undefined && rule.unit === "1") {
    return faultCell(
      "unit-unknown",
      `This must be a plain number (or %), without a unit; "${unitText}" is not one`,
      "Write the figure alone, and what it is per in a column of its own.",
    );
  }
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
      rule.unit === "piece"
        ? "Write the number of pieces."
        : `Write "US ${unitText}" or "imp ${unitText}", or use litres.`,
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
};
