import { localSearch } from "./local-search.ts";
import { withPrice } from "./solve-by-parts.ts";
import {
  type Assignment,
  type StandardProblem,
  type StockLevels,
  standardCost,
} from "./standard-problem.ts";

export interface BudgetSearch {
  readonly taken: Assignment;
  /** The price of the budget that led there; 0 where the budget does not bind. */
  readonly price: number;
}

const highestPrice = 4;
const tries = 6;

/**
 * Returns a good assignment within the budget, and what the budget's money is worth.
 *
 * Without regard to the budget first; where that spends too much, changes are made dearer by a price, halved in on until the
 * search spends little less than the budget, so that the money goes where it saves most; then what is left is spent.
 */
export function budgetSearch(
  problem: StandardProblem,
  levels: readonly StockLevels[],
  shouldStop: () => boolean,
): BudgetSearch {
  const spend = (taken: Assignment): number => standardCost(problem, taken, levels).change;
  const at = (price: number): Assignment =>
    localSearch(
      { ...withPrice(problem, price), budget: Number.POSITIVE_INFINITY },
      { levels, shouldStop },
    );
  const free = at(0);
  if (spend(free) <= problem.budget) return { taken: free, price: 0 };
  let best = localSearch(problem, { levels, shouldStop });
  let total = standardCost(problem, best, levels).total;
  let low = 0;
  let high = highestPrice;
  for (let step = 0; step < tries && !shouldStop(); step++) {
    const price = (low + high) / 2;
    const priced = at(price);
    if (spend(priced) > problem.budget) {
      low = price;
      continue;
    }
    high = price;
    const polished = localSearch(problem, { levels, shouldStop, start: priced });
    const cost = standardCost(problem, polished, levels).total;
    if (cost >= total) continue;
    best = polished;
    total = cost;
  }
  return { taken: best, price: (low + high) / 2 };
}
