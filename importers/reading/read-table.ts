import { Problem } from "../../api/errors/problem.ts";
import { type ImportNotice, type RowFault, showValue } from "../row-fault.ts";
import { isBlankRow, isSuspect, type RowRules, rowFaults, straightenRow } from "./check-row.ts";
import { decodeText, type TextEncoding } from "./decode-text.ts";
import { findHeader, headerSearchDepth } from "./find-header.ts";
import { type LineEnd, settleLineEnds } from "./line-ends.ts";
import { nameColumns } from "./name-columns.ts";
import { parsePiece, type RowPiece, rowPieces } from "./row-pieces.ts";
import { type Delimiter, sniffDelimiter } from "./sniff-delimiter.ts";

export interface ReadOptions {
  /** Parts the cells; found out if not given. */
  readonly delimiter?: Delimiter | undefined;
  /** Line of the header, counted from 1; found out if not given. */
  readonly headerLine?: number | undefined;
  /** Whether a cell is a column name the schema declares; helps to tell the header from title lines. */
  readonly isKnownName?: (cell: string) => boolean;
}

/** Rows `first`, `first` + 1, ... of a table: not blank, as wide as the header (one too long keeps its surplus). */
export interface RowBlock {
  readonly rows: readonly (readonly string[])[];
  readonly first: number;
}

interface PieceMark {
  readonly from: number;
  readonly to: number;
  readonly firstRow: number;
  /** Rows at the start of the piece that are titles or header. */
  readonly leave: number;
  /** Rows kept because the piece cannot be parsed again on its own. */
  readonly kept: readonly string[][] | undefined;
}

/**
 * A file as rows of text under a header: nothing interpreted, nothing left out. The rows are gone through once, by
 * `blocks`; what is said of the whole (`rowCount`, `skipped`, `faults`, `notices`, `lineOf`) holds after that.
 */
export class Table {
  readonly encoding: TextEncoding | "text";
  readonly delimiter: Delimiter;
  /** Lines above the header, as they stand. */
  readonly titleLines: readonly string[];
  readonly header: readonly string[];
  /** For each column the index of the first column whose name it repeats, else its own index. */
  readonly firstOfName: readonly number[];
  readonly headerLine: number;
  /** No table has more rows than this: the line ends of the text, and one. */
  readonly rowLimit: number;
  rowCount = 0;
  /** Blank rows and repeated headers left out. */
  skipped = 0;
  /** Faults by index of the row they reject. */
  readonly faults = new Map<number, RowFault[]>();
  readonly #notices: ImportNotice[];
  readonly #text: string;
  readonly #lineEnd: LineEnd;
  readonly #headerIndex: number;
  readonly #rules: RowRules;
  readonly #headerText: string;
  readonly #headerStart: string;
  readonly #lines: Uint32Array;
  readonly #marks: PieceMark[] = [];
  #again: { mark: PieceMark; rows: readonly (readonly string[])[] } | undefined;
  #padded = 0;
  #stray = { count: 0, line: 0 };

  constructor(input: Uint8Array | string, options: ReadOptions) {
    const decoded = typeof input === "string" ? undefined : decodeText(input);
    const raw = decoded?.text ?? String(input).replace(/^\uFEFF/, "");
    if (raw.trim() === "") {
      throw new Problem(
        "file-empty",
        "A file must hold a header line and at least one row; this one holds no text. Check that the right file was chosen.",
      );
    }
    this.encoding = decoded?.encoding ?? "text";
    const sniffed = options.delimiter ?? sniffDelimiter(raw);
    this.delimiter = sniffed ?? ",";
    const { text, lineEnd } = settleLineEnds(raw, this.delimiter);
    this.#text = text;
    this.#lineEnd = lineEnd;
    let ends = 1;
    for (let at = text.indexOf(lineEnd); at !== -1; at = text.indexOf(lineEnd, at + 1)) ends += 1;
    this.rowLimit = ends;
    this.#lines = new Uint32Array(ends + 1);

    const first = firstRows(text, this.delimiter, lineEnd);
    this.#headerIndex =
      options.headerLine === undefined
        ? findHeader(first.slice(0, headerSearchDepth), options.isKnownName)
        : rowOnLine(first, options.headerLine);
    this.headerLine = lineOfRow(first, this.#headerIndex);
    this.titleLines = first.slice(0, this.#headerIndex).map((row) => row.join(this.delimiter));
    const sample = first.slice(this.#headerIndex + 1).filter((row) => !isBlankRow(row));
    const headerRow = first[this.#headerIndex] ?? [];
    this.#headerText = headerRow.join("\u0000");
    this.#headerStart = headerRow[0] ?? "";
    const names = nameColumns(headerRow, sample, this.headerLine);
    this.header = names.header;
    this.firstOfName = names.firstOfName;
    this.#notices = names.notices;
    if (sample.length === 0) {
      throw new Problem(
        "file-empty",
        `A file must hold at least one row below its header; line ${this.headerLine} was taken as the header (${showValue(names.header.join(", "))}) and nothing follows. Check that the table was saved whole.`,
      );
    }
    const width = names.header.length;
    const short = sample.filter((row) => row.length < width).length;
    const mayBeShort = short >= 4 && short * 2 > sample.length;
    this.#rules = { header: names.header, delimiter: this.delimiter, mayBeShort };
    if (sniffed === undefined && width === 1) {
      this.#notices.push({
        code: "one-column",
        line: this.headerLine,
        column: names.header[0],
        text: "Only one column was found. If there should be more, say which character parts them: comma, semicolon, tab or pipe.",
        count: 1,
      });
    }
  }

  /** Line of the file, counted from 1, on which a row begins. */
  lineOf(row: number): number {
    return this.#lines[row] as number;
  }

  get notices(): readonly ImportNotice[] {
    const notices = [...this.#notices];
    if (this.#padded > 0) {
      notices.push({
        code: "rows-short",
        line: undefined,
        column: undefined,
        text: "Most rows leave out empty cells at their end; these were taken as empty.",
        count: this.#padded,
      });
    }
    if (this.#stray.count > 0) {
      notices.push({
        code: "quote-stray",
        line: this.#stray.line,
        column: undefined,
        text: "A quote mark inside a quoted cell is not doubled; it was taken as part of the text.",
        count: this.#stray.count,
      });
    }
    return notices;
  }

  /**
   * The first rows below the header, by which columns are judged; read anew at each call. They are not kept, since
   * rows that live on make V8 allocate all later ones where they are not freed until a full collection.
   */
  sample(): readonly (readonly string[])[] {
    return firstRows(this.#text, this.delimiter, this.#lineEnd)
      .slice(this.#headerIndex + 1)
      .filter((row) => this.#isKept(row));
  }

  /** All rows in order, a block at a time; to be called once. */
  *blocks(): Generator<RowBlock> {
    const place = { rawRow: 0, line: 1 };
    for (const piece of rowPieces(this.#text, this.delimiter, this.#lineEnd)) {
      yield this.#take(piece, place);
    }
  }

  /** Counts, straightens and checks the rows of a piece; blank ones are taken out of it in place. */
  #take(piece: RowPiece, place: { rawRow: number; line: number }): RowBlock {
    const width = this.header.length;
    const { rows, from, to, openQuotes, strayQuotes, mayHoldLineEnds } = piece;
    const mayHoldApostrophe = this.#text.slice(from, to).includes("'");
    const first = this.rowCount;
    let leave = 0;
    let kept = 0;
    for (let index = 0; index < rows.length; index += 1) {
      const row = rows[index] as string[];
      const line = place.line;
      place.line += 1;
      if (mayHoldLineEnds) place.line += lineEndsWithin(row);
      place.rawRow += 1;
      if (place.rawRow <= this.#headerIndex + 1) {
        leave = index + 1;
        continue;
      }
      if (!this.#isKept(row)) {
        this.skipped += 1;
        continue;
      }
      const at = first + kept;
      const cellCount = row.length;
      straightenRow(row, width, mayHoldApostrophe);
      this.#lines[at] = line;
      const hasOpenQuote = openQuotes.has(index);
      if (hasOpenQuote || isSuspect(row, cellCount, width)) {
        const faults = rowFaults(row, cellCount, line, hasOpenQuote, this.#rules);
        if (faults.length > 0) this.faults.set(at, faults);
        else if (cellCount < width) this.#padded += 1;
      }
      if (strayQuotes.has(index)) {
        this.#stray = { count: this.#stray.count + 1, line: this.#stray.line || line };
      }
      rows[kept] = row;
      kept += 1;
    }
    rows.length = kept;
    this.rowCount = first + kept;
    const isOnItsOwn = openQuotes.size + strayQuotes.size === 0;
    this.#marks.push({ from, to, firstRow: first, leave, kept: isOnItsOwn ? undefined : rows });
    return { rows, first };
  }

  /** Whether a row below the header is one of the table: not blank, not the header over again. */
  #isKept(row: readonly string[]): boolean {
    if (isBlankRow(row)) return false;
    return row[0] !== this.#headerStart || row.join("\u0000") !== this.#headerText;
  }

  /** The cells of one row, read from the text again; cheap for rows asked for in order. */
  row(index: number): readonly string[] {
    let mark = this.#again?.mark;
    const last = mark && mark.firstRow + (this.#again?.rows.length ?? 0);
    if (mark === undefined || last === undefined || index < mark.firstRow || index >= last) {
      mark = this.#marks.findLast(({ firstRow }) => firstRow <= index);
      if (mark === undefined) return [];
      this.#again = { mark, rows: mark.kept ?? this.#parseAgain(mark) };
    }
    return this.#again?.rows[index - mark.firstRow] ?? [];
  }

  #parseAgain({ from, to, leave }: PieceMark): readonly (readonly string[])[] {
    const rows = parsePiece(this.#text, from, to, this.delimiter, this.#lineEnd) ?? [];
    const kept = rows.slice(leave).filter((row) => this.#isKept(row));
    for (const row of kept) straightenRow(row, this.header.length);
    return kept;
  }
}

/** Rows looked at before the table is described. */
const sampleSize = 2500;

function firstRows(text: string, delimiter: string, lineEnd: LineEnd): string[][] {
  const rows: string[][] = [];
  for (const piece of rowPieces(text, delimiter, lineEnd)) {
    for (const row of piece.rows) rows.push(row);
    if (rows.length >= sampleSize) break;
  }
  return rows;
}

/**
 * Opens a file as a table: text decoded, delimiter and header found. Throws `file-empty` (also for a header
 * without rows) and `file-binary`; everything else is a notice or the fault of one row.
 */
export const openTable = (input: Uint8Array | string, options: ReadOptions = {}): Table =>
  new Table(input, options);

/** A table gone through to its end, with all its rows at hand; for small files. */
export function readTable(
  input: Uint8Array | string,
  options: ReadOptions = {},
): { readonly table: Table; readonly rows: readonly (readonly string[])[] } {
  const table = openTable(input, options);
  const rows: (readonly string[])[] = [];
  for (const block of table.blocks()) for (const row of block.rows) rows.push(row);
  return { table, rows };
}

const anyLineEnd = /\r\n|\n|\r/g;

function lineEndsWithin(row: readonly string[]): number {
  let count = 0;
  for (const cell of row) {
    // Short cells are the rule, and two searches of one character the cheapest look at them.
    if (cell !== "" && (cell.includes("\n") || cell.includes("\r"))) {
      count += cell.match(anyLineEnd)?.length ?? 0;
    }
  }
  return count;
}

function lineOfRow(rows: readonly (readonly string[])[], index: number): number {
  let line = 1;
  for (const row of rows.slice(0, index)) line += 1 + lineEndsWithin(row);
  return line;
}

/** The row that begins on a line, or the last one before it. */
function rowOnLine(rows: readonly (readonly string[])[], wanted: number): number {
  let line = 1;
  for (let index = 0; index < rows.length; index += 1) {
    const next = line + 1 + lineEndsWithin(rows[index] ?? []);
    if (next > wanted) return index;
    line = next;
  }
  return Math.max(0, rows.length - 1);
}
