import type { ReactNode } from "react";
import type { Explanation } from "../why.tsx";

/** One column of a table: what it is called, what stands in its cells, and what a file or a sort takes from them. */
export interface Column<Row> {
  readonly id: string;
  /** The heading, with the unit where there is one. */
  readonly name: string;
  /** `number` stands right; `wordy` may break over lines; `name` heads its row. */
  readonly kind?: "number" | "wordy" | "name";
  readonly cell: (row: Row, index: number) => ReactNode;
  /** What is sorted by and written to files; without it the cell's own text is, where it is plain. */
  readonly value?: (row: Row) => string | number | null;
  /** Share of the width in a long table, where all rows are equally high; 1 when absent. */
  readonly share?: number;
  readonly className?: string;
  /** Why the cell's number is what it is; the number then opens it. */
  readonly why?: (row: Row) => Explanation;
  /** Left out on paper, or on screens a hand wide (where opening the row shows it). */
  readonly leftOut?: "on paper" | "when narrow";
}

/** The plain value of a cell: a number, a text, or nothing. */
export function plainValue<Row>(
  column: Column<Row>,
  row: Row,
  index: number,
): string | number | null {
  if (column.value !== undefined) return column.value(row);
  const cell = column.cell(row, index);
  return typeof cell === "string" || typeof cell === "number" ? cell : null;
}

/** Order of two plain values: numbers by size, texts as people sort them, nothing last. */
export function compareValues(a: string | number | null, b: string | number | null): number {
  if (a === null || b === null) return a === b ? 0 : a === null ? 1 : -1;
  if (typeof a === "number" && typeof b === "number") return a - b;
  return collator.compare(String(a), String(b));
}

const collator = new Intl.Collator("en", { numeric: true });

/** The id of what a row opens to; an id holds no spaces. */
export const openIdOf = (key: string): string => `open-${key.replaceAll(/[^\w:.-]+/g, "-")}`;

/** Classes of a column's cells and heading. */
export const cellClass = <Row>(column: Column<Row>): string =>
  [
    column.kind === "number" ? "number" : column.kind === "wordy" ? "wordy" : "",
    column.leftOut === "on paper" ? "off-paper" : column.leftOut === "when narrow" ? "minor" : "",
    column.className ?? "",
  ]
    .filter((word) => word !== "")
    .join(" ");
