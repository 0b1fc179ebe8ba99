import { type Cell, type CellNote, emptyCell, faultCell, valueCell } from "./cell.ts";
import { monthNumber } from "./month-names.ts";

/** 1.23E+11: one digit, perhaps decimals, E, a sign and two or three digits. */
const scientific = /^\d(?:[.,]\d+)?E\+\d{2,3}$/i;
/** 1.5E-05 needs its decimals to be suspect: 5E-10 may be a real number. */
const scientificSmall = /^\d[.,]\d+E-\d{2,3}$/i;
const spreadsheetError =
  /^#(?:REF!|N\/A|NV|NAME\?|VALUE!|WERT!|VALEUR!|DIV\/0!|NULL!|NUM!|BEZUG!|#+)$/i;
/** ="00123": a text that a formula keeps from being read as a number. */
const textFormula = /^="([^"]+)"$/;
const formulaNote: CellNote = {
  code: "formula-kept",
  text: "A formula stands where a part number should; it was kept to the letter, not worked out. If it is none, correct it.",
};
const formula = /^[=+-][\p{L}][\p{L}\d.]*\(/u;
/** Full numeric dates as spreadsheets show them: four-digit year, or MM/DD/YY with zeros. */
const numericDates: readonly RegExp[] = [
  /^(\d{1,2})([/.-])(\d{1,2})\2((?:19|20)\d\d)(?: \d{1,2}:\d\d(?::\d\d)?)?$/,
  /^(\d{2})(\/)(\d{2})\2(\d{2})$/,
];
const isoDate = /^(?:19|20)\d\d-(\d\d)-(\d\d)(?:[T ]\d{1,2}:\d\d(?::\d\d)?Z?)?$/;
/** 12-Oct, 10-Dec-02, Oct-12: spreadsheets write months with one capital or none, so "MAR-27" is left alone. */
const dayMonth = /^(\d{1,2})[-. /]{1,2}(\p{L}{3,4})\.?(?:[-. /](?:\d{2}|\d{4}))?$/u;
const monthYear = /^(\p{L}{3,4})\.?[-. /](?:\d{2}|\d{4})$/u;

/** Short months of other languages that are also everyday words of part numbers ("2-set"). */
const alsoWords = new Set(["set", "out", "mag", "gen"]);

const isMonthAsShown = (name: string): boolean =>
  !alsoWords.has(name.toLowerCase()) &&
  monthNumber(name) !== undefined &&
  name !== name.toUpperCase();

const plausibleDay = (a: number, b: number): boolean =>
  a >= 1 && b >= 1 && a <= 31 && b <= 31 && (a <= 12 || b <= 12);

/** What a spreadsheet has likely done to a part number, or undefined if it looks untouched. */
export function manglingOf(text: string): "exponent" | "date" | "error" | undefined {
  if (scientific.test(text) || scientificSmall.test(text)) return "exponent";
  if (spreadsheetError.test(text)) return "error";
  const iso = isoDate.exec(text);
  if (
    iso &&
    Number(iso[1]) >= 1 &&
    Number(iso[1]) <= 12 &&
    plausibleDay(Number(iso[1]), Number(iso[2]))
  ) {
    return "date";
  }
  for (const shape of numericDates) {
    const match = shape.exec(text);
    if (match && plausibleDay(Number(match[1]), Number(match[3]))) return "date";
  }
  const day = dayMonth.exec(text);
  if (day && Number(day[1]) >= 1 && Number(day[1]) <= 31 && isMonthAsShown(day[2] ?? ""))
    return "date";
  const month = monthYear.exec(text);
  if (month && isMonthAsShown(month[1] ?? "")) return "date";
  return undefined;
}

/**
 * A part number to the letter: only white space around it is dropped; zeros, case, suffixes and inner spaces
 * stay. One that a spreadsheet has turned into an exponent, a date or an error is refused, since the digits
 * are gone: 1.23E+11, 12-Oct, 10/12/2002, 2002-12-10, #REF!. Not refused, being ordinary part numbers:
 * 10-12-2, 1E5-204, 5E-10, 2E10, MAR-27, 10.12.02, 12/34, 123-4567-2002.
 */
export function parsePartNumber(cell: string): Cell<string> {
  const text = cell.trim();
  if (text === "") return emptyCell;
  const kept = textFormula.exec(text)?.[1];
  if (kept !== undefined) {
    return valueCell(kept, {
      code: "text-formula",
      text: 'A number written as ="…", by which spreadsheets keep its zeros, was read as what stands in the quotes.',
    });
  }
  const mangled = manglingOf(text);
  if (mangled === undefined) return valueCell(text, formula.test(text) ? formulaNote : undefined);
  const what = {
    exponent: "this is a number in exponent form, with digits lost",
    date: "this is a date",
    error: "this is a spreadsheet's error mark",
  }[mangled];
  return faultCell(
    "part-number-mangled",
    `A part number must stand as its maker writes it; ${what}, which a spreadsheet puts in place of a number it has misread`,
    "Look the number up, format the column as text in the spreadsheet, type it again and save the file.",
  );
}
