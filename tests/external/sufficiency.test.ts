import { describe, expect, it } from "vitest";
import { convolveAll, cumulative } from "../../api/scoring/demand/pmf.ts";
import { poissonDemand } from "../../api/scoring/demand/poisson-demand.ts";
import { kOfN } from "../../api/scoring/sufficiency/k-of-n.ts";
import { logSufficiencyOfAll } from "../../api/scoring/sufficiency/log-sufficiency.ts";

// Trivedi, Probability and Statistics with Reliability, 2nd ed., ch. 6 problem 2 (after Barlow and
// Proschan): rate .002 per hour; 1300, 1500 and 1200 h; protection above .90. Answers derived.
describe("pooling one part over three places", () => {
  const demands = [1300, 1500, 1200].map((hours) => poissonDemand(0.002 * hours));

  it("needs 12 pieces together", () => {
    const reached = cumulative(convolveAll(demands));
    expect(reached[11]).toBeCloseTo(0.888076, 6);
    expect(reached[12]).toBeCloseTo(0.936203, 6);
  });

  it("needs 17 apart, (6, 6, 5) among the ways", () => {
    const chance = (stock: readonly number[]) =>
      Math.exp(
        logSufficiencyOfAll(demands.map((demand, i) => ({ demand, pieces: stock[i] ?? 0 }))),
      );
    expect(chance([6, 6, 5])).toBeCloseTo(0.916012, 6);
    let bestOfSixteen = 0;
    for (let a = 0; a <= 16; a += 1) {
      for (let b = 0; a + b <= 16; b += 1) {
        bestOfSixteen = Math.max(bestOfSixteen, chance([a, b, 16 - a - b]));
      }
    }
    expect(bestOfSixteen).toBeLessThanOrEqual(0.9);
  });
});

describe("kits of four Poisson demands reach their targets (derived)", () => {
  const demands = [0.5, 1, 0.25, 2].map(poissonDemand);
  it.each([
    [0.8, [1, 2, 1, 5]],
    [0.9, [2, 3, 1, 5]],
    [0.95, [2, 4, 1, 6]],
    [0.99, [3, 4, 2, 7]],
  ])("target %d", (target, stock) => {
    const parts = demands.map((demand, i) => ({ demand, pieces: stock[i] ?? 0 }));
    expect(Math.exp(logSufficiencyOfAll(parts))).toBeGreaterThanOrEqual(target);
  });
});

describe("k of n", () => {
  it("3 of 4 at .9 is .9477 (published reliability worked example)", () => {
    expect(kOfN(3, [0.9, 0.9, 0.9, 0.9])).toBeCloseTo(0.9477, 10);
  });
  it("4 of 6 at .85 is .952661 (derived)", () => {
    expect(kOfN(4, Array(6).fill(0.85))).toBeCloseTo(0.952661, 6);
  });
  it("2 of 3 at .90, .88, .85 is .9586 (value from memory)", () => {
    expect(kOfN(2, [0.9, 0.88, 0.85])).toBeCloseTo(0.9586, 10);
  });
});
