import { isSubset } from "./is-subset.ts";

/** The best few columns for an end that more columns can only serve better, with what is proven of them. */
export interface ChosenFew {
  /** `optimal`: no other choice of as many does better. `stopped`: ended at the limit; the bound still holds. */
  readonly status: "optimal" | "stopped";
  /** Columns chosen, ascending; fewer than asked where more would add nothing. */
  readonly chosen: readonly number[];
  /** Weight reached. */
  readonly reached: number;
  /** No choice of as many columns reaches more. */
  readonly upperBound: number;
  /** (upperBound - reached) / upperBound; 0 when proven. */
  readonly gap: number;
  readonly nodes: number;
}

/** What a search found, as the answer states it: a bound within rounding of what is reached counts as proof. */
export function chosenFew(
  chosen: readonly number[],
  reached: number,
  bound: number,
  nodes: number,
): ChosenFew {
  const isOptimal = bound <= reached + 1e-9 * Math.max(1, reached);
  const upperBound = isOptimal ? reached : bound;
  return {
    status: isOptimal ? "optimal" : "stopped",
    chosen: chosen.toSorted((a, b) => a - b),
    reached,
    upperBound,
    gap: upperBound === 0 ? 0 : (upperBound - reached) / upperBound,
    nodes,
  };
}

/** Columns with rows that no other column's rows contain; of columns alike, the first. O(columns² · rows). */
export function undominatedColumns(columns: readonly (readonly number[])[]): number[] {
  const sets = columns.map((rows) => new Set(rows));
  return [...sets.keys()].filter((column) => {
    const own = sets[column];
    if (own === undefined || own.size === 0) return false;
    return !sets.some(
      (rival, at) =>
        at !== column &&
        (rival.size > own.size || (rival.size === own.size && at < column)) &&
        isSubset(own, rival),
    );
  });
}

/** The sum of the `count` greatest values. */
export function sumOfGreatest(values: readonly number[], count: number): number {
  if (count === 1) return Math.max(0, ...values);
  return values
    .toSorted((a, b) => b - a)
    .slice(0, count)
    .reduce((sum, value) => sum + value, 0);
}
