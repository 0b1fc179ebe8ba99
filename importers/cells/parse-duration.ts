import { type Cell, emptyCell, faultCell, isNothing, valueCell } from "./cell.ts";
import { type NumberConvention, parseNumber, splitFigure } from "./parse-number.ts";
import { writtenUnit } from "./units.ts";

/** A service interval: running hours, months, or both ("250 h or 12 months", whichever comes first). */
export interface Duration {
  readonly hours?: number;
  readonly months?: number;
}

/** An interval in words: "250 h", "12 months", "1 an", "500 h / 1 year". A bare figure is a fault: hours or months? */
export function parseDuration(cell: string, convention: NumberConvention): Cell<Duration> {
  const text = cell.trim();
  if (isNothing(text)) return emptyCell;
  const pieces = text.split(
    /\s*(?:\/|;|\+|\bor\b|\boder\b|\bou\b|\bof\b|\bo\b|\band\b|\bund\b|\bet\b|\by\b)\s*(?=\d)/i,
  );
  let duration: Duration = {};
  for (const piece of pieces) {
    const parts = splitFigure(
      piece.replace(/^(?:every|alle|jede[ns]?|tou(?:te)?s les|cada|elke|om de)\s+/i, ""),
    );
    const number = parts && parseNumber(parts.figure, { convention });
    if (parts === undefined || number === undefined || number.kind !== "value") return unreadable();
    const hours = writtenUnit("hour", parts.rest);
    const months = writtenUnit("month", parts.rest);
    if (typeof hours === "number" && duration.hours === undefined) {
      duration = { ...duration, hours: number.value * hours };
    } else if (typeof months === "number" && duration.months === undefined) {
      duration = { ...duration, months: number.value * months };
    } else return unreadable();
  }
  return valueCell(duration);
}

const unreadable = (): Cell<never> =>
  faultCell(
    "duration-unreadable",
    "An interval must be a figure with hours, months or years",
    'Write it like "250 h", "12 months" or "250 h / 12 months".',
  );
