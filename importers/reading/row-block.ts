import { restoreCell } from "../neutral-cell.ts";
import type { CellScanner } from "./cell-scanner.ts";

/**
 * Rows `first`, `first` + 1, ... of a table, `rowCount` of them: not blank, as wide as the header. To be used before the
 * next block is asked for: its places are used again.
 */
export interface RowBlock {
  readonly first: number;
  readonly rowCount: number;
  /** Where the cells stand in the text, if no string was made of them yet. */
  readonly places: CellScanner | undefined;
  /** The text of a cell, without the apostrophe that protects it. */
  cell(row: number, column: number): string;
  /** The cells of a row, to be kept. */
  row(row: number): readonly string[];
}

const apostrophe = 39;

/** Rows found by the scanner. */
export class ScannedBlock implements RowBlock {
  readonly first: number;
  readonly rowCount: number;
  readonly places: CellScanner;

  constructor(first: number, rowCount: number, places: CellScanner) {
    this.first = first;
    this.rowCount = rowCount;
    this.places = places;
  }

  cell(row: number, column: number): string {
    const cell = this.places.cell(column * this.places.stride + row);
    return cell.charCodeAt(0) === apostrophe ? restoreCell(cell) : cell;
  }

  row(row: number): readonly string[] {
    return Array.from({ length: this.places.width }, (_, column) => this.cell(row, column));
  }
}

/** Rows that a full parser has read and `straightenRow` has made as wide as the header, or found too long. */
export class ParsedBlock implements RowBlock {
  readonly first: number;
  readonly rowCount: number;
  readonly places = undefined;
  readonly #rows: readonly (readonly string[])[];
  readonly #width: number;

  constructor(first: number, rows: readonly (readonly string[])[], width: number) {
    this.first = first;
    this.#width = width;
    this.rowCount = rows.length;
    this.#rows = rows;
  }

  cell(row: number, column: number): string {
    return this.#rows[row]?.[column] ?? "";
  }

  row(row: number): readonly string[] {
    const cells = this.#rows[row] ?? [];
    return cells.length > this.#width ? cells.slice(0, this.#width) : cells;
  }
}
