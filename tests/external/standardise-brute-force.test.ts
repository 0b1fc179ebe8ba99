import { describe, expect, test } from "vitest";
import { solveInThread } from "../../api/plans/solve/solve-in-thread.ts";
import { seededStream } from "../../api/scoring/simulation/xoshiro.ts";
import { budgetSearch } from "../../api/scoring/standardise/budget-search.ts";
import { carriedMean } from "../../api/scoring/standardise/carried-mean.ts";
import { solveByParts } from "../../api/scoring/standardise/solve-by-parts.ts";
import { isWithin, solveStandard } from "../../api/scoring/standardise/solve-standard.ts";
import {
  keepAll,
  levelsOf,
  type StandardProblem,
  standardCost,
} from "../../api/scoring/standardise/standard-problem.ts";

/** Poisson probabilities by plain multiplication, written apart from the program's own. */
function poisson(mean: number): (pieces: number) => number {
  return (pieces) => {
    let term = Math.exp(-mean);
    for (let k = 1; k <= pieces; k++) term *= mean / k;
    return term;
  };
}

/** ln F(s + 1) - ln F(s), by plain summation. */
function gain(mean: number, level: number): number {
  const p = poisson(mean);
  let held = 0;
  for (let k = 0; k <= level; k++) held += p(k);
  return Math.log((held + p(level + 1)) / held);
}

/** Pieces by the rule itself: buy one more as long as it gains more, per money, than the price of protection. */
function levelByRule(mean: number, ratio: number): number {
  let level = 0;
  while (mean > 0 && gain(mean, level) > ratio * (1 + 1e-9)) level++;
  return level;
}

describe("the mean a stock level can carry", () => {
  test("is where one piece more gains just its cost, for levels 0 to 12 and prices over six decades", () => {
    for (let level = 0; level <= 12; level++) {
      for (const ratio of [1e-5, 1e-3, 0.02, 0.3, 1.5]) {
        const mean = carriedMean(level, ratio);
        expect(gain(mean, level) / ratio).toBeCloseTo(1, 6);
        expect(levelByRule(mean * 0.999, ratio)).toBeLessThanOrEqual(level);
        expect(levelByRule(mean * 1.001, ratio)).toBeGreaterThan(level);
      }
    }
    // Level 0: ln(1 + m) = c / λ, so m = e^(c/λ) - 1.
    expect(carriedMean(0, Math.log(3))).toBeCloseTo(2, 10);
  });
});

function randomProblem(seed: number): StandardProblem {
  const random = seededStream(seed, 0);
  const below = (count: number): number => Math.floor(random() * count);
  const stocks = Array.from({ length: 3 + below(5) }, () => ({
    unitCost: 50 + below(4000),
    ratio: 0.001 + random() * 0.4,
    usable: below(3) === 0 ? below(3) : 0,
    fixedMean: random() < 0.5 ? random() * 0.6 : 0,
  }));
  const suppliers = 1 + below(4);
  const kits = Array.from({ length: 2 + below(3) }, () => ({
    held: random() < 0.2,
    sellers: Array.from({ length: below(3) }, () => {
      const set = Array.from({ length: suppliers }, (_, s) => s).filter(() => random() < 0.5);
      return set.length === 0 ? [below(suppliers)] : set;
    }),
  }));
  const groups = Array.from({ length: 1 + below(4) }, () => ({
    count: 1 + below(3),
    options: Array.from({ length: 2 + below(2) }, (_, o) => ({
      model: o,
      cost: o === 0 ? 0 : below(3000),
      kit: below(kits.length + 1) - 1,
      loads: stocks.flatMap((_, p) => (random() < 0.5 ? [[p, random() * 0.8] as const] : [])),
    })),
  }));
  return {
    groups,
    stocks,
    kits,
    suppliers,
    kitCharge: below(3) === 0 ? 0 : below(2500),
    supplierCharge: below(3) === 0 ? 0 : below(4000),
    budget: below(4) === 0 ? 0 : below(2) === 0 ? Number.POSITIVE_INFINITY : below(6000),
  };
}

/** The least cost over every assignment, each costed by the definitions, nothing shared with the program. */
function bruteForce(problem: StandardProblem): number {
  let best = Number.POSITIVE_INFINITY;
  const units = problem.groups.flatMap(({ count, options }) =>
    Array.from({ length: count }, () => options),
  );
  const visit = (at: number, chosen: (typeof units)[number][number][]): void => {
    const options = units[at];
    if (options !== undefined) {
      for (const option of options) visit(at + 1, [...chosen, option]);
      return;
    }
    const change = chosen.reduce((sum, { cost }) => sum + cost, 0);
    if (change > problem.budget) return;
    const stock = problem.stocks.reduce((sum, one, p) => {
      const mean = chosen.reduce(
        (m, { loads }) => m + loads.reduce((own, [s, x]) => own + (s === p ? x : 0), 0),
        one.fixedMean,
      );
      return sum + one.unitCost * Math.max(0, levelByRule(mean, one.ratio) - one.usable);
    }, 0);
    const kits = problem.kits.filter(({ held }, k) => held || chosen.some((o) => o.kit === k));
    const sets = kits.flatMap(({ sellers }) => sellers);
    let fewest = Number.POSITIVE_INFINITY;
    for (let mask = 0; mask < 2 ** problem.suppliers; mask++) {
      const has = (s: number): boolean => ((mask >> s) & 1) === 1;
      const size = Array.from({ length: problem.suppliers }, (_, s) => s).filter(has).length;
      if (size < fewest && sets.every((set) => set.some(has))) fewest = size;
    }
    best = Math.min(
      best,
      change + stock + kits.length * problem.kitCharge + fewest * problem.supplierCharge,
    );
  };
  visit(0, []);
  return best;
}

describe("standardising against brute force", () => {
  // Every assignment of small random problems, costed by the definitions; HiGHS must find and prove the same least cost.
  test("the programme proves the least cost of forty random problems, within the budget", async () => {
    for (let seed = 1; seed <= 40; seed++) {
      const problem = randomProblem(seed);
      const answer = await solveStandard(problem, solveInThread, { seconds: 20 });
      expect(answer.status, `seed ${seed}`).toBe("optimal");
      expect(answer.cost.total, `seed ${seed}`).toBe(bruteForce(problem));
      expect(isWithin(problem, answer.taken)).toBe(true);
    }
  }, 120_000);
});

describe("standardising part by part", () => {
  // Weak duality (Geoffrion 1974): at any price of the budget the parts' bound lies below the least cost.
  test("the parts' bound never exceeds the least cost, and their choices stay within the budget", async () => {
    for (let seed = 101; seed <= 125; seed++) {
      const problem = randomProblem(seed);
      const least = bruteForce(problem);
      for (const price of [0, 0.4, 2]) {
        const parts = await solveByParts(problem, solveInThread, { seconds: 10 }, price, 2);
        expect(parts.lowerBound, `seed ${seed}`).toBeLessThanOrEqual(least + 1e-6);
        if (parts.taken === undefined) continue;
        expect(isWithin(problem, parts.taken), `seed ${seed}`).toBe(true);
        expect(standardCost(problem, parts.taken).total).toBeGreaterThanOrEqual(least);
      }
      const { taken } = await budgetSearch(problem, levelsOf(problem), () => false);
      expect(isWithin(problem, taken)).toBe(true);
      const keep = standardCost(problem, keepAll(problem)).total;
      expect(standardCost(problem, taken).total).toBeGreaterThanOrEqual(least);
      expect(standardCost(problem, taken).total).toBeLessThanOrEqual(keep);
    }
  }, 120_000);
});
