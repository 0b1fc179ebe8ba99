import { type Cell, emptyCell } from "../cells/cell.ts";
import { dollarPresumed } from "../cells/parse-money.ts";
import type { Matching } from "../matching/match-columns.ts";
import type { Table } from "../reading/read-table.ts";
import type { ImportNotice, RowFault } from "../row-fault.ts";
import { targets } from "../targets.ts";
import { cellReader } from "./cell-reader.ts";
import {
  type BlockReader,
  type CellFault,
  type CodedColumn,
  ColumnReader,
  type NoteCount,
} from "./coded-column.ts";
import { type ColumnOptions, conventionsOf } from "./conventions.ts";
import { headerCurrency, headerUnit } from "./header-units.ts";
import { intervalParts, intervalReader } from "./interval-reader.ts";
import { PriceReader } from "./price-columns.ts";
import { RepeatedNames } from "./repeated-names.ts";

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

interface Findings {
  readonly faults: readonly CellFault[];
  readonly notes: ReadonlyMap<string, NoteCount>;
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
