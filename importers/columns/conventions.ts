import { type DateOrder, readDateOrder } from "../cells/parse-date.ts";
import {
  conventionShown,
  type NumberConvention,
  readNumberConvention,
} from "../cells/parse-number.ts";
import type { Table } from "../reading/read-table.ts";
import type { Target } from "../targets.ts";
import { unitsRow } from "./units-row.ts";

export interface ColumnOptions {
  /** Currency of prices that name none, ISO 4217. */
  readonly currency?: string | undefined;
  /** Order of day and month, if the reader says so. */
  readonly dateOrder?: "dmy" | "mdy" | undefined;
  /** Decimal mark, if the reader says so. */
  readonly decimal?: "." | "," | undefined;
}

type Sample = readonly (readonly string[])[];

function* sampleOf(sample: Sample, column: number): Generator<string> {
  const seen = new Set<string>();
  for (const row of sample) {
    const cell = row[column] ?? "";
    if (cell === "" || seen.has(cell)) continue;
    seen.add(cell);
    yield cell;
  }
}

/** The decimal mark per column; a column that does not tell follows the others, then the delimiter. */
function numberConventions(
  sample: Sample,
  delimiter: string,
  columns: readonly number[],
  decimal: "." | "," | undefined,
): (column: number) => NumberConvention {
  if (decimal !== undefined) return () => (decimal === "." ? "point" : "comma");
  const cells = columns.map((c) => [c, [...sampleOf(sample, c)]] as const);
  const own = new Map(cells.map(([c, texts]) => [c, readNumberConvention(texts)] as const));
  const shown = cells.flatMap(([, texts]) => texts.map(conventionShown));
  const points = shown.includes("point");
  const commas = shown.includes("comma");
  const whole: NumberConvention =
    points && !commas
      ? "point"
      : commas && !points
        ? "comma"
        : !points && delimiter === ","
          ? "point-presumed"
          : "unknown";
  return (column) => {
    const convention = own.get(column) ?? "unknown";
    return convention === "unknown" ? whole : convention;
  };
}

/** The order of day and month per column; one that does not tell follows the others, if they agree. */
function dateOrders(
  sample: Sample,
  columns: readonly number[],
  given: "dmy" | "mdy" | undefined,
): (column: number) => DateOrder {
  if (given !== undefined) return () => given;
  const own = new Map(columns.map((c) => [c, readDateOrder(sampleOf(sample, c))] as const));
  const known = new Set([...own.values()].filter((order) => order !== "unknown"));
  const whole = known.size === 1 ? ([...known][0] ?? "unknown") : "unknown";
  return (column) => {
    const order = own.get(column) ?? "unknown";
    return order === "unknown" ? whole : order;
  };
}

/** How a table writes what can be written in several ways. */
export interface Conventions {
  readonly numberOf: (column: number) => NumberConvention;
  readonly orderOf: (column: number) => DateOrder;
  readonly units: ReadonlyMap<number, string> | undefined;
  readonly typicalWidth: number;
}

/** How numbers and dates of each column are written; looks at the sample and lets go of it. */
export function conventionsOf(
  table: Table,
  matched: readonly { column: number; target: Target }[],
  { decimal, dateOrder }: ColumnOptions,
): Conventions {
  const sample = table.sample();
  const columnsOf = (...kinds: readonly Target["kind"][]): number[] =>
    matched.flatMap(({ column, target }) => (kinds.includes(target.kind) ? [column] : []));
  const numeric = columnsOf("integer", "real", "money", "interval");
  return {
    numberOf: numberConventions(sample, table.delimiter, numeric, decimal),
    orderOf: dateOrders(sample, columnsOf("date"), dateOrder),
    units: unitsRow(sample[0], matched),
    typicalWidth: typicalWidth(sample),
  };
}

/** Rows looked at to learn how many cells a row usually fills. */
const widthSample = 400;

/** How many cells the middle row of the first few fills, headings and other rows of one cell left aside. */
function typicalWidth(sample: Sample): number {
  const widths = sample
    .slice(0, widthSample)
    .map((row) => row.reduce((count, cell) => count + (cell.trim() === "" ? 0 : 1), 0))
    .filter((width) => width > 1)
    .sort((a, b) => a - b);
  return widths[Math.floor(widths.length / 2)] ?? 0;
}
