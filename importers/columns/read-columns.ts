import { currencyOf } from "../cells/currencies.ts";
import { type DateOrder, readDateOrder } from "../cells/parse-date.ts";
import { parseDuration } from "../cells/parse-duration.ts";
import {
  conventionShown,
  type NumberConvention,
  readNumberConvention,
} from "../cells/parse-number.ts";
import { writtenUnit } from "../cells/units.ts";
import { headerForms } from "../header-likeness.ts";
import type { Matching } from "../match-columns.ts";
import type { Table } from "../reading/read-table.ts";
import type { ImportNotice, RowFault } from "../row-fault.ts";
import { type Target, targets } from "../targets.ts";
import { cellReader } from "./cell-reader.ts";
import { type CellFault, type CodedColumn, type ReadColumn, readColumn } from "./coded-column.ts";
import { readPrices } from "./price-columns.ts";

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
  readonly faults: Map<number, RowFault[]>;
  readonly notices: ImportNotice[];
}

/** Rows looked at to learn how a column writes numbers and dates. */
const evidenceRows = 5000;

function* sampleOf(table: Table, column: number): Generator<string> {
  const seen = new Set<string>();
  const rows = Math.min(table.rows.length, evidenceRows);
  for (let row = 0; row < rows; row += 1) {
    const cell = table.rows[row]?.[column] ?? "";
    if (cell === "" || seen.has(cell)) continue;
    seen.add(cell);
    yield cell;
  }
}

/** The decimal mark per column; a column that does not tell follows the others, then the delimiter. */
function numberConventions(
  table: Table,
  columns: readonly number[],
  decimal: "." | "," | undefined,
): (column: number) => NumberConvention {
  if (decimal !== undefined) return () => (decimal === "." ? "point" : "comma");
  const own = new Map(columns.map((c) => [c, readNumberConvention(sampleOf(table, c))] as const));
  const shown = columns.flatMap((c) => [...sampleOf(table, c)].map(conventionShown));
  const points = shown.includes("point");
  const commas = shown.includes("comma");
  const whole: NumberConvention =
    points && !commas
      ? "point"
      : commas && !points
        ? "comma"
        : !points && table.delimiter === ","
          ? "point-presumed"
          : "unknown";
  return (column) => {
    const convention = own.get(column) ?? "unknown";
    return convention === "unknown" ? whole : convention;
  };
}

function dateOrders(
  table: Table,
  columns: readonly number[],
  given: "dmy" | "mdy" | undefined,
): (column: number) => DateOrder {
  if (given !== undefined) return () => given;
  const own = new Map(columns.map((c) => [c, readDateOrder(sampleOf(table, c))] as const));
  const known = new Set([...own.values()].filter((order) => order !== "unknown"));
  const whole = known.size === 1 ? ([...known][0] ?? "unknown") : "unknown";
  return (column) => {
    const order = own.get(column) ?? "unknown";
    return order === "unknown" ? whole : order;
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
export function headerCurrency(header: string, given: string | undefined): string | undefined {
  const forms = headerForms(header);
  for (const place of [forms.aside, forms.last, ...header.split(/[\s()[\]/,]+/)]) {
    if (place === "") continue;
    const means = currencyOf(place);
    if (means.kind === "one") return means.currency;
    if (means.kind === "shared" && place.length <= 2) {
      if (given !== undefined && means.among.includes(given)) return given;
      if (place === "$") return "USD";
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
  const numeric = matched.filter(({ target }) =>
    ["integer", "real", "money", "interval"].includes(target.kind),
  );
  const numberOf = numberConventions(
    table,
    numeric.map(({ column }) => column),
    options.decimal,
  );
  const dated = matched.filter(({ target }) => target.kind === "date");
  const orderOf = dateOrders(
    table,
    dated.map(({ column }) => column),
    options.dateOrder,
  );
  const currencyAt = matched.find(({ target }) => target.id === "OFFERS.currency")?.column;

  const byTarget = new Map<string, CodedColumn>();
  const headerOf = new Map<string, string>();
  const faults = new Map<number, RowFault[]>();
  const notices: ImportNotice[] = [];
  const take = (header: string, column: ReadColumn): void => {
    for (const fault of column.faults) addFault(faults, table, header, fault);
    for (const { note, count, firstRow } of column.notes.values()) {
      notices.push({
        code: note.code,
        line: table.lineOf(firstRow),
        column: header,
        text: note.text,
        count,
      });
    }
  };
  let done = 0;
  for (const { column, header, target } of matched) {
    headerOf.set(target.id, header);
    if (target.kind === "money") {
      const inHeader = headerCurrency(header, options.currency);
      if (
        inHeader === "USD" &&
        /(?:^|[^A-Za-z])\$/.test(header) &&
        options.currency === undefined &&
        !/us\s?\$|usd/i.test(header)
      ) {
        notices.push({
          code: "dollar-presumed",
          line: table.headerLine,
          column: header,
          text: "A bare $ was read as US dollars (USD). If it means another dollar, give the file's currency.",
          count: 1,
        });
      }
      const prices = readPrices(table.rows, column, currencyAt, {
        convention: numberOf(column),
        given: inHeader ?? options.currency,
      });
      byTarget.set(target.id, prices.price);
      byTarget.set("OFFERS.currency", prices.currency);
      take(header, prices.price);
    } else if (target.kind === "interval") {
      const { hours, months } = readIntervals(table, column, numberOf(column));
      if (!matched.some((other) => other.target.id === "ServiceTask.intervalHours")) {
        byTarget.set("ServiceTask.intervalHours", hours);
        headerOf.set("ServiceTask.intervalHours", header);
      }
      if (!matched.some((other) => other.target.id === "ServiceTask.intervalMonths")) {
        byTarget.set("ServiceTask.intervalMonths", months);
        headerOf.set("ServiceTask.intervalMonths", header);
      }
      take(header, hours);
    } else if (target.id !== "OFFERS.currency") {
      const read = readColumn(
        table.rows,
        column,
        cellReader(target, {
          number: numberOf(column),
          dateOrder: orderOf(column),
          headerUnit: headerUnit(header, target),
        }),
      );
      byTarget.set(target.id, read);
      take(header, read);
    }
    done += 1;
    yield { done, total: matched.length };
  }
  addRepeatFaults(table, matched, faults);
  return { byTarget, headerOf, faults, notices };
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

function readIntervals(
  table: Table,
  at: number,
  convention: NumberConvention,
): { hours: ReadColumn; months: ReadColumn } {
  const read = (part: "hours" | "months"): ReadColumn =>
    readColumn(table.rows, at, (cell) => {
      const duration = parseDuration(cell, convention);
      if (duration.kind !== "value") return duration;
      const value = duration.value[part];
      return value === undefined ? { kind: "empty" } : { kind: "value", value };
    });
  return { hours: read("hours"), months: read("months") };
}

/** Two columns of one name that disagree in a row: neither is chosen, the row is rejected. */
function addRepeatFaults(
  table: Table,
  matched: readonly { column: number; header: string }[],
  faults: Map<number, RowFault[]>,
): void {
  const isMatched = new Set(matched.map(({ column }) => column));
  table.firstOfName.forEach((first, column) => {
    if (first === column || !isMatched.has(first) || isMatched.has(column)) return;
    table.rows.forEach((cells, row) => {
      const [one, other] = [(cells[first] ?? "").trim(), (cells[column] ?? "").trim()];
      if (one === other || other === "") return;
      addFault(faults, table, table.header[first] ?? "", {
        row,
        code: "columns-disagree",
        rule: `Two columns of the same name, ${first + 1} and ${column + 1}, must agree in a row`,
        value: `${one} / ${other}`,
        remedy: "Rename one of the columns, or map one of them by hand.",
      });
    });
  });
}
