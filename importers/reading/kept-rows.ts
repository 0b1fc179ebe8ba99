import type { CellScanner } from "./cell-scanner.ts";
import { isBlankRow } from "./check-row.ts";
import { scannedRow } from "./scanned-row.ts";

/** Tells which rows below the header are rows of the table: not blank, not the header over again. */
export class KeptRows {
  readonly #headerText: string;
  readonly #headerStart: string;

  constructor(headerRow: readonly string[]) {
    this.#headerText = headerRow.join("\u0000");
    this.#headerStart = headerRow[0] ?? "";
  }

  has(row: readonly string[]): boolean {
    if (isBlankRow(row)) return false;
    return row[0] !== this.#headerStart || row.join("\u0000") !== this.#headerText;
  }

  /** As `has`, without making strings of the cells where one look is enough. */
  hasScanned(scanner: CellScanner, row: number, cellCount: number): boolean {
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
    return this.has(scannedRow(scanner, row, cellCount));
  }
}
