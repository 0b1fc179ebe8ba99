import type { ChangeSet, KnownGraph } from "./change-set.ts";
import type { ColumnOptions } from "./columns/conventions.ts";
import { type ReadColumns, readColumns } from "./columns/read-columns.ts";
import type { Matching } from "./matching/match-columns.ts";
import { AsideRows } from "./propose/aside-rows.ts";
import { buildChanges, surveyChanges } from "./propose/build-changes.ts";
import { fillDown, mergedColumns } from "./propose/filled-down.ts";
import { nodeInWords } from "./propose/in-words.ts";
import { LinkTable } from "./propose/link-table.ts";
import { matchingNotices } from "./propose/matching-notices.ts";
import { NodeTable } from "./propose/node-table.ts";
import type { Proposal } from "./propose/proposal.ts";
import type { RecordTable } from "./propose/record-table.ts";
import { remarkTexts } from "./propose/remark-texts.ts";
import { repeatedRows } from "./propose/repeated-rows.ts";
import { RowReader } from "./propose/row-reader.ts";
import type { Table } from "./reading/read-table.ts";
import { type ImportNotice, type RowFault, showValue } from "./row-fault.ts";

export interface ProposeOptions extends ColumnOptions {
  /** Vessel of rows that name none. */
  readonly vessel?: string | undefined;
  /** Supplier of rows that name none. */
  readonly supplier?: string | undefined;
  /** Maker of the gear or parts of rows that name none. */
  readonly maker?: string | undefined;
  /** Columns, by name, whose empty cells take the value above. */
  readonly fillDown?: readonly string[] | undefined;
}

export interface Progress {
  readonly done: number;
  readonly total: number;
}

/** Rows read between two reports of progress. */
const slice = 4096;

/**
 * What a table would change in the graph, in steps: each step yields how far it has come, so that the caller can
 * let other work go on between steps; the last value returned is the proposal. Nothing is written anywhere.
 * Rows with a fault are rejected whole; read = accepted + rejected + skipped, checked at the end.
 */
export function* proposeChanges(
  table: Table,
  matching: Matching,
  graph: KnownGraph,
  options: ProposeOptions = {},
): Generator<Progress, Proposal> {
  // Reading cells, reading rows and building changes count alike.
  const unit = table.rowLimit;
  const total = unit * 3;
  const reading = readColumns(table, matching, options);
  let columnStep = reading.next();
  while (!columnStep.done) {
    yield { done: columnStep.value.done, total };
    columnStep = reading.next();
  }
  const { rowCount } = table;
  const columns = columnStep.value;
  const { faults, extras } = columns;
  for (const [row, list] of table.faults) faults.set(row, [...list, ...(faults.get(row) ?? [])]);
  const merged = mergedColumns(columns, rowCount);
  if (options.fillDown) fillDown(options.fillDown, columns, rowCount, faults);
  const asides = new AsideRows(columns.typicalWidth, columnOf(matching, "Part.partNumber"));
  const passed = passAsides(asides, table, faults, columns.hasUnitsRow);

  const reader = new RowReader({
    kind: matching.kind,
    graph,
    columns,
    rowCount,
    vessel: options.vessel,
    supplier: options.supplier,
    maker: options.maker,
    isFaulty: (row) => faults.has(row),
    lineOf: (row) => table.lineOf(row),
  });
  let accepted = 0;
  const repeated: number[] = [];
  for (let row = 0; row < rowCount; row += 1) {
    if (row % slice === 0) yield { done: unit + row, total };
    if (faults.size > 0 && faults.has(row)) continue;
    if (passed.size > 0 && passed.has(row)) continue;
    const isDoubtful = reader.isDoubtful(row);
    if (isDoubtful && passAside(asides, table, row)) continue;
    const refusal = reader.read(row);
    if (refusal && !isDoubtful && passAside(asides, table, row)) continue;
    if (refusal) {
      const { value = showValue(table.row(row).join(" ").trim()), ...rest } = refusal;
      faults.set(row, [{ ...rest, value, line: table.lineOf(row) }]);
      continue;
    }
    const conflict = findConflict(reader, table, row);
    if (conflict) {
      faults.set(row, [conflict]);
      continue;
    }
    if (reader.addsNothing) repeated.push(row);
    reader.merge(row);
    if (extras.length > 0 && reader.mainTable) {
      keepExtras(row, reader.mainTable, reader.mainRecord, extras);
    }
    accepted += 1;
  }

  reader.finish();
  const building = surveyChanges(reader);
  let step = building.next();
  while (!step.done) {
    const { done: built, total: toBuild } = step.value;
    yield { done: 2 * unit + Math.floor((unit * built) / Math.max(1, toBuild)), total };
    step = building.next();
  }
  const { changeCount, records, sample } = step.value;
  let built: ChangeSet | undefined;
  const rejectedRows = [...faults.keys()].sort((a, b) => a - b);
  const rows = {
    read: rowCount + table.skipped,
    accepted,
    rejected: rejectedRows.length,
    skipped: table.skipped + asides.count,
  };
  if (rows.read !== rows.accepted + rows.rejected + rows.skipped) {
    throw new Error(`rows do not add up: ${JSON.stringify(rows)}`);
  }
  const lineOf = (row: number): number => table.lineOf(row);
  const counted = [...columns.byTarget.values(), ...extras.map(({ column }) => column)];
  const twice = repeatedRows(repeated, counted, rowCount, lineOf);
  yield { done: total, total };
  return {
    table,
    matching,
    get changeSet() {
      built ??= { changes: buildChanges(reader) };
      return built;
    },
    changeCount,
    rows,
    records,
    sample,
    faults: rejectedRows.flatMap((row) => faults.get(row) ?? []),
    rejectedRows,
    notices: [
      ...table.notices,
      ...matchingNotices(matching, table),
      ...columns.notices,
      ...(options.fillDown ? [] : merged),
      ...asides.notices(lineOf),
      ...remarksOf(reader, table),
      ...(twice === undefined ? [] : [twice]),
    ],
  };
}

const columnOf = (matching: Matching, id: string): number | undefined =>
  matching.columns.find(({ target }) => target === id)?.column;

/** Faults by which a row is more than it seems: text may have been swallowed. */
const neverPassed: ReadonlySet<string> = new Set(["quote-open", "cell-too-long", "row-long"]);

/** Whether a row is no record, and so was passed over. */
function passAside(asides: AsideRows, table: Table, row: number): boolean {
  const cells = table.row(row);
  const aside = asides.kindOf(cells);
  if (aside !== undefined) asides.pass(aside, row, cells);
  return aside !== undefined;
}

/** Takes rows that are no records out of the faulty ones; the rows passed over. */
function passAsides(
  asides: AsideRows,
  table: Table,
  faults: Map<number, RowFault[]>,
  hasUnitsRow: boolean,
): ReadonlySet<number> {
  const passed = new Set<number>();
  if (hasUnitsRow) {
    asides.pass("units-passed", 0, table.row(0));
    faults.delete(0);
    passed.add(0);
  }
  for (const row of [...faults.keys()].sort((a, b) => a - b)) {
    const isBroken = faults.get(row)?.some(({ code }) => neverPassed.has(code));
    const cells = isBroken ? [] : table.row(row);
    const aside = asides.kindOf(cells);
    if (aside === undefined) continue;
    asides.pass(aside, row, cells);
    faults.delete(row);
    passed.add(row);
  }
  return passed;
}

/** The fault of a row that contradicts an earlier one: both lines and both values named. */
function findConflict(reader: RowReader, table: Table, row: number): RowFault | undefined {
  const found = reader.compare(row);
  if (found !== undefined) {
    const { table: records, record } = found.mention;
    const filled = records.properties[found.place];
    const other = records.rowBehind(record, found.place);
    records.conflicts += 1;
    const value = (of: number): string =>
      String(filled?.column.values[filled.column.codes[of] ?? 0] ?? "");
    return disagree(
      table,
      row,
      other,
      filled?.header,
      subjectOf(records, record),
      value(row),
      value(other),
    );
  }
  const model = reader.modelDisagreement();
  if (model === undefined) return undefined;
  reader.isModel.conflicts += 1;
  const designations = reader.models;
  const earlier = designations.names[reader.modelOfItem[model.item] ?? 0] ?? "";
  return disagree(
    table,
    row,
    model.row,
    reader.headerOf("designation"),
    nodeInWords(reader.items, model.item),
    "another model",
    earlier,
  );
}

function subjectOf(records: object, record: number): string {
  if (records instanceof NodeTable) return nodeInWords(records, record);
  if (records instanceof LinkTable) {
    const { fromTable, toTable, from, to } = records;
    return `${nodeInWords(fromTable, from[record] ?? 0)} and ${nodeInWords(toTable, to[record] ?? 0)}`;
  }
  return "the same record";
}

function disagree(
  table: Table,
  row: number,
  other: number,
  column: string | undefined,
  subject: string,
  value: string,
  earlier: string,
): RowFault {
  return {
    code: "rows-disagree",
    line: table.lineOf(row),
    column,
    rule: `Rows about the same thing (${showValue(subject)}) must agree; line ${table.lineOf(other)} says ${showValue(earlier)}`,
    value: showValue(value),
    remedy: `Correct line ${table.lineOf(other)} or line ${table.lineOf(row)}.`,
  };
}

function keepExtras(
  row: number,
  table: RecordTable,
  record: number,
  extras: ReadColumns["extras"],
): void {
  for (const { column, header } of extras) {
    const code = column.codes[row] as number;
    if (code !== 0) table.keepExtra(record, header, column.values[code] as string);
  }
}

function remarksOf(reader: RowReader, table: Table): ImportNotice[] {
  return [...reader.remarks].map(([code, { count, row }]) => ({
    code,
    line: table.lineOf(row),
    column: undefined,
    text: remarkTexts[code] ?? code,
    count,
  }));
}
