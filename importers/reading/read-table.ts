import type { ImportNotice, RowFault } from "../row-fault.ts";
import { beyondScanning, CellScanner, cutOff } from "./cell-scanner.ts";
import { isSuspect, rowFaults, straightenRow } from "./check-row.ts";
import type { TextEncoding } from "./decode-text.ts";
import { lineEndsWithin } from "./lines-of-rows.ts";
import { ParsedBlock, type RowBlock, ScannedBlock } from "./row-block.ts";
import { pieceAt, type RowPiece } from "./row-pieces.ts";
import { RowsAgain } from "./rows-again.ts";
import { holdsLongCell, scannedRow } from "./scanned-row.ts";
import type { Delimiter } from "./sniff-delimiter.ts";
import { firstRows, type ReadOptions, readHead, type TableHead } from "./table-head.ts";

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
  readonly #head: TableHead;
  readonly #inPlace: boolean;
  readonly #lines: Uint32Array;
  readonly #again: RowsAgain;
  #sample: readonly (readonly string[])[] | undefined;
  #isUntouched = true;
  #padded = 0;
  #stray = { count: 0, line: 0 };

  constructor(input: Uint8Array | string, options: ReadOptions) {
    const { head, sample } = readHead(input, options);
    this.encoding = head.encoding;
    this.delimiter = head.delimiter;
    this.titleLines = head.titleLines;
    this.header = head.header;
    this.firstOfName = head.firstOfName;
    this.headerLine = head.headerLine;
    this.rowLimit = head.lineCount;
    this.#sample = sample;
    this.#head = head;
    this.#again = new RowsAgain(head);
    this.#inPlace = options.inPlace ?? true;
    this.#lines = new Uint32Array(head.lineCount + 1);
  }

  /** Line of the file, counted from 1, on which a row begins. */
  lineOf(row: number): number {
    return this.#lines[row] as number;
  }

  get notices(): readonly ImportNotice[] {
    const notices = [...this.#head.notices];
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
    const { text, delimiter, lineEnd, headerIndex, keptRows } = this.#head;
    const sample = firstRows(text, delimiter, lineEnd)
      .slice(headerIndex + 1)
      .filter((row) => keptRows.has(row));
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
    const { text, delimiter, lineEnd, header } = this.#head;
    const { length } = text;
    const scanner = new CellScanner(text, delimiter, lineEnd, header.length);
    for (let from = 0; from < length; ) {
      if (this.#inPlace) {
        const { block, to, isPlain } = this.#scan(scanner, from, place);
        if (to > from) yield block;
        from = to;
        if (isPlain) continue;
      }
      const piece = pieceAt(text, from, delimiter, lineEnd);
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
    const { headerIndex, keptRows } = this.#head;
    const { length } = this.#head.text;
    let end = Math.min(length, from + blockSize);
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
        end = Math.min(length, from + (end - from) * 4);
        scanner.load(from, end);
        continue;
      }
      const line = place.line;
      place.line += 1 + scanner.lineEndsWithin;
      place.rawRow += 1;
      rawRows += 1;
      at = scanner.next;
      if (place.rawRow <= headerIndex + 1) leave = rawRows;
      else if (!keptRows.hasScanned(scanner, kept, cellCount)) this.skipped += 1;
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
    if (at > from) this.#again.mark({ from, to: at, firstRow: first, leave, kept: undefined });
    const block = new ScannedBlock(first, kept, scanner);
    return { block, to: at, isPlain: cellCount !== beyondScanning };
  }

  /** Puts down what is wrong with a straightened row. */
  #check(
    row: number,
    cells: readonly string[],
    cellCount: number,
    line: number,
    hasOpenQuote: boolean,
  ): void {
    const faults = rowFaults(cells, cellCount, line, hasOpenQuote, this.#head.rules);
    if (faults.length > 0) this.faults.set(row, faults);
    else if (cellCount < this.header.length) this.#padded += 1;
  }

  /** Counts, straightens and checks the rows of a piece; blank ones are taken out of it in place. */
  #take(piece: RowPiece, place: Place): RowBlock {
    const width = this.header.length;
    const { text, headerIndex, keptRows } = this.#head;
    const { rows, from, to, openQuotes, strayQuotes, mayHoldLineEnds } = piece;
    const mayHoldApostrophe = text.slice(from, to).includes("'");
    const first = this.rowCount;
    let leave = 0;
    let kept = 0;
    for (let index = 0; index < rows.length; index += 1) {
      const row = rows[index] as string[];
      const line = place.line;
      place.line += 1;
      if (mayHoldLineEnds) place.line += lineEndsWithin(row);
      place.rawRow += 1;
      if (place.rawRow <= headerIndex + 1) {
        leave = index + 1;
        continue;
      }
      if (!keptRows.has(row)) {
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
    this.#again.mark({ from, to, firstRow: first, leave, kept: isOnItsOwn ? undefined : rows });
    return new ParsedBlock(first, rows, width);
  }

  /** The cells of one row, read from the text again; cheap for rows asked for in order. */
  row(index: number): readonly string[] {
    return this.#again.row(index);
  }
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
