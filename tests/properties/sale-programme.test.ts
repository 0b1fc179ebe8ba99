import { expect, test } from "vitest";
import { solveInThread } from "../../api/plans/solve/solve-in-thread.ts";
import { judgeSale } from "../../api/scoring/packs/judge-sale.ts";
import type { SaleProblem } from "../../api/scoring/packs/sale-problem.ts";
import { solveByProgramme } from "../../api/scoring/packs/solve-by-programme.ts";
import { seededRandom } from "../tools/random-kit.ts";
import { randomSale } from "../tools/random-sale.ts";
import { bestByTrying } from "./brute-force-sale.ts";

const limits = { seconds: 20 };

async function expectBest(problem: SaleProblem): Promise<boolean> {
  const best = bestByTrying(problem);
  const answer = await solveByProgramme(problem, solveInThread, limits);
  if (best === undefined) {
    expect(answer).toBeUndefined();
    return false;
  }
  if (answer === undefined) throw new Error(`A kit of ${best} was missed.`);
  expect(answer.status).toBe("optimal");
  expect(answer.gap).toBeLessThanOrEqual(problem.aim === "least" ? 0 : 2e-7);
  if (problem.aim === "least") expect(answer.value).toBe(best);
  else expect(answer.value).toBeCloseTo(best, 6);
  const judged = judgeSale(problem, answer.units);
  expect(judged.isPossible && judged.isWithinCaps).toBe(true);
  return true;
}

test("packs, least orders and service kits cost what trying every purchase finds", async () => {
  for (let seed = 0; seed < 25; seed++) {
    const problem = randomSale(
      { parts: 3, kits: 2, packs: 0.5, tiers: seed % 2 === 0 ? 1 : 3, levels: 4 },
      seed,
    );
    await expectBest(problem);
  }
}, 60_000);

test("under caps on money, mass and volume the most is had that trying every purchase finds", async () => {
  let possible = 0;
  for (let seed = 0; seed < 25; seed++) {
    const random = seededRandom(seed + 900);
    const problem = randomSale({ parts: 3, kits: 1, packs: 0.6, tiers: 3, levels: 4 }, seed);
    const capped: SaleProblem = {
      ...problem,
      targets: [0.9, 0.9, 0.5],
      aim: seed % 3 === 0 ? "least" : "most",
      caps: {
        cost: Math.round(20_000 * random()),
        ...(random() < 0.5 ? { mass: Math.round(5000 * random()) } : {}),
        ...(random() < 0.5 ? { volume: Math.round(2500 * random()) } : {}),
      },
    };
    if (await expectBest(capped)) possible++;
  }
  expect(possible).toBeGreaterThan(8);
}, 60_000);

test("in lockers the best is had that trying every purchase and every placing finds", async () => {
  let possible = 0;
  for (let seed = 0; seed < 12; seed++) {
    const random = seededRandom(seed + 300);
    const problem = randomSale({ parts: 2, kits: 1, packs: 0.5, tiers: 3, levels: 4 }, seed);
    const room = () => ({
      mass: Math.round(2500 * random()),
      ...(random() < 0.5 ? { volume: Math.round(1500 * random()) } : {}),
    });
    const stowed: SaleProblem = {
      ...problem,
      targets: [0.8, 0.9, 0.5],
      aim: seed % 3 === 0 ? "least" : "most",
      caps: { lockers: [room(), room()] },
    };
    if (await expectBest(stowed)) possible++;
  }
  expect(possible).toBeGreaterThan(4);
}, 60_000);
