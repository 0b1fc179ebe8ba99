import { Problem } from "../../errors/problem.ts";
import { judgeSale } from "./judge-sale.ts";
import type { MilpLimits, SolveMilp } from "./milp.ts";
import type { Resource, SaleAnswer, SaleProblem } from "./sale-problem.ts";
import { isStowed, solveByProgramme, stowedBy } from "./solve-by-programme.ts";
import { solvePacks } from "./solve-packs.ts";

/** What a cap allows and what the safety tier needs of it at least, the other caps lifted. */
export interface Need {
  readonly resource: Exclude<Resource, "pieces">;
  /** Whole units; of mass and volume no more than all lockers together. */
  readonly allowed: number;
  readonly needed: number;
  /** The purchase that needs least of it: what stands in the way. */
  readonly units: Int32Array;
}

export interface SaleOutcome {
  /** The best kit there is within the caps; where `isSafe` is false, the one that comes nearest to the safety target. */
  readonly answer: SaleAnswer;
  /** False where the caps are below what the safety tier needs. */
  readonly isSafe: boolean;
  /** True where targets were asked for and the caps do not allow them all, so that the most was sought instead. */
  readonly isFallback: boolean;
  /** Where not safe: caps below what safety needs, each by itself; empty where each could be kept but not all together. */
  readonly needs: readonly Need[];
}

/**
 * Returns the best purchase within caps, safety first.
 *
 * aim `least`: the least objective that reaches every target within the caps. Where the caps do not allow that, and
 * where the aim is `most`: the safety tier's target is held, then sum over tiers of weight_t ln R_t is made the most.
 * Where the caps do not even allow the safety target: the most ln R of the safety tier, and per cap what safety needs.
 *
 * @param solve the mixed-integer solver, handed in
 * @param limits time for all solves together, a signal, an ear for progress
 * @throws Problem `input-invalid` where the most is asked for without any cap; else as solve-by-programme.ts
 */
export async function solveSale(
  problem: SaleProblem,
  solve: SolveMilp,
  limits: MilpLimits,
): Promise<SaleOutcome> {
  const ends = performance.now() + limits.seconds * 1000;
  const left = (): MilpLimits => ({
    ...limits,
    seconds: Math.max(0.05, (ends - performance.now()) / 1000),
  });
  const { caps } = problem;
  const isCapped =
    caps.cost !== undefined ||
    caps.mass !== undefined ||
    caps.volume !== undefined ||
    caps.lockers !== undefined;
  if (problem.aim === "most" && !isCapped) {
    throw new Problem(
      "input-invalid",
      "The most can be asked for only within a cap; received none. Give a cap on money, kilograms or litres.",
    );
  }
  const good = { isSafe: true, isFallback: false, needs: [] };
  if (problem.aim === "least") {
    const free = solvePacks({ ...problem, caps: {} }, () => performance.now() > ends);
    if (free !== undefined) {
      const within = keptWithin(problem, free);
      if (within !== undefined && (free.status === "optimal" || !isCapped))
        return { answer: within, ...good };
    }
    const found = await solveByProgramme(problem, solve, left(), free?.units);
    if (found !== undefined) return { answer: found, ...good };
  }
  const most: SaleProblem = { ...problem, aim: "most" };
  const found = await solveByProgramme(most, solve, left());
  if (found !== undefined)
    return { answer: found, isSafe: true, isFallback: problem.aim === "least", needs: [] };
  const safest = await solveByProgramme(
    { ...most, targets: [undefined, undefined, undefined], weights: [1, 0, 0] },
    solve,
    left(),
  );
  if (safest === undefined)
    throw new Problem("unexpected", "Buying nothing at all must fit any cap.");
  return {
    answer: { ...safest, status: "infeasible" },
    isSafe: false,
    isFallback: problem.aim === "least",
    needs: safetyNeeds(problem),
  };
}

/** The answer with its places, where it keeps the caps that were lifted to find it. */
function keptWithin(problem: SaleProblem, answer: SaleAnswer): SaleAnswer | undefined {
  if (!judgeSale(problem, answer.units).isWithinCaps) return undefined;
  if (problem.caps.lockers === undefined) return answer;
  const stowed = stowedBy(problem, answer.units);
  if (stowed === undefined || !isStowed(problem, answer.units, stowed)) return undefined;
  return { ...answer, stowed };
}

/** Per cap, the least the safety target needs of it with every other cap lifted, where that is more than allowed. */
function safetyNeeds(problem: SaleProblem): readonly Need[] {
  const { caps } = problem;
  const least = (resource: Exclude<Resource, "pieces">): SaleAnswer | undefined =>
    solvePacks({
      ...problem,
      targets: [problem.targets[0], undefined, undefined],
      objective: resource,
      caps: {},
      aim: "least",
    });
  const needs: Need[] = [];
  const add = (resource: Exclude<Resource, "pieces">, allowed: number | undefined): void => {
    if (allowed === undefined || allowed === Infinity) return;
    const found = least(resource);
    if (found === undefined || found.bound <= allowed) return;
    needs.push({ resource, allowed, needed: found.bound, units: found.units });
  };
  const total = (of: "mass" | "volume"): number | undefined =>
    caps.lockers?.reduce((sum, room) => sum + (room[of] ?? Infinity), 0);
  const lower = (a: number | undefined, b: number | undefined): number | undefined =>
    a === undefined ? b : b === undefined ? a : Math.min(a, b);
  add("cost", caps.cost);
  add("mass", lower(caps.mass, total("mass")));
  add("volume", lower(caps.volume, total("volume")));
  return needs;
}
