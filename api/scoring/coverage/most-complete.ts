import { type ChosenFew, chosenFew, sumOfGreatest, undominatedColumns } from "./chosen-few.ts";
import { type CoverProblem, columnsOfRows, requireCover } from "./cover-problem.ts";

const defaultNodeLimit = 8_000;

/** Something that counts only when all of its rows are covered. */
export interface WholeNeed {
  readonly rows: readonly number[];
  readonly weight: number;
}

/**
 * The `count` columns that complete the greatest weight of needs, a need counting only when every one of its rows
 * is covered. That is not submodular (two columns may do together what neither begins alone), so marginal gains
 * bound nothing; instead each open need is let off with the one of its rows that fewest columns cover, which
 * leaves a maximum coverage whose gains do bound it. The last column is chosen exactly, by intersection.
 * Exact by branch and bound up to the node limit; meant for small counts.
 */
export function mostComplete(
  problem: CoverProblem,
  needs: readonly WholeNeed[],
  count: number,
  nodeLimit = defaultNodeLimit,
): ChosenFew {
  requireCover(problem);
  const { columns } = problem;
  const covering = columnsOfRows(problem);
  const isWhole = needs.every(({ weight }) => Number.isInteger(weight));
  const choices = (row: number): number => covering[row]?.length ?? 0;
  const offers = columns.map((rows) => new Set(rows));
  // Rows fewest columns cover come first: they decide soonest, and give the tightest bound.
  const possible = needs
    .filter(({ rows }) => rows.length > 0 && rows.every((row) => choices(row) > 0))
    .map(({ rows, weight }) => ({
      weight,
      rows: rows.toSorted((a, b) => choices(a) - choices(b)),
    }));
  let best: readonly number[] = [];
  let reached = 0;
  let nodes = 0;
  const standing = new Uint8Array(columns.length).fill(2);
  for (const column of undominatedColumns(columns)) standing[column] = 0;
  const keep = (chosen: readonly number[], weight: number): void => {
    if (weight <= reached) return;
    reached = weight;
    best = [...chosen];
  };
  const freeCovering = (row: number): number[] =>
    (covering[row] ?? []).filter((column) => standing[column] === 0);

  /** Weight each free column would complete by itself, given what is open. */
  const completedBy = (open: readonly WholeNeed[]): Float64Array => {
    const weight = new Float64Array(columns.length);
    for (const {
      rows: [first = -1, ...others],
      weight: own,
    } of open) {
      for (const column of freeCovering(first)) {
        if (others.every((row) => offers[column]?.has(row))) {
          weight[column] = (weight[column] ?? 0) + own;
        }
      }
    }
    return weight;
  };
  /** Weight each free column would count for if every open need were let off with its first row. */
  const letOff = (open: readonly WholeNeed[]): Float64Array => {
    const weight = new Float64Array(columns.length);
    for (const { rows, weight: own } of open) {
      for (const column of freeCovering(rows[0] ?? -1)) {
        weight[column] = (weight[column] ?? 0) + own;
      }
    }
    return weight;
  };
  const explore = (
    chosen: readonly number[],
    open: readonly WholeNeed[],
    done: number,
    inherited: number,
  ): number => {
    keep(chosen, done);
    const left = count - chosen.length;
    if (left === 0 || open.length === 0) return done;
    if (nodes >= nodeLimit) return inherited;
    nodes += 1;
    const alone = completedBy(open);
    const single = greatestAt(alone);
    keep([...chosen, single], done + (alone[single] ?? 0));
    if (left === 1) return done + (alone[single] ?? 0);
    const relaxed = letOff(open);
    const sum = done + sumOfGreatest([...relaxed], left);
    const bound = Math.min(inherited, isWhole ? Math.floor(sum + 1e-6) : sum);
    if (bound <= reached + 1e-9) return bound;
    const branch = greatestAt(relaxed);
    if ((relaxed[branch] ?? 0) === 0) return done;
    const rows = new Set(columns[branch]);
    const rest = open.map(({ rows: needed, weight }) => ({
      weight,
      rows: needed.filter((row) => !rows.has(row)),
    }));
    const finished = rest.reduce((sum_, need) => sum_ + (need.rows.length ? 0 : need.weight), 0);
    standing[branch] = 1;
    const taken = explore(
      [...chosen, branch],
      rest.filter((need) => need.rows.length > 0),
      done + finished,
      bound,
    );
    standing[branch] = 2;
    const without = explore(chosen, open, done, bound);
    standing[branch] = 0;
    return Math.min(bound, Math.max(taken, without));
  };
  const total = possible.reduce((sum, { weight }) => sum + weight, 0);
  const bound = count <= 0 ? 0 : explore([], possible, 0, total);
  return chosenFew(best, reached, Math.max(bound, reached), nodes);
}

function greatestAt(values: Float64Array): number {
  let best = 0;
  for (let at = 1; at < values.length; at++) {
    if ((values[at] ?? 0) > (values[best] ?? 0)) best = at;
  }
  return best;
}
