import type { CellScanner } from "./cell-scanner.ts";
import { longestCell } from "./check-row.ts";

/** The cells of the row scanned last, as the file has them. */
export function scannedRow(scanner: CellScanner, row: number, cellCount: number): string[] {
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

/** Whether a cell of a scanned row is longer than any may be. */
export function holdsLongCell({ width, stride, starts, ends }: CellScanner, row: number): boolean {
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
