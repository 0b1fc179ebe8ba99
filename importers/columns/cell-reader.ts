import {
  type Cell,
  type CellNote,
  emptyCell,
  faultCell,
  isNothing,
  valueCell,
} from "../cells/cell.ts";
import { readFigure, safeEndOf } from "../cells/figure-range.ts";
import { parseBoolean } from "../cells/parse-boolean.ts";
import { choiceReader } from "../cells/parse-choice.ts";
import { type DateOrder, parseDate } from "../cells/parse-date.ts";
import type { NumberConvention } from "../cells/parse-number.ts";
import { parsePartNumber } from "../cells/parse-part-number.ts";
import { parseQuantity } from "../cells/parse-quantity.ts";
import { namesContainer } from "../cells/units.ts";
import type { Target } from "../targets.ts";

/** A value of one column as the graph holds it. */
export type Scalar = string | number | boolean;

/** How the file writes what can be written in several ways. */
export interface ColumnConventions {
  readonly number: NumberConvention;
  readonly dateOrder: DateOrder;
  readonly headerUnit?: string | undefined;
}

/** The function that reads the cells of a column into values of a field, its range included. */
export function cellReader(
  target: Target,
  conventions: ColumnConventions,
): (cell: string) => Cell<Scalar> {
  switch (target.kind) {
    case "text":
      return target.property === "currency" ? readCurrency : textReader(target);
    case "part-number":
      return codeReader(target);
    case "integer":
    case "real":
      return numberReader(target, conventions);
    case "boolean":
      return parseBoolean;
    case "date":
      return dateReader(target, conventions.dateOrder);
    case "choice":
      return choiceReader(target.choices ?? []);
    default:
      throw new TypeError(`cells of kind ${target.kind} are not read one by one`);
  }
}

/** What people write for a thing that keeps for ever. */
const neverExpires =
  /^(?:no expiry|no exp\.?|does(?: not|n't) expire|never|unlimited|unbegrenzt|unbefristet|illimitée?|sans limite|sin caducidad|no caduca|onbeperkt|illimitato|sem validade)$/iu;
const openExpiry: Cell<string> = {
  kind: "empty",
  note: {
    code: "expiry-in-words",
    text: 'Words such as "no expiry" are no day; the last day was left open. If the part has a shelf life, its pieces count as expired until a day is given.',
  },
};

function dateReader(target: Target, order: DateOrder): (cell: string) => Cell<string> {
  const isExpiry = target.property === "expires";
  return (cell) => {
    if (isExpiry && neverExpires.test(cell.trim())) return openExpiry;
    return parseDate(cell, {
      order,
      monthMeans: isExpiry ? "last-day" : "first-day",
      mayBeYear: agesFrom.has(target.id),
    });
  };
}

/** Days from which things grow old. */
const agesFrom: ReadonlySet<string> = new Set([
  "FittedItem.fittedOn",
  "StockLot.made",
  "SERVICED.lastDone",
]);

/** Marks that no one sees: zero-width spaces and joiners, soft hyphens, marks of direction, byte order marks. */
const unseen = /[\u00ad\u200b-\u200f\u202a-\u202e\u2060\ufeff]/g;
const unseenOnce = /[\u00ad\u200b-\u200f\u202a-\u202e\u2060\ufeff]/;
const curlyQuoted = /^[“„«‟‹]([^“”„«»]*)[”“»›]$/;

/** A cell without outer white space, marks that no one sees, and the curly quotes a word processor put around all of it. */
function plainText(cell: string): string {
  const seen = unseenOnce.test(cell) ? cell.replace(unseen, "") : cell;
  const text = seen.trim();
  return curlyQuoted.exec(text)?.[1]?.trim() ?? text;
}

/** Names: a mark for "nothing" is no name; other text keeps everything but a lone dash. */
function textReader(target: Target): (cell: string) => Cell<string> {
  const { isName } = target;
  return (cell) => {
    const text = plainText(cell);
    if (text === "" || (isName ? isNothing(text) : /^[-–—]+$/.test(text))) return emptyCell;
    if (text.length > target.maxLength) return tooLong(target);
    return valueCell(text);
  };
}

const tooLong = (target: Target): Cell<never> =>
  faultCell(
    "value-invalid",
    `This text may have at most ${target.maxLength} characters`,
    "Shorten it, or leave the column unmatched to keep it beside its row.",
  );

/** Part numbers and suppliers' codes show when a spreadsheet has mangled them; a serial may well look like a date. */
function codeReader(target: Target): (cell: string) => Cell<string> {
  return (cell) => {
    const text = plainText(cell);
    if (text === "" || isNothing(text)) return emptyCell;
    if (text.length > target.maxLength) return tooLong(target);
    return target.id === "FittedItem.serial" ? valueCell(text) : parsePartNumber(text);
  };
}

function readCurrency(cell: string): Cell<string> {
  return isNothing(cell.trim()) ? emptyCell : valueCell(cell.trim());
}

const shown = (limit: number): string => String(limit).replace(/\B(?=(?:\d{3})+$)/g, "\u202f");

/** The rule of a range in words: "between 0 and 24 hours a day", "1 piece or more". */
function rangeRule({ min, max, unit }: Target): string {
  const one = unit === undefined || unit === "1" ? "" : ` ${unit}`;
  const many = unit === undefined ? "" : (manyOf[unit] ?? one);
  if (max >= Number.MAX_SAFE_INTEGER)
    return `This must be ${shown(min)}${min === 1 ? one : many} or more`;
  if (min <= Number.MIN_SAFE_INTEGER) return `This must be ${shown(max)}${many} or less`;
  return `This must lie between ${shown(min)} and ${shown(max)}${many}`;
}

/** Units as they stand after a number other than one. */
const manyOf: Readonly<Record<string, string>> = {
  "1": "",
  litre: " litres",
  hour: " hours",
  day: " days",
  month: " months",
  year: " years",
  "hour/day": " hours a day",
  "operation/day": " operations a day",
  piece: " pieces",
  volt: " volts",
  "kilogram-force": " kg of load",
  millimetre: " mm",
};

const roundedNote: CellNote = {
  code: "time-rounded",
  text: "A time that is no whole number of days or months was rounded to the safe side.",
};

const containerNote: CellNote = {
  code: "container-counted",
  text: "A set, box, tin or the like was counted as one piece of what the part number stands for.",
};

/** What sellers write in place of a time to wait, which says nothing of the days until it is aboard. */
const inStock =
  /^(?:(?:in|ex|from)[\s-]?stock|stock|available|immediate(?:ly)?|(?:auf|ab|am) lager|lagernd|sofort(?: lieferbar)?|en stock|disponible|op voorraad|uit voorraad|disponibile|em stock|dispon[ií]vel)\.?$/iu;
const openLeadTime: Cell<number> = {
  kind: "empty",
  note: {
    code: "lead-time-in-words",
    text: 'Words such as "in stock" do not say how many days it takes until a part is aboard; the time was left open.',
  },
};

function numberReader(
  target: Target,
  conventions: ColumnConventions,
): (cell: string) => Cell<number> {
  const wholeOnly = target.kind === "integer";
  const rule = {
    convention: conventions.number,
    wholeOnly,
    unit: target.unit ?? "1",
    headerUnit: conventions.headerUnit,
  };
  const { min, max } = target;
  const isTime = target.unit === "day" || target.unit === "month";
  const safe = safeEndOf(target.id);
  const read = (cell: string): Cell<number> => parseQuantity(cell, rule);
  const isLeadTime = target.id === "OFFERS.leadTimeDays";
  return (cell) => {
    const number = readFigure(cell, read, safe, (value) => value);
    if (number.kind === "fault" && isLeadTime && inStock.test(cell.trim())) return openLeadTime;
    if (number.kind !== "value") return number;
    if (wholeOnly && isTime && safe !== undefined && !Number.isInteger(number.value)) {
      const whole = safe === "most" ? Math.ceil(number.value) : Math.floor(number.value);
      if (whole >= min && whole <= max) return valueCell(whole, number.note ?? roundedNote);
    }
    if (wholeOnly && !Number.isInteger(number.value)) {
      return faultCell(
        "number-unreadable",
        "This must be a whole number",
        "Correct it, or give it in a smaller unit.",
      );
    }
    if (number.value < min || number.value > max) {
      return faultCell(
        "number-out-of-range",
        rangeRule(target),
        number.value < 0 && min >= 0
          ? "Write it without the minus sign if it is a slip, or leave the cell empty."
          : "Correct the figure or its unit.",
      );
    }
    if (target.unit === "piece" && number.note === undefined && namesContainer(cell)) {
      return valueCell(number.value, containerNote);
    }
    return number;
  };
}
