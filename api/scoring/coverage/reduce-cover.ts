import { type CoverProblem, columnsOfRows } from "./cover-problem.ts";
import { isSubset } from "./is-subset.ts";

/** What is left of a cover problem once what can be settled at sight is settled; numbers are the original ones. */
interface ReducedCover {
  readonly rows: readonly number[];
  readonly columns: readonly number[];
  /** Columns every least cover of what is left may be joined to. */
  readonly essential: readonly number[];
}

/**
 * Settles a cover problem's easy part without losing a least cover, until nothing changes:
 * a row with one column makes that column essential; a row covered by every column that covers some other row
 * is dropped; a column whose rows another covers at no greater cost is dropped.
 * Source: the classic reductions of the set-covering literature (Garfinkel & Nemhauser 1972).
 */
export function reduceCover(problem: CoverProblem): ReducedCover {
  const costOf = (column: number): number => problem.costs?.[column] ?? 1;
  const columns = problem.columns.map((rows) => new Set(rows));
  const rows = columnsOfRows(problem).map((list) => new Set(list));
  const essential: number[] = [];
  const dropRow = (row: number): void => {
    for (const column of rows[row] ?? []) columns[column]?.delete(row);
    rows[row]?.clear();
  };
  const dropColumn = (column: number): void => {
    for (const row of columns[column] ?? []) rows[row]?.delete(column);
    columns[column]?.clear();
  };
  for (let changed = true; changed; ) {
    changed = false;
    for (const covering of rows) {
      const [only] = covering;
      if (covering.size !== 1 || only === undefined) continue;
      essential.push(only);
      for (const row of [...(columns[only] ?? [])]) dropRow(row);
      changed = true;
    }
    for (let row = 0; row < rows.length; row++) {
      if (easierThanOther(rows, columns, row, dropRow)) changed = true;
    }
    for (let column = 0; column < columns.length; column++) {
      if (isDominated(columns, rows, column, costOf)) {
        dropColumn(column);
        changed = true;
      }
    }
  }
  const alive = (sets: readonly ReadonlySet<number>[]): number[] =>
    [...sets.keys()].filter((at) => (sets[at]?.size ?? 0) > 0);
  return { rows: alive(rows), columns: alive(columns), essential };
}

/** The member whose own list is shortest: whatever contains the whole set must be on that list. */
function narrowest(
  set: ReadonlySet<number>,
  lists: readonly ReadonlySet<number>[],
): ReadonlySet<number> {
  let best: ReadonlySet<number> = new Set();
  for (const member of set) {
    const list = lists[member];
    if (list !== undefined && (best.size === 0 || list.size < best.size)) best = list;
  }
  return best;
}

/** Drops every other row that is covered whenever `row` is. */
function easierThanOther(
  rows: readonly ReadonlySet<number>[],
  columns: readonly ReadonlySet<number>[],
  row: number,
  dropRow: (row: number) => void,
): boolean {
  const own = rows[row];
  if (own === undefined || own.size === 0) return false;
  const easier = [...narrowest(own, columns)].filter(
    (other) => other !== row && isSubset(own, rows[other] ?? own),
  );
  for (const other of easier) dropRow(other);
  return easier.length > 0;
}

/** Whether another column covers all of this one's rows at no greater cost (of two alike, the later goes). */
function isDominated(
  columns: readonly ReadonlySet<number>[],
  rows: readonly ReadonlySet<number>[],
  column: number,
  costOf: (column: number) => number,
): boolean {
  const own = columns[column];
  if (own === undefined || own.size === 0) return false;
  for (const rival of narrowest(own, rows)) {
    const set = columns[rival];
    if (rival === column || set === undefined || set.size < own.size) continue;
    if (costOf(rival) > costOf(column)) continue;
    const isTwin = set.size === own.size && costOf(rival) === costOf(column);
    if ((!isTwin || rival < column) && isSubset(own, set)) return true;
  }
  return false;
}
