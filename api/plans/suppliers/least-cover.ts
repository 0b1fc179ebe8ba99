import type { SuppliersAnswer } from "../../contract/suppliers.contract.ts";
import type { CoverProblem } from "../../scoring/coverage/cover-problem.ts";
import { greedyCover } from "../../scoring/coverage/greedy-cover.ts";
import { minimumCover } from "../../scoring/coverage/minimum-cover.ts";

/** The cheapest suppliers that between them offer everything anyone offers, with the step-by-step answer beside. */
export function leastCover(
  problem: CoverProblem,
  refer: (supplier: number) => { id: string; name: string },
): SuppliersAnswer["least"] {
  const exact = minimumCover(problem);
  const greedy = greedyCover(problem);
  return {
    status: exact.status,
    suppliers: exact.chosen.map(refer),
    cost: exact.cost,
    lowerBound: exact.lowerBound,
    gap: exact.gap,
    greedy: { suppliers: greedy.chosen.map(refer), cost: greedy.cost },
  };
}
