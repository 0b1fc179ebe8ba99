import { type CoverProblem, requireCover } from "./cover-problem.ts";

/**
 * Covers step by step, always by the column that costs least per row newly covered (ties: more rows, then the
 * lower number). At most H(largest column) times the least cost. Source: Chvátal 1979. O(steps · entries).
 */
export function greedyCover(problem: CoverProblem): { chosen: readonly number[]; cost: number } {
  requireCover(problem);
  const { columns, costs, rowCount } = problem;
  const open = new Uint8Array(rowCount).fill(1);
  const gains = columns.map((rows) => rows.length);
  const chosen: number[] = [];
  let cost = 0;
  for (;;) {
    let best = -1;
    let bestPrice = Number.POSITIVE_INFINITY;
    columns.forEach((rows, column) => {
      if ((gains[column] ?? 0) === 0) return;
      const gain = rows.reduce((sum, row) => sum + (open[row] ?? 0), 0);
      gains[column] = gain;
      if (gain === 0) return;
      const price = (costs?.[column] ?? 1) / gain;
      if (price < bestPrice || (price === bestPrice && gain > (gains[best] ?? 0))) {
        best = column;
        bestPrice = price;
      }
    });
    if (best < 0) return { chosen: chosen.sort((a, b) => a - b), cost };
    chosen.push(best);
    cost += costs?.[best] ?? 1;
    for (const row of columns[best] ?? []) open[row] = 0;
  }
}
