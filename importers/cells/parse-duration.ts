import { type Cell, type CellNote, emptyCell, faultCell, isNothing, valueCell } from "./cell.ts";
import { readFigure, safeEndOf } from "./figure-range.ts";
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
    /\s*(?:\/|;|\+|\bor\b|\boder\b|\bou\b|\bof\b|\bo\b|\band\b|\bund\b|\bet\b|\by\b)\s*(?=\d|year|annual|month|half|jährl|monatl|halbj|annuel|mensuel|semestr|anual|mensual|jaarl|maandel|halfj|annuale|mensile)/i,
  );
  let duration: Duration = {};
  let note: CellNote | undefined;
  for (const piece of pieces) {
    const bare = piece.replace(
      /^(?:every|alle|jede[ns]?|tou(?:te)?s les|cada|elke|om de|ogni)\s+/i,
      "",
    );
    const one = readFigure(
      bare,
      (figure) => readPiece(figure, convention),
      safeEndOf("ServiceTask.interval"),
      sizeOf,
    );
    if (one.kind === "fault" && one.code === "number-ambiguous") return one;
    if (one.kind !== "value") return unreadable();
    const isTwice = Object.keys(one.value).some((unit) => Object.hasOwn(duration, unit));
    if (isTwice) return unreadable();
    duration = { ...duration, ...one.value };
    note ??= one.note;
  }
  return valueCell(duration, note);
}

/** For telling the shorter of two: a month is 730 hours, a twelfth of a year. */
const sizeOf = ({ hours = 0, months = 0 }: Duration): number => hours + months * 730;

const inWords: readonly (readonly [months: number, words: RegExp])[] = [
  [
    1,
    /^(?:month(?:ly)?|monatlich|monat|mensuel(?:le)?|mois|mensual|mes|maandelijks|maand|mensile|mensal)$/iu,
  ],
  [3, /^(?:quarterly|vierteljährlich|trimestriel(?:le)?|trimestral|trimestrale|per kwartaal)$/iu],
  [6, /^(?:half[ -]yearly|halbjährlich|semestriel(?:le)?|semestral|semestrale|halfjaarlijks)$/iu],
  [
    12,
    /^(?:year(?:ly)?|annual(?:ly)?|jährlich|jahr|annuel(?:le)?|an|anual|año|jaarlijks|jaar|annuale|anno|ano)$/iu,
  ],
];

function readPiece(piece: string, convention: NumberConvention): Cell<Duration> {
  const worded = inWords.find(([, words]) => words.test(piece.trim()));
  if (worded) return valueCell({ months: worded[0] });
  const parts = splitFigure(piece);
  const number = parts && parseNumber(parts.figure, { convention, wholeOnly: true });
  if (number?.kind === "fault" && number.code === "number-ambiguous") return number;
  if (parts === undefined || number === undefined || number.kind !== "value") return unreadable();
  const hours = writtenUnit("hour", parts.rest);
  if (typeof hours === "number") return valueCell({ hours: number.value * hours });
  const months = writtenUnit("month", parts.rest);
  return typeof months === "number" ? valueCell({ months: number.value * months }) : unreadable();
}

const unreadable = (): Cell<never> =>
  faultCell(
    "duration-unreadable",
    "An interval must be a figure with hours, months or years",
    'Write it like "250 h", "12 months" or "250 h / 12 months".',
  );
