import { Problem } from "../../errors/problem.ts";
import { logTarget } from "../kit/log-target.ts";
import { checkSale } from "./check-sale.ts";
import { judgeSale, type SaleJudgement } from "./judge-sale.ts";
import type { MilpLimits, MilpOutcome, SolveMilp } from "./milp.ts";
import { IMPOSSIBLE, NEAR_ENOUGH, saleMilp } from "./sale-milp.ts";
import type { SaleAnswer, SaleProblem } from "./sale-problem.ts";
import { stowUnits } from "./stow-units.ts";
import { uselessOffers } from "./useless-offers.ts";

/** Near misses are asked again with the target raised by their shortfall; more than this many in a row are told as a gap. */
const MOST_REPAIRS = 5;

/** What a programme's solution is worth: whole units of the objective, or weighted ln sufficiency with a floor. */
export function saleValue(problem: SaleProblem, judged: SaleJudgement): number {
  if (problem.aim === "least") return judged.uses[problem.objective];
  let value = 0;
  problem.parts.forEach((part, p) => {
    const at = Math.min(judged.pieces[p] ?? 0, part.logCdf.length - 1);
    value += problem.weights[part.tier] * Math.max(IMPOSSIBLE, part.logCdf[at] ?? IMPOSSIBLE);
  });
  return value;
}

/**
 * Returns the best kit by a mixed-integer solver, judged afresh in exact terms; undefined where no kit satisfies the
 * targets and caps.
 *
 * The solver works within tolerances, so its kit may miss a target by a hair: such a kit is not taken. The same
 * programme is asked again with that tier's target raised by the shortfall and more each time, until the kit no longer
 * passes; the
 * bound is still the first one, so the gap stays honest. In a `least` problem a bound between two whole units
 * holds at the upper one.
 *
 * @param known a kit known to be possible; it is returned if time runs out before a better one is found
 * @throws Problem `unexpected` where the solver's kit breaks a whole-number limit (a fault in the model)
 */
export async function solveByProgramme(
  problem: SaleProblem,
  solve: SolveMilp,
  limits: MilpLimits,
  known?: Int32Array,
): Promise<SaleAnswer | undefined> {
  checkSale(problem);
  const began = performance.now();
  const useless = uselessOffers(problem.offers);
  const tighten: [number, number, number] = [0, 0, 0];
  let bound: number | undefined;
  let best: SaleAnswer | undefined;
  const isMost = problem.aim === "most";
  const better = (a: number, b: number): boolean => (isMost ? a > b : a < b);
  const consider = (
    units: Int32Array,
    stowed: readonly (readonly number[])[] | undefined,
    repaired: boolean,
  ): boolean => {
    const judged = judgeSale(problem, units);
    if (!judged.isPossible || !judged.isWithinCaps || stowed === undefined) return false;
    const must = isMost ? ([0] as const) : ([0, 1, 2] as const);
    if (must.some((tier) => judged.short[tier] > 0)) return false;
    const value = saleValue(problem, judged);
    if (best !== undefined && !better(value, best.value)) return true;
    best = answerOf(problem, units, judged, value, stowed, repaired);
    return true;
  };
  if (known !== undefined) consider(known, stowedBy(problem, known), false);
  for (let attempt = 0; ; attempt++) {
    const model = saleMilp(problem, useless, tighten);
    const left = limits.seconds - (performance.now() - began) / 1000;
    if (left <= 0 && attempt > 0) return finish(problem, best, bound, false);
    const outcome: MilpOutcome = await solve(model.programme, { ...limits, seconds: left });
    if (bound === undefined && outcome.status !== "infeasible")
      bound = model.valueOf(outcome.bound);
    if (outcome.status === "infeasible") {
      // After a repair: no kit beyond the near misses. Before one: none at all, but for the kit known.
      return finish(problem, best, attempt === 0 ? best?.value : bound, true);
    }
    if (outcome.values === undefined) return finish(problem, best, bound, false);
    const units = model.unitsOf(outcome.values);
    const stowed = model.stowedOf(outcome.values);
    const fits = problem.caps.lockers === undefined || isStowed(problem, units, stowed);
    const isGood = fits && consider(units, stowed, attempt > 0);
    if (isGood) return finish(problem, best, bound, outcome.status === "optimal");
    const judged = judgeSale(problem, units);
    if (!judged.isPossible || attempt >= MOST_REPAIRS) {
      if (best === undefined)
        throw new Problem(
          "unexpected",
          "The solver's kit breaks a limit by more than rounding. Please report it with your file.",
        );
      return finish(problem, best, bound, false);
    }
    ([0, 1, 2] as const).forEach((tier) => {
      if (judged.short[tier] <= 0) return;
      const target = problem.targets[tier];
      const size = target === undefined ? 0 : Math.abs(logTarget(target));
      tighten[tier] += judged.short[tier] * 2 + (size * 1e-9 + 2e-9) * 10 ** attempt;
    });
  }
}

export function stowedBy(
  problem: SaleProblem,
  units: Int32Array,
): readonly (readonly number[])[] | undefined {
  if (problem.caps.lockers === undefined) return [];
  return stowUnits(problem.offers, units, problem.caps.lockers);
}

/** True where every unit has a locker and no locker holds more than it may. */
export function isStowed(
  { offers, caps }: SaleProblem,
  units: ArrayLike<number>,
  stowed: readonly (readonly number[])[],
): boolean {
  const rooms = caps.lockers ?? [];
  const mass = rooms.map(() => 0);
  const volume = rooms.map(() => 0);
  const all = offers.every((offer, u) => {
    for (const l of stowed[u] ?? []) {
      mass[l] = (mass[l] ?? 0) + offer.uses.mass;
      volume[l] = (volume[l] ?? 0) + offer.uses.volume;
    }
    return (stowed[u]?.length ?? 0) === (units[u] ?? 0);
  });
  return (
    all &&
    rooms.every(
      (room, l) =>
        (mass[l] ?? 0) <= (room.mass ?? Infinity) && (volume[l] ?? 0) <= (room.volume ?? Infinity),
    )
  );
}

export function answerOf(
  problem: SaleProblem,
  units: Int32Array,
  judged: SaleJudgement,
  value: number,
  stowed: readonly (readonly number[])[],
  repaired: boolean,
): SaleAnswer {
  return {
    status: "unproven",
    method: "programme",
    units,
    pieces: judged.pieces,
    uses: judged.uses,
    value,
    bound: value,
    gap: 0,
    sufficiency: [Math.exp(judged.log[0]), Math.exp(judged.log[1]), Math.exp(judged.log[2])],
    ...(problem.caps.lockers === undefined ? {} : { stowed }),
    repaired,
  };
}

/** Sets status, bound and gap. Bounds of whole units are rounded to the whole unit they prove. */
function finish(
  problem: SaleProblem,
  best: SaleAnswer | undefined,
  bound: number | undefined,
  isDone: boolean,
): SaleAnswer | undefined {
  if (best === undefined) {
    if (isDone) return undefined;
    throw new Problem(
      "time-up",
      "No kit was found within the time allowed. Allow more time, or ask for fewer limits.",
    );
  }
  const isMost = problem.aim === "most";
  const slack = 1e-6 + Math.abs(best.value) * 1e-9;
  const raw = bound ?? 0;
  const proven = isMost
    ? Math.max(best.value, raw)
    : Math.min(best.value, Math.max(0, Math.ceil(raw - slack)));
  const gap = Math.abs(proven - best.value);
  const isOptimal = isDone && (isMost ? gap <= 2 * NEAR_ENOUGH : gap === 0);
  return {
    ...best,
    status: isOptimal ? "optimal" : "unproven",
    bound: proven,
    gap,
  };
}
