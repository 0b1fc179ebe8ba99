import { type ChosenFew, chosenFew, undominatedColumns } from "./chosen-few.ts";
import { type CoverProblem, requireCover } from "./cover-problem.ts";

const defaultNodeLimit = 4_000;
const stepsAtRoot = 200;
const stepsBelow = 25;

interface Node {
  readonly chosen: readonly number[];
  readonly free: readonly number[];
  readonly covered: Uint8Array;
  readonly reached: number;
  readonly multipliers: Float64Array;
}

/**
 * The `count` columns that cover the greatest weight of rows (maximum coverage), exactly by branch and bound.
 * The bound relaxes "a row counts only if a chosen column covers it" with multipliers 0 <= u <= w:
 * reached + Σ (w_i - u_i) + the greatest `count` sums Σ_i u_i over columns. At u = w it is the bound by marginal
 * gains that any submodular function has (Nemhauser, Wolsey & Fisher 1978); subgradient steps tighten it.
 *
 * @param weights of rows, non-negative
 */
export function mostCovered(
  problem: CoverProblem,
  weights: readonly number[],
  count: number,
  nodeLimit = defaultNodeLimit,
): ChosenFew {
  requireCover(problem);
  const { columns, rowCount } = problem;
  const isWhole = weights.every(Number.isInteger);
  let best: readonly number[] = [];
  let reached = 0;
  let nodes = 0;
  const gainOf = (covered: Uint8Array, column: number): number =>
    (columns[column] ?? []).reduce(
      (sum, row) => sum + (covered[row] === 1 ? 0 : (weights[row] ?? 0)),
      0,
    );
  const keep = (chosen: readonly number[], weight: number): void => {
    if (weight <= reached) return;
    reached = weight;
    best = chosen;
  };
  const take = (node: Node, column: number): Node => {
    const covered = node.covered.slice();
    for (const row of columns[column] ?? []) covered[row] = 1;
    return {
      chosen: [...node.chosen, column],
      free: node.free.filter((other) => other !== column),
      covered,
      reached: node.reached + gainOf(node.covered, column),
      multipliers: node.multipliers.slice(),
    };
  };
  const greedyFrom = (start: Node): void => {
    let node = start;
    while (node.chosen.length < count) {
      const next = bestColumn(node.free, (column) => gainOf(node.covered, column));
      if (next === undefined) break;
      node = take(node, next);
    }
    keep(node.chosen, node.reached);
  };
  const floored = (bound: number): number => (isWhole ? Math.floor(bound + 1e-6) : bound);
  const explore = (node: Node, inherited: number): number => {
    const left = count - node.chosen.length;
    keep(node.chosen, node.reached);
    if (left === 0 || node.free.length === 0) return node.reached;
    if (nodes >= nodeLimit) return inherited;
    nodes += 1;
    greedyFrom(node);
    const steps = nodes === 1 ? stepsAtRoot : stepsBelow;
    const bound = Math.min(
      inherited,
      floored(coverBound(columns, weights, node, left, reached, steps)),
    );
    if (bound <= reached + 1e-9) return bound;
    const branch = bestColumn(node.free, (column) => gainOf(node.covered, column));
    if (branch === undefined) return node.reached;
    const taken = explore(take(node, branch), bound);
    const free = node.free.filter((column) => column !== branch);
    return Math.min(bound, Math.max(taken, explore({ ...node, free }, bound)));
  };
  const root: Node = {
    chosen: [],
    free: undominatedColumns(columns),
    covered: new Uint8Array(rowCount),
    reached: 0,
    multipliers: Float64Array.from(weights),
  };
  const bound = explore(root, Number.POSITIVE_INFINITY);
  return chosenFew(best, reached, Math.max(bound, reached), nodes);
}

function bestColumn(
  free: readonly number[],
  gainOf: (column: number) => number,
): number | undefined {
  let best: number | undefined;
  let most = 0;
  for (const column of free) {
    const gain = gainOf(column);
    if (gain <= most) continue;
    most = gain;
    best = column;
  }
  return best;
}

/** The least bound found; its multipliers are left in the node. */
function coverBound(
  columns: readonly (readonly number[])[],
  weights: readonly number[],
  node: Node,
  left: number,
  reached: number,
  steps: number,
): number {
  const { free, covered, multipliers } = node;
  const open = [...covered.keys()].filter((row) => covered[row] === 0);
  const trial = multipliers.slice();
  const times = new Int32Array(covered.length);
  let least = Number.POSITIVE_INFINITY;
  let scale = 1;
  let idle = 0;
  for (let step = 0; step < steps && scale > 0.01; step++) {
    const sums = free.map((column) => {
      let sum = 0;
      for (const row of columns[column] ?? []) if (covered[row] === 0) sum += trial[row] ?? 0;
      return { column, sum };
    });
    const top = sums.sort((a, b) => b.sum - a.sum).slice(0, left);
    let bound = node.reached + top.reduce((total, { sum }) => total + sum, 0);
    for (const row of open) {
      bound += (weights[row] ?? 0) - (trial[row] ?? 0);
      times[row] = 0;
    }
    for (const { column } of top) {
      for (const row of columns[column] ?? []) times[row] = (times[row] ?? 0) + 1;
    }
    if (bound < least - 1e-9) {
      least = bound;
      multipliers.set(trial);
      idle = 0;
    } else if (++idle >= 8) {
      scale /= 2;
      idle = 0;
    }
    if (least <= reached + 1e-9) break;
    const length = open.reduce((sum, row) => sum + ((times[row] ?? 0) - 1) ** 2, 0);
    if (length === 0) break;
    const stride = (scale * Math.max(bound - reached, 1e-3)) / length;
    for (const row of open) {
      const moved = (trial[row] ?? 0) - stride * ((times[row] ?? 0) - 1);
      trial[row] = Math.min(weights[row] ?? 0, Math.max(0, moved));
    }
  }
  return least;
}
