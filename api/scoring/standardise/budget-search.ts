import { type LocalSearchLimits, searchSteps } from "./local-search.ts";
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

/** Longest stretch of search between two turns of the event loop, in milliseconds. */
const turn = 15;

/** A local search that lets other work take its turn, a cancelling signal for one. */
async function searchInTurns(
  problem: StandardProblem,
  limits: LocalSearchLimits,
): Promise<Assignment> {
  const steps = searchSteps(problem, limits);
  let last = performance.now();
  let step = steps.next();
  while (!step.done) {
    if (performance.now() - last > turn) {
      await new Promise((resolve) => setImmediate(resolve));
      last = performance.now();
    }
    step = steps.next();
  }
  return step.value;
}

/**
 * Returns a good assignment within the budget, and what the budget's money is worth.
 *
 * Without regard to the budget first; where that spends too much, changes are made dearer by a price, halved in on until the
 * search spends little less than the budget, so that the money goes where it saves most; then what is left is spent.
 */
export async function budgetSearch(
  problem: StandardProblem,
  levels: readonly StockLevels[],
  shouldStop: () => boolean,
): Promise<BudgetSearch> {
  const spend = (taken: Assignment): number => standardCost(problem, taken, levels).change;
  const at = (price: number): Promise<Assignment> =>
    searchInTurns(
      { ...withPrice(problem, price), budget: Number.POSITIVE_INFINITY },
      { levels, shouldStop },
    );
  const free = await at(0);
  if (spend(free) <= problem.budget) return { taken: free, price: 0 };
  let best = await searchInTurns(problem, { levels, shouldStop });
  let total = standardCost(problem, best, levels).total;
  let low = 0;
  let high = highestPrice;
  for (let step = 0; step < tries && !shouldStop(); step++) {
    const price = (low + high) / 2;
    const priced = await at(price);
    if (spend(priced) > problem.budget) {
      low = price;
      continue;
    }
    high = price;
    const polished = await searchInTurns(problem, { levels, shouldStop, start: priced });
    const cost = standardCost(problem, polished, levels).total;
    if (cost >= total) continue;
    best = polished;
    total = cost;
  }
  return { taken: best, price: (low + high) / 2 };
}
