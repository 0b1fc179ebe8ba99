import type { MilpLimits, SolveMilp } from "../packs/milp.ts";
import { budgetSearch } from "./budget-search.ts";
import { type PartsAnswer, solveByParts } from "./solve-by-parts.ts";
import { standardMilp } from "./standard-milp.ts";
import {
  levelsOf,
  type StandardCost,
  type StandardProblem,
  type StockLevels,
  standardCost,
} from "./standard-problem.ts";

export interface StandardAnswer {
  /** `optimal`: no assignment costs less in the planning model. `stopped`: the best found, with its bound. */
  readonly status: "optimal" | "stopped";
  readonly taken: readonly Int32Array[];
  readonly cost: StandardCost;
  /** No assignment within the budget costs less. */
  readonly lowerBound: number;
  /** (cost - lowerBound) / cost; 0 when proven. */
  readonly gap: number;
  readonly foundBy: "programme" | "local search";
}

/** Up to so many groups of positions the programme is solved whole; beyond, part by part. */
const mostGroupsWhole = 150;
/** Share of the time that goes to the search before the programme. */
const searchShare = 0.25;

/**
 * Returns the least-cost assignment of a standardising problem, or the best found within the time with a bound on how
 * much better any could be. Search first, then the programme, whole or part by part, whose bound holds for both; what the solver returns
 * is costed again from the choices, never taken at its word. Costs are whole minor units: a bound less than half a unit
 * below is a proof.
 *
 * @param threads parts solved at once; `solve` must bear as many calls
 * Errors: those of `solve`; the signal's reason when cancelled.
 */
export async function solveStandard(
  problem: StandardProblem,
  solve: SolveMilp,
  limits: MilpLimits,
  threads = 1,
): Promise<StandardAnswer> {
  const began = performance.now();
  const { seconds, signal } = limits;
  const levels = levelsOf(problem);
  const left = (): number => seconds - (performance.now() - began) / 1000;
  const { taken: found, price } = await budgetSearch(
    problem,
    levels,
    () => left() < seconds * (1 - searchShare) || signal?.aborted === true,
  );
  signal?.throwIfAborted();
  const rest = { ...limits, seconds: Math.max(0.1, left()) };
  const proof =
    problem.groups.length > mostGroupsWhole
      ? await solveByParts(problem, solve, rest, price, threads)
      : await solveWhole(problem, solve, rest, levels);
  const own = standardCost(problem, found, levels);
  const theirs =
    proof.taken !== undefined && isWithin(problem, proof.taken)
      ? { taken: proof.taken, cost: standardCost(problem, proof.taken, levels) }
      : undefined;
  const isTheirs = theirs !== undefined && theirs.cost.total < own.total;
  const taken = isTheirs ? theirs.taken : found;
  const cost = isTheirs ? theirs.cost : own;
  const bound = proof.lowerBound;
  const whole = Number.isFinite(bound) ? Math.ceil(bound - 0.5) : bound > 0 ? cost.total : 0;
  const lowerBound = Math.max(0, Math.min(cost.total, whole));
  return {
    status: lowerBound >= cost.total ? "optimal" : "stopped",
    taken,
    cost,
    lowerBound,
    gap: cost.total === 0 ? 0 : (cost.total - lowerBound) / cost.total,
    foundBy: isTheirs ? "programme" : "local search",
  };
}

/** The programme of the whole problem, and what it proves. */
async function solveWhole(
  problem: StandardProblem,
  solve: SolveMilp,
  limits: MilpLimits,
  levels: readonly StockLevels[],
): Promise<PartsAnswer> {
  const { programme, constant, decode } = standardMilp(problem, levels);
  const { progress } = limits;
  const outcome = await solve(programme, {
    ...limits,
    ...(progress === undefined
      ? {}
      : {
          progress: (at) =>
            progress({
              seconds: at.seconds,
              ...(at.best === undefined ? {} : { best: at.best + constant }),
              ...(at.bound === undefined ? {} : { bound: at.bound + constant }),
            }),
        }),
  });
  return {
    lowerBound: outcome.bound + constant,
    taken: outcome.values === undefined ? undefined : decode(outcome.values),
  };
}

/** Whether an assignment is whole, complete and within the budget. */
export function isWithin(problem: StandardProblem, taken: readonly Int32Array[]): boolean {
  let spent = 0;
  return (
    problem.groups.every(({ count, options }, g) => {
      const counts = taken[g] ?? new Int32Array(0);
      options.forEach(({ cost }, o) => {
        spent += cost * (counts[o] ?? 0);
      });
      return counts.every((n) => n >= 0) && counts.reduce((sum, n) => sum + n, 0) === count;
    }) && spent <= problem.budget
  );
}
