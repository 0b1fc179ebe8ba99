import { type Cell, emptyCell, faultCell, isNothing, valueCell } from "./cell.ts";
import { monthNumber } from "./month-names.ts";

export type DateOrder = "dmy" | "mdy" | "unknown";

export interface DateRule {
  /** Order of day and month in dates like 03/04/2027. */
  readonly order: DateOrder;
  /** The day meant by a month alone: the last for an expiry, the first for a day of making or fitting. */
  readonly monthMeans: "last-day" | "first-day";
  /** Whether a year alone may stand for its first day, which for things that age is the safe reading. */
  readonly mayBeYear?: boolean;
}

const numeric = /^(\d{1,2})([/.\-\s])(\d{1,2})\2(\d{4}|\d{2})$/;
/** A time of day after a date says nothing we keep. */
const timeOfDay = /[T\s]\d{1,2}:\d{2}(?::\d{2}(?:[.,]\d+)?)?\s*(?:Z|[AP]M|[+-]\d{2}:?\d{2})?$/i;

const daysIn = (year: number, month: number): number =>
  new Date(Date.UTC(year, month, 0)).getUTCDate();

/** Two-digit years: 00 to 69 are this century's (POSIX strptime, %y). */
const fullYear = (text: string): number => {
  const year = Number(text);
  return text.length > 2 ? year : year < 69 ? 2000 + year : 1900 + year;
};

const two = (value: number): string => String(value).padStart(2, "0");

function makeDate(year: number, month: number, day: number): Cell<string> {
  if (year < 1900 || year > 2200) {
    return faultCell(
      "date-impossible",
      "The year must lie between 1900 and 2200",
      "Correct the date; write it as YYYY-MM-DD.",
    );
  }
  if (month < 1 || month > 12 || day < 1 || day > daysIn(year, month)) {
    const length =
      month >= 1 && month <= 12
        ? `month ${month} of ${year} has ${daysIn(year, month)} days`
        : "there are 12 months";
    return faultCell(
      "date-impossible",
      `A date must exist in the calendar; ${length}`,
      "Correct the date; write it as YYYY-MM-DD.",
    );
  }
  return valueCell(`${year}-${two(month)}-${two(day)}`);
}

/** What a cell tells about the order of day and month, if anything. */
function orderShown(cell: string): "dmy" | "mdy" | undefined {
  const match = numeric.exec(cell.trim().replace(timeOfDay, ""));
  if (match === null || match[2] === ".") return undefined;
  const first = Number(match[1]);
  const second = Number(match[3]);
  if (first > 12 && first <= 31 && second <= 12) return "dmy";
  if (second > 12 && second <= 31 && first <= 12) return "mdy";
  return undefined;
}

/** The order of day and month that cells agree on; `unknown` if none tells or they disagree. */
export function readDateOrder(cells: Iterable<string>): DateOrder {
  let dmy = 0;
  let mdy = 0;
  for (const cell of cells) {
    const shown = orderShown(cell);
    if (shown === "dmy") dmy += 1;
    else if (shown === "mdy") mdy += 1;
  }
  if (dmy > 0 && mdy === 0) return "dmy";
  if (mdy > 0 && dmy === 0) return "mdy";
  return "unknown";
}

/**
 * A calendar day as ISO 8601 text. Read: 2027-03-31, 20270331, 31.03.2027 (points are always day first),
 * 31/3/27 or 3/31/27 by the column's order, 31 Mar 2027, Mar 31, 2027, and months alone (Mar 2027, 2027-03,
 * 03/2027). A date that is not in the calendar, or can be read in two ways, is a fault, never a guess.
 */
export function parseDate(cell: string, rule: DateRule): Cell<string> {
  const text = cell.trim().replace(timeOfDay, "").trim();
  if (isNothing(text)) return emptyCell;
  const month = (year: number, number: number): Cell<string> =>
    makeDate(
      year,
      number,
      rule.monthMeans === "last-day" && number >= 1 && number <= 12 ? daysIn(year, number) : 1,
    );

  let match =
    /^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})$/.exec(text) ??
    /^((?:19|20|21)\d\d)(\d\d)(\d\d)$/.exec(text);
  if (match) return makeDate(Number(match[1]), Number(match[2]), Number(match[3]));
  match = /^(\d{4})[-/.](\d{1,2})$/.exec(text);
  if (match) return month(Number(match[1]), Number(match[2]));
  match = /^(\d{1,2})[-/.](\d{4})$/.exec(text);
  if (match) return month(Number(match[2]), Number(match[1]));
  match = numeric.exec(text);
  if (match) return numericDate(match, rule.order);
  match =
    /^(\d{1,2})(?:st|nd|rd|th|er|\.)?[\s\-/.]*(?:de\s+)?(\p{L}+\.?)[\s\-/.,]*(?:de\s+)?(\d{4}|\d{2})$/u.exec(
      text,
    );
  const named = match && monthNumber(match[2] ?? "");
  if (match && named) return makeDate(fullYear(match[3] ?? ""), named, Number(match[1]));
  match = /^(\p{L}+\.?)[\s-]*(\d{1,2})(?:st|nd|rd|th)?,?\s+(\d{4})$/u.exec(text);
  const leading = match && monthNumber(match[1] ?? "");
  if (match && leading) return makeDate(Number(match[3]), leading, Number(match[2]));
  match = /^(\p{L}+\.?)[\s\-/.']*(?:de\s+)?(\d{4}|\d{2})$/u.exec(text);
  const alone = match && monthNumber(match[1] ?? "");
  if (match && alone) return month(fullYear(match[2] ?? ""), alone);
  match = /^(\d{1,2})\/(\d{2})$/.exec(text);
  if (match && Number(match[1]) <= 12 && rule.monthMeans === "last-day") {
    return month(fullYear(match[2] ?? ""), Number(match[1]));
  }
  if (rule.mayBeYear && /^(?:19|20)\d\d$/.test(text)) {
    return valueCell(`${text}-01-01`, {
      code: "year-alone",
      text: "A year alone was taken as its first day, so that the thing counts as older rather than younger.",
    });
  }
  if (/^\d{5}$/.test(text)) {
    return faultCell(
      "date-unreadable",
      "A date must be written as a date; this looks like a spreadsheet's day number",
      "Format the column as a date (YYYY-MM-DD) and save the file again.",
    );
  }
  return faultCell(
    "date-unreadable",
    "A date must give day, month and year, or month and year",
    'Write it as YYYY-MM-DD, or "Mar 2027" for a month.',
  );
}

function numericDate(match: RegExpExecArray, order: DateOrder): Cell<string> {
  const first = Number(match[1]);
  const second = Number(match[3]);
  const year = fullYear(match[4] ?? "");
  if (match[2] === "." || first === second) return makeDate(year, second, first);
  if (first === 0 || second === 0) return makeDate(year, second, first);
  if (first > 12) return makeDate(year, second, first);
  if (second > 12) return makeDate(year, first, second);
  if (order === "dmy") return makeDate(year, second, first);
  if (order === "mdy") return makeDate(year, first, second);
  return faultCell(
    "date-ambiguous",
    `A date must be readable in one way; this is ${year}-${two(second)}-${two(first)} or ${year}-${two(first)}-${two(second)}, and no other date of the column tells which`,
    "Write it as YYYY-MM-DD, or say whether the day or the month comes first (--date-order).",
  );
}
