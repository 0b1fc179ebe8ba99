import { type Cover, type CoverProblem, columnsOfRows, requireCover } from "./cover-problem.ts";
import { CoverSearch } from "./cover-search.ts";
import { greedyCover } from "./greedy-cover.ts";
import { reduceCover } from "./reduce-cover.ts";
import { withoutRedundant } from "./without-redundant.ts";

const defaultNodeLimit = 20_000;
/** Nodes times entries of the core: some seconds of work, so that a hard problem ends with its gap stated. */
const effort = 1e7;

/**
 * The cheapest set of columns that covers every row that can be covered, exactly: reductions, then depth-first
 * branch and bound on Lagrangian bounds with fixing by reduced cost. At the node limit (by default fewer nodes the
 * larger the problem) the best cover found and the bound proven stand, with their gap. Costs that are not whole are compared to within 1e-9 of the cost.
 */
export function minimumCover(problem: CoverProblem, nodeLimit?: number): Cover {
  requireCover(problem);
  const { rowCount, columns } = problem;
  const costOf = (column: number): number => problem.costs?.[column] ?? 1;
  const total = (chosen: readonly number[]): number =>
    chosen.reduce((sum, column) => sum + costOf(column), 0);
  const uncoverable = columnsOfRows(problem).flatMap((list, row) => (list.length > 0 ? [] : [row]));
  const core = reduceCover(problem);
  const rowAt = new Map(core.rows.map((row, at) => [row, at]));
  const coreColumns = core.columns.map((column) =>
    Int32Array.from(
      (columns[column] ?? []).flatMap((row) => {
        const at = rowAt.get(row);
        return at === undefined ? [] : [at];
      }),
    ),
  );
  const entries = coreColumns.reduce((sum, rows) => sum + rows.length, 1);
  const search = new CoverSearch(
    core.rows.length,
    coreColumns,
    Float64Array.from(core.columns, costOf),
    nodeLimit ?? Math.min(defaultNodeLimit, Math.ceil(effort / entries)),
  );
  const found = search.run();
  const settled = total(core.essential);
  const covers = [
    [...core.essential, ...found.chosen.map((at) => core.columns[at] ?? 0)],
    greedyCover(problem).chosen,
  ].map((chosen) => withoutRedundant(chosen, columns, costOf, rowCount));
  const [first = [], second = []] = covers;
  const chosen = total(second) < total(first) ? second : first;
  const cost = total(chosen);
  const lowerBound = found.proven ? cost : Math.min(cost, settled + found.lowerBound);
  const isOptimal = found.proven || lowerBound >= cost;
  return {
    status: isOptimal ? "optimal" : "stopped",
    chosen,
    cost,
    lowerBound,
    gap: isOptimal || cost === 0 ? 0 : (cost - lowerBound) / cost,
    nodes: found.nodes,
    uncoverable,
  };
}
