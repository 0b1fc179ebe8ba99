import { restoreCell } from "../neutral-cell.ts";
import { type RowFault, showValue } from "../row-fault.ts";
import { type Delimiter, delimiterNames } from "./sniff-delimiter.ts";

/** Longest cell taken in, in characters: the limit spreadsheets themselves have for a cell. */
export const longestCell = 32_767;

const apostrophe = 39;

/** True for a row without text. */
export function isBlankRow(row: readonly string[]): boolean {
  for (const cell of row) if (cell !== "" && cell.trim() !== "") return false;
  return true;
}

/** What rows are held to, the same for a whole file. */
export interface RowRules {
  readonly header: readonly string[];
  readonly delimiter: Delimiter;
  /** Most rows leave out empty cells at their end, so a short row is no fault. */
  readonly mayBeShort: boolean;
}

/** Makes a row as wide as the header where that loses nothing, and takes off protecting apostrophes. */
export function straightenRow(row: string[], width: number, mayHoldApostrophe = true): void {
  for (let column = mayHoldApostrophe ? 0 : row.length; column < row.length; column += 1) {
    const cell = row[column] as string;
    if (cell.charCodeAt(0) === apostrophe) row[column] = restoreCell(cell);
  }
  if (row.length === width) return;
  while (row.length > width && (row.at(-1) ?? "").trim() === "") row.pop();
  while (row.length < width) row.push("");
}

/**
 * Faults of a row that has been straightened: too long or short, a cell too long, a quote mark left open.
 * @param cellCount how many cells it had before
 */
export function rowFaults(
  row: readonly string[],
  cellCount: number,
  line: number,
  hasOpenQuote: boolean,
  { header, delimiter, mayBeShort }: RowRules,
): RowFault[] {
  const width = header.length;
  const faults: RowFault[] = [];
  row.forEach((cell, column) => {
    if (cell.length <= longestCell) return;
    faults.push({
      code: "cell-too-long",
      line,
      column: header[column],
      rule: `A cell may hold at most ${longestCell} characters`,
      value: showValue(cell),
      remedy: "Shorten the text, or check the row for a quote mark that is never closed.",
    });
  });
  if (hasOpenQuote) {
    faults.push({
      code: "quote-open",
      line,
      column: undefined,
      rule: "A quote mark that opens a cell must be closed on the same row",
      value: showValue(row.join(delimiter)),
      remedy: 'Close the quote mark, or write a quote mark within a cell as "" inside quotes.',
    });
  }
  if (row.length > width) {
    faults.push({
      code: "row-long",
      line,
      column: undefined,
      rule: `A row must have as many cells as the header, ${width}`,
      value: `${row.length} cells: ${showValue(row.join(delimiter))}`,
      remedy: `Put cells that hold a ${delimiterNames[delimiter]} in quote marks, or name the extra columns.`,
    });
  } else if (cellCount < width && !mayBeShort && !hasOpenQuote) {
    faults.push({
      code: "row-short",
      line,
      column: undefined,
      rule: `A row must have as many cells as the header, ${width}`,
      value: `${cellCount} cells: ${showValue(row.slice(0, cellCount).join(delimiter))}`,
      remedy: `Add the missing cells (an empty cell still needs its ${delimiterNames[delimiter]}), or rejoin a row broken over two lines.`,
    });
  }
  return faults;
}

/** Quick look whether `rowFaults` could find anything. */
export function isSuspect(row: readonly string[], cellCount: number, width: number): boolean {
  if (cellCount !== width || row.length !== width) return true;
  for (const cell of row) if (cell.length > longestCell) return true;
  return false;
}
