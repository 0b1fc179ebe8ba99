import { Problem } from "../../api/errors/problem.ts";
import { type ImportNotice, showValue } from "../row-fault.ts";
import { isBlankRow, type RowRules } from "./check-row.ts";
import { decodeText, type TextEncoding } from "./decode-text.ts";
import { findHeader, headerSearchDepth } from "./find-header.ts";
import { KeptRows } from "./kept-rows.ts";
import { type LineEnd, settleLineEnds } from "./line-ends.ts";
import { lineOfRow, rowOnLine } from "./lines-of-rows.ts";
import { nameColumns } from "./name-columns.ts";
import { rowPieces } from "./row-pieces.ts";
import { type Delimiter, sniffDelimiter } from "./sniff-delimiter.ts";

export interface ReadOptions {
  /** Parts the cells; found out if not given. */
  readonly delimiter?: Delimiter | undefined;
  /** Line of the header, counted from 1; found out if not given. */
  readonly headerLine?: number | undefined;
  /** Whether a cell is a column name the schema declares; helps to tell the header from title lines. */
  readonly isKnownName?: (cell: string) => boolean;
  /** False has every row read by papaparse, to compare with; plain rows are otherwise found in place. */
  readonly inPlace?: boolean;
}

/** What is known of a table before its rows are gone through. */
export interface TableHead {
  readonly encoding: TextEncoding | "text";
  readonly text: string;
  readonly delimiter: Delimiter;
  readonly lineEnd: LineEnd;
  /** The line ends of the text, and one. */
  readonly lineCount: number;
  readonly titleLines: readonly string[];
  readonly header: readonly string[];
  /** For each column the index of the first column whose name it repeats, else its own index. */
  readonly firstOfName: readonly number[];
  /** Index of the header among all rows. */
  readonly headerIndex: number;
  readonly headerLine: number;
  readonly keptRows: KeptRows;
  readonly rules: RowRules;
  readonly notices: readonly ImportNotice[];
}

/**
 * Decodes a file and finds its delimiter, line ends and header; gives the first rows below the header as well, apart, since
 * they should not be kept for long. Throws `file-empty` and `file-binary`.
 */
export function readHead(
  input: Uint8Array | string,
  options: ReadOptions,
): { readonly head: TableHead; readonly sample: readonly (readonly string[])[] } {
  const decoded = typeof input === "string" ? undefined : decodeText(input);
  const raw = decoded?.text ?? String(input).replace(/^\uFEFF/, "");
  if (!/[^\s,;|"]/.test(raw)) {
    throw new Problem(
      "file-empty",
      "A file must hold a header line and at least one row; this one holds no text. Check that the right file was chosen.",
    );
  }
  const sniffed = options.delimiter ?? sniffDelimiter(raw);
  const delimiter = sniffed ?? ",";
  const { text, lineEnd } = settleLineEnds(raw, delimiter);
  let lineCount = 1;
  for (let at = text.indexOf(lineEnd); at !== -1; at = text.indexOf(lineEnd, at + 1)) {
    lineCount += 1;
  }
  const lastLine = text.endsWith(lineEnd) ? lineCount - 1 : lineCount;
  if (options.headerLine !== undefined && options.headerLine > lastLine) {
    throw new Problem(
      "input-invalid",
      `The column names must stand on a line the file has (--header-line); received ${options.headerLine}, and the file has ${lastLine} lines. Give the number of the line as the file has it, counted from 1.`,
    );
  }
  const first = firstRows(text, delimiter, lineEnd);
  const headerIndex =
    options.headerLine === undefined
      ? findHeader(first.slice(0, headerSearchDepth), options.isKnownName)
      : rowOnLine(first, options.headerLine);
  const headerLine = lineOfRow(first, headerIndex);
  const headerRow = first[headerIndex] ?? [];
  const below = first.slice(headerIndex + 1).filter((row) => !isBlankRow(row));
  const keptRows = new KeptRows(headerRow);
  const { header, firstOfName, notices } = nameColumns(headerRow, below, headerLine);
  if (below.length === 0) {
    throw new Problem(
      "file-empty",
      `A file must hold at least one row below its header; line ${headerLine} was taken as the header (${showValue(header.join(", "))}) and nothing follows. Check that the table was saved whole.`,
    );
  }
  const width = header.length;
  const short = below.filter((row) => row.length < width).length;
  const mayBeShort = short >= 4 && short * 2 > below.length;
  if (sniffed === undefined && width === 1) {
    notices.push({
      code: "one-column",
      line: headerLine,
      column: header[0],
      text: "Only one column was found. If there should be more, say which character parts them: comma, semicolon, tab or pipe.",
      count: 1,
    });
  }
  const head: TableHead = {
    encoding: decoded?.encoding ?? "text",
    text,
    delimiter,
    lineEnd,
    lineCount,
    titleLines: first.slice(0, headerIndex).map((row) => row.join(delimiter)),
    header,
    firstOfName,
    headerIndex,
    headerLine,
    keptRows,
    rules: { header, delimiter, mayBeShort },
    notices,
  };
  return { head, sample: below.filter((row) => keptRows.has(row)) };
}

/** Rows looked at before the table is described. */
const sampleSize = 2500;

/** The rows by which a table is described, those above its header included. */
export function firstRows(text: string, delimiter: string, lineEnd: LineEnd): string[][] {
  const rows: string[][] = [];
  for (const piece of rowPieces(text, delimiter, lineEnd)) {
    for (const row of piece.rows) rows.push(row);
    if (rows.length >= sampleSize) break;
  }
  return rows;
}
