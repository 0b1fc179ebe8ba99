import { Problem } from "../../api/errors/problem.ts";
import { restoreCell } from "../neutral-cell.ts";
import { type ImportNotice, type RowFault, showValue } from "../row-fault.ts";
import { decodeText, type TextEncoding } from "./decode-text.ts";
import { findHeader, headerSearchDepth } from "./find-header.ts";
import { settleLineEnds } from "./line-ends.ts";
import { parseRows } from "./parse-rows.ts";
import { type Delimiter, delimiterNames, sniffDelimiter } from "./sniff-delimiter.ts";

/** Longest cell taken in, in characters: the limit spreadsheets themselves have for a cell. */
export const longestCell = 32_767;

export interface ReadOptions {
  /** Parts the cells; found out if not given. */
  readonly delimiter?: Delimiter | undefined;
  /** Line of the header, counted from 1; found out if not given. */
  readonly headerLine?: number | undefined;
  /** Whether a cell is a column name the schema declares; helps to tell the header from title lines. */
  readonly isKnownName?: (cell: string) => boolean;
}

/** A file as rows of text under a header: nothing interpreted yet, nothing left out. */
export interface Table {
  readonly encoding: TextEncoding | "text";
  readonly delimiter: Delimiter;
  /** Lines above the header, as they stand. */
  readonly titleLines: readonly string[];
  /** Column names, each once: a second "Price" is named "Price (2)", a nameless column "Column 7". */
  readonly header: readonly string[];
  /** For each column the index of the first column whose name it repeats, else its own index. */
  readonly firstOfName: readonly number[];
  /** Rows that are not blank, padded to the width of the header; a row too long keeps its surplus. */
  readonly rows: readonly string[][];
  /** Line of the file, counted from 1, on which a row of `rows` begins. */
  readonly lineOf: (row: number) => number;
  readonly headerLine: number;
  /** Blank rows and repeated headers left out. */
  readonly skipped: number;
  readonly notices: readonly ImportNotice[];
  /** Faults by index of the row they reject. */
  readonly faults: ReadonlyMap<number, readonly RowFault[]>;
}

/**
 * The table in a file: text decoded, delimiter and header found, every row accounted for
 * (rows + skipped = rows below the header). Throws `file-empty` (also for a header without rows),
 * `file-binary`; everything else is a notice or the fault of one row.
 */
export function readTable(input: Uint8Array | string, options: ReadOptions = {}): Table {
  const decoded = typeof input === "string" ? undefined : decodeText(input);
  const raw = decoded?.text ?? (typeof input === "string" ? input.replace(/^\uFEFF/, "") : "");
  if (raw.trim() === "") {
    throw new Problem(
      "file-empty",
      "A file must hold a header line and at least one row; this one holds no text. Check that the right file was chosen.",
    );
  }
  const sniffed = options.delimiter ?? sniffDelimiter(raw);
  const delimiter = sniffed ?? ",";
  const { text, lineEnd } = settleLineEnds(raw, delimiter);
  const { rows: all, openQuotes, strayQuotes } = parseRows(text, delimiter, lineEnd);
  const lines = new RowLines(all, text, lineEnd);
  const headerIndex =
    options.headerLine === undefined
      ? findHeader(all.slice(0, headerSearchDepth), options.isKnownName)
      : lines.rowAt(options.headerLine);
  const notices: ImportNotice[] = [];
  const { header, firstOfName } = nameColumns(all, headerIndex, lines.lineOf(headerIndex), notices);
  const width = header.length;
  const habitShort = leavesOutTrailingCells(all, headerIndex, width);

  const rows: string[][] = [];
  const origin: number[] = [];
  const faults = new Map<number, RowFault[]>();
  let skipped = 0;
  let padded = 0;
  const headerText = (all[headerIndex] ?? []).join("\u0000");
  for (let index = headerIndex + 1; index < all.length; index += 1) {
    const row = all[index] as string[];
    if (
      isBlank(row) ||
      (row.length >= width && row[0] === header[0] && row.join("\u0000") === headerText)
    ) {
      skipped += 1;
      continue;
    }
    const at = rows.length;
    const fault = (more: Omit<RowFault, "line">): void => {
      const list = faults.get(at) ?? [];
      list.push({ line: lines.lineOf(index), ...more });
      faults.set(at, list);
    };
    for (let column = 0; column < row.length; column += 1) {
      const cell = row[column] as string;
      if (cell.charCodeAt(0) === 39) row[column] = restoreCell(cell);
      if (cell.length > longestCell) {
        fault({
          code: "cell-too-long",
          column: header[column],
          rule: `A cell may hold at most ${longestCell} characters`,
          value: showValue(cell),
          remedy: "Shorten the text, or check the row for a quote mark that is never closed.",
        });
      }
    }
    if (openQuotes.has(index)) {
      fault({
        code: "quote-open",
        column: undefined,
        rule: "A quote mark that opens a cell must be closed on the same row",
        value: showValue(row.join(delimiter)),
        remedy: 'Close the quote mark, or write a quote mark within a cell as "" inside quotes.',
      });
    }
    if (row.length > width) {
      while (row.length > width && (row.at(-1) ?? "").trim() === "") row.pop();
    }
    if (row.length > width) {
      fault({
        code: "row-long",
        column: undefined,
        rule: `A row must have as many cells as the header, ${width}`,
        value: `${row.length} cells: ${showValue(row.join(delimiter))}`,
        remedy: `Put cells that hold a ${delimiterNames[delimiter]} in quote marks, or name the extra columns.`,
      });
    } else if (row.length < width) {
      const cells = row.length;
      while (row.length < width) row.push("");
      if (habitShort) padded += 1;
      else if (!openQuotes.has(index)) {
        fault({
          code: "row-short",
          column: undefined,
          rule: `A row must have as many cells as the header, ${width}`,
          value: `${cells} cells: ${showValue(row.slice(0, cells).join(delimiter))}`,
          remedy: `Add the missing cells (an empty cell still needs its ${delimiterNames[delimiter]}), or rejoin a row broken over two lines.`,
        });
      }
    }
    if (strayQuotes.has(index)) {
      notices.push({
        code: "quote-stray",
        line: lines.lineOf(index),
        column: undefined,
        text: "A quote mark inside a quoted cell is not doubled; it was taken as part of the text.",
        count: 1,
      });
    }
    rows.push(row);
    origin.push(index);
  }
  if (rows.length === 0) {
    throw new Problem(
      "file-empty",
      `A file must hold at least one row below its header; line ${lines.lineOf(headerIndex)} was taken as the header (${showValue(header.join(", "))}) and nothing follows. Check that the table was saved whole.`,
    );
  }
  if (padded > 0) {
    notices.push({
      code: "rows-short",
      line: undefined,
      column: undefined,
      text: "Most rows leave out empty cells at their end; these were taken as empty.",
      count: padded,
    });
  }
  if (sniffed === undefined && width === 1) {
    notices.push({
      code: "one-column",
      line: lines.lineOf(headerIndex),
      column: header[0],
      text: "Only one column was found. If there should be more, say which character parts them: comma, semicolon, tab or pipe.",
      count: 1,
    });
  }
  return {
    encoding: decoded?.encoding ?? "text",
    delimiter,
    titleLines: all.slice(0, headerIndex).map((row) => row.join(delimiter)),
    header,
    firstOfName,
    rows,
    lineOf: (row) => lines.lineOf(origin[row] ?? 0),
    headerLine: lines.lineOf(headerIndex),
    skipped,
    notices,
    faults,
  };
}

function isBlank(row: readonly string[]): boolean {
  for (const cell of row) if (cell !== "" && cell.trim() !== "") return false;
  return true;
}

/** True if most rows are shorter than the header: the program that wrote the file leaves out trailing cells. */
function leavesOutTrailingCells(
  all: readonly (readonly string[])[],
  headerIndex: number,
  width: number,
): boolean {
  let short = 0;
  let seen = 0;
  for (let index = headerIndex + 1; index < all.length; index += 1) {
    const row = all[index] ?? [];
    if (row.length === 1 && row[0] === "") continue;
    seen += 1;
    if (row.length < width) short += 1;
  }
  return short >= 4 && short * 2 > seen;
}

/** The header with nameless columns named and repeated names numbered, a notice for each repeat. */
function nameColumns(
  all: readonly (readonly string[])[],
  headerIndex: number,
  line: number,
  notices: ImportNotice[],
): { header: string[]; firstOfName: number[] } {
  const cells = [...(all[headerIndex] ?? [])].map((cell) => cell.replace(/\s+/g, " ").trim());
  while (cells.length > 1 && cells.at(-1) === "") {
    const last = cells.length - 1;
    if (all.slice(headerIndex + 1).some((row) => (row[last] ?? "").trim() !== "")) break;
    cells.pop();
  }
  const header: string[] = [];
  const firstOfName: number[] = [];
  const first = new Map<string, number>();
  const taken = new Set(cells);
  cells.forEach((cell, index) => {
    if (cell === "") {
      header.push(`Column ${index + 1}`);
      firstOfName.push(index);
      return;
    }
    const key = cell.toLowerCase();
    const before = first.get(key);
    if (before === undefined) {
      first.set(key, index);
      header.push(cell);
      firstOfName.push(index);
      return;
    }
    let number = 2;
    while (taken.has(`${cell} (${number})`)) number += 1;
    const name = `${cell} (${number})`;
    taken.add(name);
    header.push(name);
    firstOfName.push(before);
    notices.push({
      code: "header-twice",
      line,
      column: cell,
      text: `Each column must have a name of its own; "${cell}" heads columns ${before + 1} and ${index + 1}. The second is called "${name}": rename it, or map it by hand.`,
      count: 1,
    });
  });
  return { header, firstOfName };
}

/** Line numbers of rows: a row number, unless cells hold line ends of their own. */
class RowLines {
  readonly #lines: Uint32Array | undefined;

  constructor(all: readonly (readonly string[])[], text: string, lineEnd: string) {
    let ends = 0;
    for (let at = text.indexOf(lineEnd); at !== -1; at = text.indexOf(lineEnd, at + 1)) ends += 1;
    const strays = lineEnd === "\r\n" && /[^\r]\n|\r(?!\n)/.test(text);
    if (!strays && ends === all.length - (text.endsWith(lineEnd) ? 0 : 1)) return;
    const lines = new Uint32Array(all.length);
    let line = 1;
    all.forEach((row, index) => {
      lines[index] = line;
      line += 1;
      for (const cell of row) {
        if (cell.includes("\n") || cell.includes("\r")) {
          line += cell.split(/\r\n|\n|\r/).length - 1;
        }
      }
    });
    this.#lines = lines;
  }

  lineOf(row: number): number {
    return this.#lines === undefined ? row + 1 : (this.#lines[row] ?? 0);
  }

  /** The row that begins on a line, or the last one before it. */
  rowAt(line: number): number {
    if (this.#lines === undefined) return Math.max(0, line - 1);
    const after = this.#lines.findIndex((start) => start > line);
    return after === -1 ? this.#lines.length - 1 : Math.max(0, after - 1);
  }
}
