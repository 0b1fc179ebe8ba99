import { Problem } from "../../api/errors/problem.ts";
import { type ImportNotice, type RowFault, showValue } from "../row-fault.ts";
import { beyondScanning, CellScanner, cutOff } from "./cell-scanner.ts";
import {
  isBlankRow,
  isSuspect,
  longestCell,
  type RowRules,
  rowFaults,
  straightenRow,
} from "./check-row.ts";
import { decodeText, type TextEncoding } from "./decode-text.ts";
import { findHeader, headerSearchDepth } from "./find-header.ts";
import { type LineEnd, settleLineEnds } from "./line-ends.ts";
import { nameColumns } from "./name-columns.ts";
import { ParsedBlock, type RowBlock, ScannedBlock } from "./row-block.ts";
import { parsePiece, pieceAt, type RowPiece, rowPieces } from "./row-pieces.ts";
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

interface PieceMark {
  readonly from: number;
  readonly to: number;
  readonly firstRow: number;
  /** Rows at the start of the piece that are titles or header. */
  readonly leave: number;
  /** Rows kept because the piece cannot be parsed again on its own. */
  readonly kept: readonly string[][] | undefined;
}

/** How far the rows were gone through: rows as the file has them, and lines. */
interface Place {
  rawRow: number;
  line: number;
}

/** Characters per block: small enough for its places to stay in the cache while column after column is read. */
const blockSize = 1 << 15;
/** Characters after which a quoted cell is left to the parser, which tells an open quote mark from a long cell. */
const longestReach = 1 << 20;

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
  readonly #inPlace: boolean;
  readonly #headerIndex: number;
  readonly #rules: RowRules;
  readonly #headerText: string;
  readonly #headerStart: string;
  readonly #lines: Uint32Array;
  readonly #marks: PieceMark[] = [];
  #again: { mark: PieceMark; rows: readonly (readonly string[])[] } | undefined;
  #sample: readonly (readonly string[])[] | undefined;
  #isUntouched = true;
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
    this.#inPlace = options.inPlace ?? true;
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
    this.#sample = sample.filter((row) => this.#isKept(row));
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
   * The first rows below the header, by which columns are judged. They are kept until all rows are gone through, and
   * read anew after that: rows that live on make V8 allocate all later ones where they are not freed until a full
   * collection.
   */
  sample(): readonly (readonly string[])[] {
    if (this.#sample !== undefined) return this.#sample;
    const sample = firstRows(this.#text, this.delimiter, this.#lineEnd)
      .slice(this.#headerIndex + 1)
      .filter((row) => this.#isKept(row));
    if (this.#isUntouched) this.#sample = sample;
    return sample;
  }

  /**
   * All rows in order, a block at a time; to be called once. Plain rows are scanned in place; where the scanner is at a
   * loss, a piece of the text is parsed.
   */
  *blocks(): Generator<RowBlock> {
    this.#isUntouched = false;
    this.#sample = undefined;
    const place: Place = { rawRow: 0, line: 1 };
    const { length } = this.#text;
    const scanner = new CellScanner(this.#text, this.delimiter, this.#lineEnd, this.header.length);
    for (let from = 0; from < length; ) {
      if (this.#inPlace) {
        const { block, to, isPlain } = this.#scan(scanner, from, place);
        if (to > from) yield block;
        from = to;
        if (isPlain) continue;
      }
      const piece = pieceAt(this.#text, from, this.delimiter, this.#lineEnd);
      yield this.#take(piece, place);
      from = piece.to;
    }
  }

  /** Scans rows from `from` on for one block, as far as they are plain. */
  #scan(
    scanner: CellScanner,
    from: number,
    place: Place,
  ): { block: ScannedBlock; to: number; isPlain: boolean } {
    const { width } = scanner;
    let end = Math.min(this.#text.length, from + blockSize);
    scanner.load(from, end);
    const first = this.rowCount;
    let leave = 0;
    let kept = 0;
    let rawRows = 0;
    let at = from;
    let cellCount = 0;
    while (at < end && kept < scanner.mostRows) {
      cellCount = scanner.scan(at, kept);
      if (cellCount === beyondScanning) break;
      if (cellCount === cutOff) {
        if (at > from) break;
        // A quoted cell that goes on and on may yet end; but not for ever.
        if (end - from > longestReach) {
          cellCount = beyondScanning;
          break;
        }
        end = Math.min(this.#text.length, from + (end - from) * 4);
        scanner.load(from, end);
        continue;
      }
      const line = place.line;
      place.line += 1 + scanner.lineEndsWithin;
      place.rawRow += 1;
      rawRows += 1;
      at = scanner.next;
      if (place.rawRow <= this.#headerIndex + 1) leave = rawRows;
      else if (!this.#isScannedKept(scanner, kept, cellCount)) this.skipped += 1;
      else {
        const row = first + kept;
        this.#lines[row] = line;
        if (cellCount !== width || holdsLongCell(scanner, kept)) {
          const cells = scannedRow(scanner, kept, cellCount);
          straightenRow(cells, width);
          this.#check(row, cells, cellCount, line, false);
        }
        kept += 1;
      }
    }
    this.rowCount = first + kept;
    if (at > from) this.#marks.push({ from, to: at, firstRow: first, leave, kept: undefined });
    const block = new ScannedBlock(first, kept, scanner);
    return { block, to: at, isPlain: cellCount !== beyondScanning };
  }

  /** As `#isKept`, without making strings of the cells where one look is enough. */
  #isScannedKept(scanner: CellScanner, row: number, cellCount: number): boolean {
    const { chars, starts, ends, width, stride } = scanner;
    const end = ends[row] as number;
    const isHeaderLike =
      end < 0 ||
      (end - (starts[row] as number) === this.#headerStart.length &&
        scanner.cell(row) === this.#headerStart);
    for (let at = row; !isHeaderLike && at < width * stride; at += stride) {
      const start = starts[at] as number;
      const initial = chars[start] as number;
      if (ends[at] !== start && initial > 32 && initial < 127) return true;
    }
    return this.#isKept(scannedRow(scanner, row, cellCount));
  }

  /** Puts down what is wrong with a straightened row. */
  #check(
    row: number,
    cells: readonly string[],
    cellCount: number,
    line: number,
    hasOpenQuote: boolean,
  ): void {
    const faults = rowFaults(cells, cellCount, line, hasOpenQuote, this.#rules);
    if (faults.length > 0) this.faults.set(row, faults);
    else if (cellCount < this.header.length) this.#padded += 1;
  }

  /** Counts, straightens and checks the rows of a piece; blank ones are taken out of it in place. */
  #take(piece: RowPiece, place: Place): RowBlock {
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
        this.#check(at, row, cellCount, line, hasOpenQuote);
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
    return new ParsedBlock(first, rows, width);
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
  for (const block of table.blocks()) {
    for (let row = 0; row < block.rowCount; row += 1) rows.push(block.row(row));
  }
  return { table, rows };
}

/** The cells of the row scanned last, as the file has them. */
function scannedRow(scanner: CellScanner, row: number, cellCount: number): string[] {
  const { width, stride, surplus } = scanner;
  const cells: string[] = [];
  for (let column = 0; column < Math.min(width, cellCount); column += 1) {
    cells.push(scanner.cell(column * stride + row));
  }
  for (let at = 0; at < surplus.length; at += 2) {
    cells.push(scanner.between(surplus[at] as number, surplus[at + 1] as number));
  }
  return cells;
}

function holdsLongCell({ width, stride, starts, ends }: CellScanner, row: number): boolean {
  const after = width * stride;
  // Most rows as a whole are shorter than the longest cell.
  const last = ends[row + after - stride] as number;
  if (last >= 0 && last - (starts[row] as number) <= longestCell) return false;
  for (let at = row; at < after; at += stride) {
    const end = ends[at] as number;
    if ((end < 0 ? ~end : end) - (starts[at] as number) > longestCell) return true;
  }
  return false;
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
