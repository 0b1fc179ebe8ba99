import { expect, test } from "vitest";
import type { KitPart } from "../../api/scoring/kit/kit-problem.ts";
import { logTarget } from "../../api/scoring/kit/log-target.ts";
import { minimumKit } from "../../api/scoring/kit/minimum-kit.ts";
import { costOf, logOf } from "../properties/brute-force-kit.ts";
import { highsKitSolver } from "../tools/highs-kit.ts";
import { poissonLogCdf, randomKit, seededRandom } from "../tools/random-kit.ts";

/**
 * Live comparison with the HiGHS mixed-integer solver (npm package `highs`). Its row tolerance may
 * let a kit through a hair under the target, so its kit is summed afresh before its cost counts, and
 * its dual bound belongs to a very slightly easier problem: both sides are held as inequalities.
 */
const solveByHighs = await highsKitSolver();

function expectAgreement(parts: readonly KitPart[], target: number): boolean {
  const ours = minimumKit({ parts, targets: [target, undefined, undefined] });
  expect(ours.status).toBe("optimal");
  expect(ours.lowerBound).toBe(ours.cost);
  expect(costOf(parts, ours.buys)).toBe(ours.cost);
  expect(Math.exp(logOf(parts, ours.buys))).toBeGreaterThanOrEqual(target);
  const theirs = solveByHighs(parts, target);
  expect(theirs.isOptimal).toBe(true);
  expect(ours.cost).toBeGreaterThanOrEqual(Math.floor(theirs.dualBound * (1 - 1e-9)));
  const isTrueKit = logOf(parts, theirs.buys) >= logTarget(target);
  if (isTrueKit) expect(ours.cost).toBe(theirs.cost);
  return isTrueKit;
}

test("random Poisson kits of 5 to 200 parts cost what HiGHS proves", { timeout: 120_000 }, () => {
  let compared = 0;
  for (const [count, runs] of [
    [5, 20],
    [12, 12],
    [30, 6],
    [80, 2],
    [200, 1],
  ] as const) {
    for (let run = 0; run < runs; run++) {
      const target = [0.8, 0.9, 0.95, 0.99][run % 4] ?? 0.9;
      if (expectAgreement(randomKit(count, 1000 * count + run), target)) compared++;
    }
  }
  expect(compared).toBeGreaterThan(35);
});

test("lumpy demands, not log-concave, cost what HiGHS proves", { timeout: 60_000 }, () => {
  const random = seededRandom(17);
  let compared = 0;
  for (let run = 0; run < 20; run++) {
    // A part used by fours and by ones: Pr(D <= x) mixes two Poisson demands, one in lots of four.
    const parts = Array.from({ length: 4 + run }, (): KitPart => {
      const lots = poissonLogCdf(0.05 + 0.4 * random());
      const ones = poissonLogCdf(0.05 + random());
      const share = random();
      const logCdf = Float64Array.from({ length: 13 }, (_, x) =>
        Math.log(
          share * Math.exp(lots[Math.floor(x / 4)] ?? 0) + (1 - share) * Math.exp(ones[x] ?? 0),
        ),
      );
      return { logCdf, unitCost: Math.round(10 + 500 * random()), tier: 0 };
    });
    if (expectAgreement(parts, [0.8, 0.9, 0.97][run % 3] ?? 0.9)) compared++;
  }
  expect(compared).toBeGreaterThan(15);
});
