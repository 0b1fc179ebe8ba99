import type Papa from "papaparse";
import type { LineEnd } from "./line-ends.ts";
import { parseText } from "./parse-text.ts";

export interface ParsedRows {
  readonly rows: string[][];
  /** Indices of rows in which a quote mark opens a cell and is not closed on that line. */
  readonly openQuotes: ReadonlySet<number>;
  /** Indices of rows that hold a stray quote mark inside a quoted cell. */
  readonly strayQuotes: ReadonlySet<number>;
}

/** How many times the text may be gone over again because of open quotes. */
const rereadBudget = 12;

interface OpenQuote {
  readonly row: number;
  /** Place in the text just after the opening quote mark. */
  readonly index: number;
}

/** The first quote mark that swallows lines which follow it: never closed, or closed amid another cell. */
function firstOpenQuote(
  errors: readonly Papa.ParseError[],
  text: string,
  lineEnd: LineEnd,
): OpenQuote | undefined {
  for (const error of errors) {
    const { row, index } = error;
    if (row === undefined || index === undefined) continue;
    if (error.code === "MissingQuotes") return { row, index };
    if (error.code !== "InvalidQuotes") continue;
    const end = text.indexOf(lineEnd, index);
    let quote = text.indexOf('"', index);
    while (quote !== -1 && text[quote + 1] === '"') quote = text.indexOf('"', quote + 2);
    if (end !== -1 && quote > end) return { row, index };
  }
  return undefined;
}

/**
 * The rows of a delimited text (RFC 4180), blank ones included. An open quote mark costs its own line
 * only: reading goes on with the next one instead of swallowing the rest of the file into a cell.
 */
export function parseRows(text: string, delimiter: string, lineEnd: LineEnd): ParsedRows {
  let rows: string[][] = [];
  const openQuotes = new Set<number>();
  const strayQuotes = new Set<number>();
  let rest = text;
  let reread = 0;
  while (rest !== "") {
    const result = parseText(rest, delimiter, lineEnd);
    const open = firstOpenQuote(result.errors, rest, lineEnd);
    const before = rows.length;
    const until = open?.row ?? Number.POSITIVE_INFINITY;
    for (const error of result.errors) {
      if (error.code === "InvalidQuotes" && error.row !== undefined && error.row < until) {
        strayQuotes.add(before + error.row);
      }
    }
    if (open === undefined) {
      rows = before === 0 ? result.data : rows.concat(result.data);
      break;
    }
    rows = rows.concat(result.data.slice(0, open.row));
    const end = rest.indexOf(lineEnd, open.index);
    const tail = rest.slice(open.index - 1, end === -1 ? undefined : end).split(delimiter);
    const head = cellsBefore(rest, open, delimiter, lineEnd);
    openQuotes.add(rows.length);
    rows.push([...head, ...tail]);
    rest = end === -1 ? "" : rest.slice(end + lineEnd.length);
    reread += 1;
    if (reread >= rereadBudget && rest !== "") {
      for (const line of rest.split(lineEnd)) {
        if (line.includes('"')) openQuotes.add(rows.length);
        rows.push(line.split(delimiter));
      }
      break;
    }
  }
  if (text.endsWith(lineEnd) && rows.at(-1)?.length === 1 && rows.at(-1)?.[0] === "") rows.pop();
  return { rows, openQuotes, strayQuotes };
}

/** The cells of a row that stand before the one whose text begins at `index`, just after its quote mark. */
function cellsBefore(
  text: string,
  open: OpenQuote,
  delimiter: string,
  lineEnd: LineEnd,
): readonly string[] {
  const start = open.row === 0 ? 0 : parseText(text, delimiter, lineEnd, open.row).meta.cursor;
  const head = parseText(text.slice(start, open.index - 1), delimiter, lineEnd).data[0] ?? [];
  return head.slice(0, -1);
}
