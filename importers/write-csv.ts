import { neutraliseCell } from "./neutral-cell.ts";

export interface WriteCsvOptions {
  readonly delimiter?: "," | ";" | "\t" | "|";
  /** Whether the text starts with a byte order mark, by which spreadsheets know UTF-8; default true. */
  readonly byteOrderMark?: boolean;
}

/**
 * A table as CSV (RFC 4180, lines ended by CR LF), every cell made safe for spreadsheets by `neutraliseCell`.
 * Reading it back with `readTable` gives the same cells. A row of one empty cell is written as "" so that it is no blank line.
 */
export function writeCsv(
  headers: readonly string[],
  rows: Iterable<readonly string[]>,
  options: WriteCsvOptions = {},
): string {
  const { delimiter = ",", byteOrderMark = true } = options;
  const needsQuotes = new RegExp(
    `["\\r\\n${delimiter === "|" ? "\\|" : delimiter}]|^[\\s\\uFEFF]|\\s$`,
  );
  const write = (cell: string): string => {
    const safe = neutraliseCell(cell);
    return needsQuotes.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
  };
  const line = (cells: readonly string[]): string =>
    cells.length === 1 && cells[0] === "" ? '""' : cells.map(write).join(delimiter);
  const lines = [line(headers)];
  for (const row of rows) lines.push(line(row));
  return `${byteOrderMark ? "\uFEFF" : ""}${lines.join("\r\n")}\r\n`;
}
