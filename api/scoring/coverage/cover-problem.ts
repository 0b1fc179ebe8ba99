import { Problem } from "../../errors/problem.ts";

/** Rows to cover, and for each column the rows it covers (each at most once) and its cost. */
export interface CoverProblem {
  readonly rowCount: number;
  readonly columns: readonly (readonly number[])[];
  /** Non-negative, in any one unit; 1 each when absent. */
  readonly costs?: readonly number[];
}

/** A cover with what is proven of it. */
export interface Cover {
  /** `optimal`: no cheaper cover exists. `stopped`: the search ended at its limit; the bound still holds. */
  readonly status: "optimal" | "stopped";
  /** Columns taken, ascending. */
  readonly chosen: readonly number[];
  readonly cost: number;
  /** No cover costs less. */
  readonly lowerBound: number;
  /** (cost - lowerBound) / cost; 0 when proven. */
  readonly gap: number;
  /** Nodes of the search tree looked at. */
  readonly nodes: number;
  /** Rows no column covers: left out of the cover, never silently. */
  readonly uncoverable: readonly number[];
}

/** Throws `input-invalid` unless rows are in range, not repeated in a column, and costs are finite and not negative. */
export function requireCover({ rowCount, columns, costs }: CoverProblem): void {
  const stop = (rule: string, received: string): never => {
    throw new Problem(
      "input-invalid",
      `${rule}; received ${received}. Correct the columns and ask again.`,
    );
  };
  if (costs !== undefined && costs.length !== columns.length) {
    stop("Every column has one cost", `${costs.length} costs for ${columns.length} columns`);
  }
  costs?.forEach((cost, column) => {
    if (!(cost >= 0 && Number.isFinite(cost))) {
      stop("A cost is a finite number of 0 or more", `${cost} for column ${column}`);
    }
  });
  const seenIn = new Int32Array(rowCount).fill(-1);
  columns.forEach((rows, column) => {
    for (const row of rows) {
      if (!(Number.isInteger(row) && row >= 0 && row < rowCount)) {
        stop(`A row lies in [0, ${rowCount})`, `${row} in column ${column}`);
      }
      if (seenIn[row] === column) stop("A column lists a row once", `${row} twice in ${column}`);
      seenIn[row] = column;
    }
  });
}

/** For each row, the columns that cover it, ascending. */
export function columnsOfRows({ rowCount, columns }: CoverProblem): number[][] {
  const covering = Array.from({ length: rowCount }, (): number[] => []);
  columns.forEach((rows, column) => {
    for (const row of rows) covering[row]?.push(column);
  });
  return covering;
}
