import type { MilpLimits, SolveMilp } from "../packs/milp.ts";
import { cheapestEach, needsWithoutOffer } from "./cheapest-each.ts";
import { orderMilp } from "./order-milp.ts";
import { type OrderCost, type OrderProblem, orderCost, requireOrder } from "./order-problem.ts";

/** `optimal`: proven least. `stopped`: the best found in the time, with its gap. `infeasible`: no order meets the needs. */
export interface LeastOrder extends OrderCost {
  readonly status: "optimal" | "stopped" | "infeasible";
  /** Packs of each offer. */
  readonly packs: Int32Array;
  /** No order costs less, minor units; equal to `totalMinor` when optimal. */
  readonly lowerBoundMinor: number;
  /** (total - bound) / total; 0 when optimal. */
  readonly gap: number;
  /** Each need from whoever asks least for it: never cheaper. Undefined where such an order cannot be placed. */
  readonly eachAlone: OrderCost | undefined;
}

/**
 * Returns the least-cost order over all suppliers, proven, or the best found within the limits with its bound.
 *
 * The solver's answer is rounded to whole packs, checked against every rule and costed again in whole minor units; an
 * answer that breaks one is thrown out for the order by cheapest offers, and is then `stopped`, never `optimal`.
 * Errors: `input-invalid` (counts and prices), those of the solver.
 */
export async function leastOrder(
  problem: OrderProblem,
  solve: SolveMilp,
  limits: MilpLimits,
): Promise<LeastOrder> {
  requireOrder(problem);
  const alone = cheapestEach(problem);
  const eachAlone = alone === undefined ? undefined : orderCost(problem, alone);
  const nothing = new Int32Array(problem.offers.length);
  if (problem.needs.length === 0) {
    const cost = orderCost(problem, nothing);
    return { ...cost, status: "optimal", packs: nothing, lowerBoundMinor: 0, gap: 0, eachAlone };
  }
  const infeasible: LeastOrder = {
    totalMinor: 0,
    bills: [],
    broken: [],
    status: "infeasible",
    packs: nothing,
    lowerBoundMinor: 0,
    gap: 0,
    eachAlone,
  };
  if (needsWithoutOffer(problem).length > 0) return infeasible;
  const { programme, packs: packsOf } = orderMilp(problem);
  const outcome = await solve(programme, limits);
  if (outcome.status === "infeasible") return infeasible;
  const bound = Math.max(0, Math.ceil(outcome.bound - 1e-3));
  const found = outcome.values === undefined ? undefined : packsOf(outcome.values);
  const candidates = [found, alone]
    .flatMap((packs) => (packs === undefined ? [] : [{ packs, cost: orderCost(problem, packs) }]))
    .filter(({ cost }) => cost.broken.length === 0)
    .sort((a, b) => a.cost.totalMinor - b.cost.totalMinor);
  const [best] = candidates;
  if (best === undefined) {
    const cost = { totalMinor: 0, bills: [], broken: ["no order was found in the time allowed"] };
    return {
      ...cost,
      status: "stopped",
      packs: nothing,
      lowerBoundMinor: bound,
      gap: 1,
      eachAlone,
    };
  }
  const total = best.cost.totalMinor;
  const lowerBoundMinor = Math.min(total, bound);
  const isProven = outcome.status === "optimal" && lowerBoundMinor >= total;
  return {
    ...best.cost,
    status: isProven ? "optimal" : "stopped",
    packs: best.packs,
    lowerBoundMinor,
    gap: total === 0 ? 0 : (total - lowerBoundMinor) / total,
    eachAlone,
  };
}
