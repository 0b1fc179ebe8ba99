import { expect, test } from "vitest";
import { solveInThread } from "../../api/plans/solve/solve-in-thread.ts";
import { minimumKit } from "../../api/scoring/kit/minimum-kit.ts";
import { judgeSale } from "../../api/scoring/packs/judge-sale.ts";
import type { SaleProblem } from "../../api/scoring/packs/sale-problem.ts";
import { solveByProgramme } from "../../api/scoring/packs/solve-by-programme.ts";
import { solvePacks } from "../../api/scoring/packs/solve-packs.ts";
import { randomSale } from "../tools/random-sale.ts";
import { bestByTrying } from "./brute-force-sale.ts";

test("the fast method costs what trying every purchase finds", () => {
  let kitsBought = 0;
  for (let seed = 0; seed < 24; seed++) {
    const problem = randomSale(
      { parts: 3, kits: 2, packs: 0.5, tiers: seed % 2 === 0 ? 1 : 3, levels: 3 },
      seed,
    );
    const best = bestByTrying(problem);
    const answer = solvePacks(problem);
    if (best === undefined) {
      expect(answer).toBeUndefined();
      continue;
    }
    expect(answer, `seed ${seed}`).toMatchObject({
      status: "optimal",
      value: best,
      bound: best,
      gap: 0,
    });
    if (answer === undefined) continue;
    expect(judgeSale(problem, answer.units).uses.cost).toBe(best);
    problem.offers.forEach((offer, u) => {
      if (offer.contents.length > 1) kitsBought += answer.units[u] ?? 0;
    });
  }
  expect(kitsBought).toBeGreaterThan(4);
});

test("the fast method costs what HiGHS proves, with packs, least orders and kits across three tiers", async () => {
  for (let seed = 0; seed < 12; seed++) {
    const problem = randomSale(
      { parts: 12 + 4 * seed, kits: 2 + (seed % 5), packs: 0.4, tiers: seed % 3 === 0 ? 1 : 3 },
      70 + seed,
    );
    const ours = solvePacks(problem);
    const theirs = await solveByProgramme(problem, solveInThread, { seconds: 30 });
    expect(theirs?.status, `seed ${seed}`).toBe("optimal");
    expect(ours, `seed ${seed}`).toMatchObject({ status: "optimal", value: theirs?.value });
  }
}, 120_000);

test("where parts are sold singly the answer costs what the fast exact kit costs", () => {
  for (let seed = 0; seed < 20; seed++) {
    const problem = randomSale({ parts: 40, kits: 0, packs: 0, tiers: 3 }, 400 + seed);
    const parts = problem.parts.map((part, p) => ({
      logCdf: part.logCdf,
      tier: part.tier,
      unitCost: problem.offers[p]?.uses.cost ?? 0,
    }));
    const kit = minimumKit({ parts, targets: problem.targets });
    const answer = solvePacks(problem);
    expect(answer?.value).toBe(kit.cost);
    expect([...(answer?.pieces ?? [])]).toEqual([...kit.buys]);
  }
});

const scaled = (problem: SaleProblem, by: number): SaleProblem => ({
  ...problem,
  offers: problem.offers.map((offer) => ({
    ...offer,
    uses: { ...offer.uses, cost: offer.uses.cost * by },
  })),
});

test("cost rises with the target, scales with prices and does not depend on the order of offers or parts", () => {
  for (let seed = 0; seed < 15; seed++) {
    const problem = randomSale({ parts: 15, kits: 3, packs: 0.4, tiers: 3 }, 600 + seed);
    const cost = solvePacks(problem)?.value ?? Number.NaN;
    const easier = solvePacks({ ...problem, targets: [0.95, 0.9, 0.7] })?.value ?? Number.NaN;
    expect(easier).toBeLessThanOrEqual(cost);
    expect(solvePacks(scaled(problem, 7))?.value).toBe(7 * cost);
    const last = problem.parts.length - 1;
    const turned: SaleProblem = {
      ...problem,
      parts: problem.parts.toReversed(),
      offers: problem.offers.toReversed().map((offer) => ({
        ...offer,
        contents: offer.contents.map((c) => ({ ...c, part: last - c.part })),
      })),
    };
    expect(solvePacks(turned)?.value).toBe(cost);
  }
});
