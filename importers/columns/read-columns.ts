import { type Cell, emptyCell, valueCell } from "../cells/cell.ts";
import { currencyOf } from "../cells/currencies.ts";
import { type DateOrder, readDateOrder } from "../cells/parse-date.ts";
import { parseDuration } from "../cells/parse-duration.ts";
import { dollarPresumed } from "../cells/parse-money.ts";
import {
  conventionShown,
  type NumberConvention,
  readNumberConvention,
} from "../cells/parse-number.ts";
import { writtenUnit } from "../cells/units.ts";
import { headerForms } from "../header-likeness.ts";
import type { Matching } from "../match-columns.ts";
import type { Table } from "../reading/read-table.ts";
import type { RowBlock } from "../reading/row-block.ts";
import type { ImportNotice, RowFault } from "../row-fault.ts";
import { type Target, targets } from "../targets.ts";
import { cellReader } from "./cell-reader.ts";
import {
  type BlockReader,
  type CellFault,
  type CodedColumn,
  ColumnReader,
  type NoteCount,
} from "./coded-column.ts";
import { PriceReader } from "./price-columns.ts";
import { unitsRow } from "./units-row.ts";

export interface ColumnOptions {
  /** Currency of prices that name none, ISO 4217. */
  readonly currency?: string | undefined;
  /** Order of day and month, if the reader says so. */
  readonly dateOrder?: "dmy" | "mdy" | undefined;
  /** Decimal mark, if the reader says so. */
  readonly decimal?: "." | "," | undefined;
}

export interface ReadColumns {
  /** Read columns by target id; priceMinor brings currency with it, interval hours and months. */
  readonly byTarget: ReadonlyMap<string, CodedColumn>;
  readonly headerOf: ReadonlyMap<string, string>;
  /** Columns that are kept with their rows, not interpreted. */
  readonly extras: readonly { readonly header: string; readonly column: CodedColumn }[];
  readonly faults: Map<number, RowFault[]>;
  readonly notices: ImportNotice[];
  /** Whether the first row holds the units of the columns. */
  readonly hasUnitsRow: boolean;
  /** How many cells a row usually fills. */
  readonly typicalWidth: number;
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
interface Conventions {
  readonly numberOf: (column: number) => NumberConvention;
  readonly orderOf: (column: number) => DateOrder;
  readonly units: ReadonlyMap<number, string> | undefined;
  readonly typicalWidth: number;
}

/** How numbers and dates of each column are written; looks at the sample and lets go of it. */
function conventionsOf(
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

/** The unit a header names for a field: "Weight (g)", "Gewicht in g", "Weight g"; undefined if none. */
export function headerUnit(header: string, target: Target): string | undefined {
  if (target.unit === undefined || target.unit === "1") return undefined;
  const forms = headerForms(header);
  const places = [forms.aside, target.unit === "piece" ? "" : forms.last];
  return places.find(
    (place) => place !== "" && writtenUnit(target.unit ?? "1", place) !== undefined,
  );
}

/** The currency a header names: "Price (EUR)", "Preis €". */
export function headerCurrency(
  header: string,
  given: string | undefined,
): { readonly currency: string; readonly isPresumed: boolean } | undefined {
  const forms = headerForms(header);
  // Elsewhere in the name only capitals count: "all", "top" and "try" are words as well as currencies.
  const others = header.split(/[\s()[\]/,]+/).filter((word) => word === word.toUpperCase());
  for (const place of [forms.aside, forms.last, ...others]) {
    if (place === "") continue;
    const means = currencyOf(place);
    if (means.kind === "one") return { currency: means.currency, isPresumed: false };
    if (means.kind === "shared" && place.length <= 2) {
      if (given !== undefined && means.among.includes(given)) {
        return { currency: given, isPresumed: false };
      }
      if (place === "$") return { currency: "USD", isPresumed: true };
    }
  }
  return undefined;
}

/** All matched columns of a table read into codes and values, with the faults of their cells by row. */
export function* readColumns(
  table: Table,
  matching: Matching,
  options: ColumnOptions,
): Generator<{ done: number; total: number }, ReadColumns> {
  const matched = matching.columns.flatMap(({ column, header, target: id }) => {
    const target = id === undefined ? undefined : targets.get(id);
    return target === undefined ? [] : [{ column, header, target }];
  });
  const { numberOf, orderOf, units, typicalWidth } = conventionsOf(table, matched, options);

  const byTarget = new Map<string, CodedColumn>();
  const headerOf = new Map<string, string>();
  const notices: ImportNotice[] = [];
  const { rowLimit } = table;
  const readers: { header: string; reader: BlockReader & Findings }[] = [];
  const add = (
    id: string,
    header: string,
    reader: BlockReader & Findings,
    column: CodedColumn,
  ): void => {
    headerOf.set(id, header);
    byTarget.set(id, column);
    if (readers.at(-1)?.reader !== reader) readers.push({ header, reader });
  };
  for (const { column, header, target } of matched) {
    headerOf.set(target.id, header);
    if (target.kind === "money") {
      const below = units?.get(column);
      const inHeader = headerCurrency(
        below === undefined ? header : `(${below})`,
        options.currency,
      );
      if (inHeader?.isPresumed) {
        const { code, text } = dollarPresumed;
        notices.push({ code, line: table.headerLine, column: header, text, count: 1 });
      }
      const given = inHeader?.currency ?? options.currency;
      const currency = `${target.owner}.currency`;
      const currencyAt = matched.find((other) => other.target.id === currency)?.column;
      const prices = new PriceReader(column, currencyAt, rowLimit, {
        convention: numberOf(column),
        given,
      });
      add(target.id, header, prices, prices.price);
      byTarget.set(currency, prices.currency);
    } else if (target.kind === "interval") {
      for (const [property, part] of intervalParts) {
        if (matched.some((other) => other.target.id === property)) continue;
        const reader = intervalReader(column, rowLimit, part, numberOf(column));
        add(property, header, reader, reader);
      }
    } else if (target.property !== "currency") {
      const read = cellReader(target, {
        number: numberOf(column),
        dateOrder: orderOf(column),
        headerUnit: units?.get(column) ?? headerUnit(header, target),
      });
      const reader = new ColumnReader(column, rowLimit, read);
      add(target.id, header, reader, reader);
    }
  }
  const extras = matching.columns
    .filter(({ target, ignored }) => !ignored && (target === undefined || !byTarget.has(target)))
    .filter(({ target }) => target !== "ServiceTask.interval")
    .map(({ column, header }) => {
      const reader = new ColumnReader(column, rowLimit, readAsIs);
      readers.push({ header, reader });
      return { header, column: reader };
    });
  const repeats = new RepeatedNames(table, matched);
  let blocks = 0;
  for (const block of table.blocks()) {
    for (const { reader } of readers) reader.read(block);
    repeats.read(block);
    blocks += 1;
    if (blocks % 8 === 0) yield { done: block.first, total: rowLimit };
  }
  const faults = new Map<number, RowFault[]>();
  for (const { header, reader } of readers) {
    for (const fault of reader.faults) addFault(faults, table, header, fault);
    for (const { note, count, firstRow } of reader.notes.values()) {
      const line = table.lineOf(firstRow);
      notices.push({ code: note.code, line, column: header, text: note.text, count });
    }
  }
  for (const { header, fault } of repeats.found) addFault(faults, table, header, fault);
  return {
    byTarget,
    headerOf,
    extras,
    faults,
    notices,
    hasUnitsRow: units !== undefined,
    typicalWidth,
  };
}

/** Rows looked at to learn how many cells a row usually fills. */
const widthSample = 400;

/** How many cells the middle row of the first few fills. */
function typicalWidth(sample: Sample): number {
  const widths = sample
    .slice(0, widthSample)
    .map((row) => row.reduce((count, cell) => count + (cell.trim() === "" ? 0 : 1), 0))
    .sort((a, b) => a - b);
  return widths[Math.floor(widths.length / 2)] ?? 0;
}

interface Findings {
  readonly faults: readonly CellFault[];
  readonly notes: ReadonlyMap<string, NoteCount>;
}

const intervalParts = [
  ["ServiceTask.intervalHours", "hours"],
  ["ServiceTask.intervalMonths", "months"],
] as const;

/** Hours or months of intervals written with their unit; a fault is told once, by the hours. */
function intervalReader(
  at: number,
  rowLimit: number,
  part: "hours" | "months",
  convention: NumberConvention,
): ColumnReader {
  return new ColumnReader(at, rowLimit, (cell) => {
    const duration = parseDuration(cell, convention);
    if (duration.kind === "fault" && part === "months") return emptyCell;
    if (duration.kind !== "value") return duration;
    const value = duration.value[part];
    if (value === undefined) return emptyCell;
    return valueCell(value, part === "months" && duration.value.hours ? undefined : duration.note);
  });
}

function addFault(
  faults: Map<number, RowFault[]>,
  table: Table,
  header: string,
  fault: CellFault,
): void {
  const { row, code, rule, remedy, value } = fault;
  const list = faults.get(row) ?? [];
  list.push({ code, line: table.lineOf(row), column: header, rule, value, remedy });
  faults.set(row, list);
}

/** A cell nobody interprets, without outer white space. */
function readAsIs(cell: string): Cell<string> {
  const text = cell.trim();
  return text === "" ? emptyCell : { kind: "value", value: text };
}

/** Finds rows in which two columns of one name disagree: neither is chosen, the row is rejected. */
class RepeatedNames implements BlockReader {
  readonly found: { header: string; fault: CellFault }[] = [];
  readonly #pairs: readonly { first: number; second: number; header: string }[];

  constructor(table: Table, matched: readonly { column: number }[]) {
    const isMatched = new Set(matched.map(({ column }) => column));
    this.#pairs = table.firstOfName.flatMap((first, second) =>
      first === second || !isMatched.has(first) || isMatched.has(second)
        ? []
        : [{ first, second, header: table.header[first] ?? "" }],
    );
  }

  read(block: RowBlock): void {
    for (const { first, second, header } of this.#pairs) {
      for (let row = 0; row < block.rowCount; row += 1) {
        const [one, other] = [block.cell(row, first).trim(), block.cell(row, second).trim()];
        if (one === other || other === "") continue;
        const fault: CellFault = {
          row: block.first + row,
          code: "columns-disagree",
          rule: `Two columns of the same name, ${first + 1} and ${second + 1}, must agree in a row`,
          value: `${one} / ${other}`,
          remedy: "Rename one of the columns, or map one of them by hand.",
        };
        this.found.push({ header, fault });
      }
    }
  }
}
