import { isProblemColumn, problemColumns } from "./matching/problem-columns.ts";
import type { Proposal } from "./propose/proposal.ts";
import type { RowFault } from "./row-fault.ts";
import { writeCsv } from "./write-csv.ts";

/**
 * The rejected rows of a file in its own columns, each with its problems beside it; undefined if none was rejected.
 * Corrected, the text can be imported as it is: the added columns are passed over. Cells a row had beyond the header
 * come last, under names of their own.
 */
export function rejectedCsv(proposal: Proposal): string | undefined {
  const { table, rejectedRows, faults } = proposal;
  if (rejectedRows.length === 0) return undefined;
  const kept = table.header.flatMap((header, column) => (isProblemColumn(header) ? [] : [column]));
  const rejected = rejectedRows.map((row) => table.row(row));
  let surplus = 0;
  for (const cells of rejected) surplus = Math.max(surplus, cells.length - table.header.length);
  const byLine = new Map<number, RowFault[]>();
  for (const fault of faults) {
    const list = byLine.get(fault.line);
    if (list) list.push(fault);
    else byLine.set(fault.line, [fault]);
  }
  const header = [
    ...kept.map((column) => originalName(proposal, column)),
    ...problemColumns,
    ...Array.from({ length: surplus }, (_, at) => `Surplus ${at + 1}`),
  ];
  const rows = rejectedRows.map((row, at) => {
    const cells = rejected[at] ?? [];
    const found = byLine.get(table.lineOf(row)) ?? [];
    const all = (part: (fault: RowFault) => string): string => found.map(part).join(" | ");
    return [
      ...kept.map((column) => cells[column] ?? ""),
      all(({ rule }) => rule),
      all(({ column }) => column ?? "(row)"),
      all(({ value }) => value),
      all(({ remedy }) => remedy),
      String(table.lineOf(row)),
      ...Array.from({ length: surplus }, (_, more) => cells[table.header.length + more] ?? ""),
    ];
  });
  return writeCsv(header, rows, { delimiter: table.delimiter });
}

/** A column's name as the file has it: without the number given to tell it from another of its name. */
function originalName({ table }: Proposal, column: number): string {
  const first = table.firstOfName[column] ?? column;
  return table.header[first] ?? "";
}
