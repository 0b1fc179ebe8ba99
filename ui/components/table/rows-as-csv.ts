import { type Column, plainValue } from "./column.ts";

/** A leading sign that a spreadsheet would take for a formula is kept as text by a quote mark before it. */
const guarded = (text: string) =>
  /^[=+@\t\r]/.test(text) || /^-\D/.test(text) ? `'${text}` : text;

const field = (value: string | number | null): string => {
  if (value === null) return "";
  const text = typeof value === "number" ? String(value) : guarded(value);
  return /[",\n\r]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
};

/** Rows as comma-separated text (RFC 4180) with a heading line; numbers with a point, nothing as an empty field. */
export function rowsAsCsv<Row>(columns: readonly Column<Row>[], rows: readonly Row[]): string {
  const lines = [
    columns.map((column) => field(column.name)),
    ...rows.map((row, index) => columns.map((column) => field(plainValue(column, row, index)))),
  ];
  return `${lines.map((line) => line.join(",")).join("\r\n")}\r\n`;
}
