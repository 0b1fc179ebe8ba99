import { type Cell, emptyCell, faultCell, isNothing, valueCell } from "./cell.ts";

/**
 * How a column writes decimals. `point-presumed`: nothing in the file tells, but commas part its cells,
 * so a lone point is taken as decimal and a lone comma stays in doubt.
 */
export type NumberConvention = "point" | "comma" | "point-presumed" | "unknown";

export interface NumberRule {
  readonly convention: NumberConvention;
  /** Counts: 1,234 can only be a thousand and some. */
  readonly wholeOnly?: boolean;
}

const spaces = /[\s\u00a0\u2007\u2009\u202f]/g;
const grouped = /^\d{1,3}(?:[ '’\u00a0\u2007\u2009\u202f]\d{3})+(?=$|[.,])/;
const exponent = /^\d+(?:[.,]\d+)?e[+-]?\d{1,3}$/i;

type Shape =
  | { readonly kind: "number"; readonly value: number; readonly decides?: "point" | "comma" }
  | {
      readonly kind: "doubtful";
      readonly whole: string;
      readonly rest: string;
      readonly mark: string;
    }
  | { readonly kind: "none" };

const none: Shape = { kind: "none" };

/** The shape of unsigned digits with separators, without regard to any convention. */
function shapeOf(digits: string): Shape {
  if (/^\d+$/.test(digits)) return { kind: "number", value: Number(digits) };
  if (exponent.test(digits)) return { kind: "number", value: Number(digits.replace(",", ".")) };
  const spaced = grouped.exec(digits);
  if (spaced) {
    const whole = spaced[0].replace(/\D/g, "");
    const rest = digits.slice(spaced[0].length);
    if (rest === "") return { kind: "number", value: Number(whole) };
    if (!/^[.,]\d+$/.test(rest)) return none;
    return {
      kind: "number",
      value: Number(`${whole}.${rest.slice(1)}`),
      decides: rest[0] === "," ? "comma" : "point",
    };
  }
  const match = /^(\d*(?:[.,]\d+)*)([.,])(\d*)$/.exec(digits);
  if (match === null) return none;
  const [, head = "", mark = "", rest = ""] = match;
  if (head === "" && rest === "") return none;
  const decides = mark === "," ? "comma" : "point";
  if (/^\d*$/.test(head)) {
    const doubtful = rest.length === 3 && /^[1-9]\d{0,2}$/.test(head);
    if (doubtful) return { kind: "doubtful", whole: head, rest, mark };
    return { kind: "number", value: Number(`${head || "0"}.${rest || "0"}`), decides };
  }
  const other = mark === "," ? "." : ",";
  const groups = (separator: string): boolean => {
    const parts = head.split(separator);
    return parts.every((part, index) =>
      index === 0
        ? /^\d{1,3}$/.test(part)
        : index === parts.length - 1
          ? /^\d{3}$/.test(part)
          : /^\d{2,3}$/.test(part),
    );
  };
  if (!head.includes(mark) && groups(other)) {
    return {
      kind: "number",
      value: Number(`${head.replaceAll(other, "")}.${rest || "0"}`),
      decides,
    };
  }
  if (!head.includes(other) && rest.length === 3 && groups(mark)) {
    // 1.234.567: the mark groups, so the other one is the decimal mark.
    const value = Number(head.replaceAll(mark, "") + rest);
    return { kind: "number", value, decides: mark === "," ? "point" : "comma" };
  }
  return none;
}

function split(cell: string): { negative: boolean; digits: string } {
  let text = cell.trim().replace(/^[−–]/, "-");
  const bracketed = /^\((.*)\)$/.exec(text);
  if (bracketed) text = `-${(bracketed[1] ?? "").trim()}`;
  const negative = text.startsWith("-");
  return { negative, digits: text.replace(/^[+-]/, "").trim() };
}

/** What a cell tells about the decimal mark of its column, if anything. */
export function conventionShown(cell: string): "point" | "comma" | undefined {
  const figure = /\d[\d.,'’ \u00a0\u202f]*/.exec(cell)?.[0]?.trim();
  if (figure === undefined) return undefined;
  const shape = shapeOf(figure);
  return shape.kind === "number" ? shape.decides : undefined;
}

/** The decimal mark that cells agree on; `unknown` if none tells or they disagree. */
export function readNumberConvention(cells: Iterable<string>): NumberConvention {
  let points = 0;
  let commas = 0;
  for (const cell of cells) {
    const shown = conventionShown(cell);
    if (shown === "point") points += 1;
    else if (shown === "comma") commas += 1;
  }
  if (points > 0 && commas === 0) return "point";
  if (commas > 0 && points === 0) return "comma";
  return "unknown";
}

/**
 * A number written with a decimal point or comma, thousands parted by comma, point, space or apostrophe.
 * 1,234 and 1.234 can be read in two ways: the column's convention decides, or that the value must be
 * whole; else it is a fault, never a guess. Exponents are numbers here (in part numbers they are not).
 */
export function parseNumber(cell: string, rule: NumberRule): Cell<number> {
  const text = cell.trim();
  if (isNothing(text)) return emptyCell;
  const { negative, digits } = split(text);
  const signed = (value: number): Cell<number> =>
    valueCell(negative && value !== 0 ? -value : value);
  const shape = shapeOf(digits);
  if (shape.kind === "number" && Number.isFinite(shape.value)) return signed(shape.value);
  if (shape.kind === "doubtful") {
    const asDecimal = Number(`${shape.whole}.${shape.rest}`);
    const asThousands = Number(shape.whole + shape.rest);
    const convention = rule.convention;
    if (convention === "point-presumed" && shape.mark === "." && !rule.wholeOnly)
      return signed(asDecimal);
    if (convention === "point" || convention === "comma") {
      const isDecimal = (convention === "comma") === (shape.mark === ",");
      return signed(isDecimal ? asDecimal : asThousands);
    }
    if (rule.wholeOnly && shape.rest !== "000") return signed(asThousands);
    return faultCell(
      "number-ambiguous",
      `A number must be readable in one way; this is ${asDecimal} with a decimal mark and ${asThousands} with thousands`,
      `Write ${asThousands} or ${shape.whole}${shape.mark}${shape.rest}0, or say which decimal mark the file uses (--decimal).`,
    );
  }
  return faultCell(
    "number-unreadable",
    "A number must be written in digits, with at most one decimal mark",
    "Write figures only, such as 12.5 or 12,5; put remarks in a column of their own.",
  );
}

/** The number at the start of a cell and the text after it ("12,5 kg"), or undefined if there is none. */
export function splitFigure(cell: string): { figure: string; rest: string } | undefined {
  const match =
    /^(\(?\s*[+\-−–]?\s*\d(?:[\d.,]|[ '’\u00a0\u2007\u2009\u202f](?=\d))*(?:e[+-]?\d+(?![a-z]))?\s*\)?)(.*)$/is.exec(
      cell.trim(),
    );
  if (match === null) return undefined;
  return { figure: (match[1] ?? "").trim(), rest: (match[2] ?? "").replace(spaces, " ").trim() };
}
