import type { ChangeSet, KnownGraph } from "./change-set.ts";
import { type ColumnOptions, type ReadColumns, readColumns } from "./columns/read-columns.ts";
import type { Matching } from "./match-columns.ts";
import { buildChanges, nodeInWords, surveyChanges } from "./propose/build-changes.ts";
import { LinkTable } from "./propose/link-table.ts";
import { NodeTable } from "./propose/node-table.ts";
import type { Proposal } from "./propose/proposal.ts";
import { remarkTexts } from "./propose/remark-texts.ts";
import { RowReader } from "./propose/row-reader.ts";
import type { Table } from "./reading/read-table.ts";
import { type ImportNotice, type RowFault, showValue } from "./row-fault.ts";

export interface ProposeOptions extends ColumnOptions {
  /** Vessel of rows that name none. */
  readonly vessel?: string | undefined;
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

  const reader = new RowReader({
    kind: matching.kind,
    graph,
    columns,
    rowCount,
    vessel: options.vessel,
    isFaulty: (row) => faults.has(row),
    lineOf: (row) => table.lineOf(row),
  });
  let accepted = 0;
  for (let row = 0; row < rowCount; row += 1) {
    if (row % slice === 0) yield { done: unit + row, total };
    if (faults.size > 0 && faults.has(row)) continue;
    const refusal = reader.read(row);
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
    reader.merge(row);
    if (extras.length > 0 && reader.main) keepExtras(row, reader.main, extras);
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
    skipped: table.skipped,
  };
  if (rows.read !== rows.accepted + rows.rejected + rows.skipped) {
    throw new Error(`rows do not add up: ${JSON.stringify(rows)}`);
  }
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
    notices: [...table.notices, ...columns.notices, ...remarksOf(reader, table)],
  };
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
  main: NonNullable<RowReader["main"]>,
  extras: ReadColumns["extras"],
): void {
  for (const { column, header } of extras) {
    const code = column.codes[row] as number;
    if (code !== 0) main.table.keepExtra(main.record, header, column.values[code] as string);
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
