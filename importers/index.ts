import type { KnownGraph } from "./change-set.ts";
import { type MatchOptions, matchColumns } from "./matching/match-columns.ts";
import type { Proposal } from "./propose/proposal.ts";
import { type ProposeOptions, proposeChanges } from "./propose-changes.ts";
import { openTable } from "./reading/read-table.ts";
import type { ReadOptions } from "./reading/table-head.ts";
import { isDeclaredName } from "./targets.ts";

export type ImportFileOptions = MatchOptions &
  ProposeOptions &
  Omit<ReadOptions, "isKnownName"> & {
    /** Told how far the work has come; `done` never falls and ends at `total`. */
    readonly progress?: ((done: number, total: number) => void) | undefined;
  };

/** Longest stretch of work between two turns of the event loop, in milliseconds. */
const turn = 12;

/**
 * What a file would change in the graph: text decoded, table found, columns matched, rows read. Other work gets its
 * turn in between. Throws `file-empty`, `file-binary`, `columns-unmatched`, `input-invalid`; what is wrong with
 * single rows stands in the proposal.
 */
export async function importFile(
  bytes: Uint8Array | string,
  graph: KnownGraph,
  options: ImportFileOptions = {},
): Promise<Proposal> {
  const { progress } = options;
  const table = openTable(bytes, { ...options, isKnownName: isDeclaredName });
  const matching = matchColumns(table, options);
  const work = proposeChanges(table, matching, graph, options);
  let last = Date.now();
  let step = work.next();
  while (!step.done) {
    progress?.(step.value.done, step.value.total);
    if (Date.now() - last >= turn) {
      await new Promise((resolve) => setImmediate(resolve));
      last = Date.now();
    }
    step = work.next();
  }
  return step.value;
}

export { isCurrency } from "./cells/currencies.ts";
export { parseMoney } from "./cells/parse-money.ts";
export type { ChangeSet, KnownGraph } from "./change-set.ts";
export { type ListKindName, listKindNames, listKinds } from "./list-kinds.ts";
export {
  type ColumnMatch,
  type Matching,
  type MatchOptions,
  matchColumns,
} from "./matching/match-columns.ts";
export type { ChangeInWords, Proposal, RecordCount } from "./propose/proposal.ts";
export { type Progress, type ProposeOptions, proposeChanges } from "./propose-changes.ts";
export { readTyped, type TypedValue } from "./read-typed.ts";
export { decodeText } from "./reading/decode-text.ts";
export { openTable, readTable, type Table } from "./reading/read-table.ts";
export type { Delimiter } from "./reading/sniff-delimiter.ts";
export type { ReadOptions } from "./reading/table-head.ts";
export { rejectedCsv } from "./rejected-csv.ts";
export type { FaultCode, ImportNotice, RowFault } from "./row-fault.ts";
export { isDeclaredName, type Target, targets } from "./targets.ts";
export { type WriteCsvOptions, writeCsv } from "./write-csv.ts";
