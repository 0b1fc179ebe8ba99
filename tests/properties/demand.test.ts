import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { Problem } from "../../api/errors/problem.ts";
import { binomialDemand } from "../../api/scoring/demand/binomial-demand.ts";
import { gammaPoissonDemand } from "../../api/scoring/demand/gamma-poisson-demand.ts";
import {
  convolve,
  convolveAll,
  convolvePower,
  cumulative,
  meanOf,
  type Pmf,
  pointMass,
  survival,
  TAIL_LIMIT,
} from "../../api/scoring/demand/pmf.ts";
import { poissonDemand } from "../../api/scoring/demand/poisson-demand.ts";
import { rarityClasses, rarityDemand } from "../../api/scoring/demand/rarity-classes.ts";
import { renewalDemand } from "../../api/scoring/demand/renewal-demand.ts";
import { weibullLife } from "../../api/scoring/demand/weibull-life.ts";

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const age = fc.oneof(fc.constant("unknown" as const), number(0, 2));
const demand: fc.Arbitrary<Pmf> = fc.oneof(
  number(0, 60).map(poissonDemand),
  fc
    .record({ shape: number(0.2, 30), rate: number(0.1, 50), exposure: number(0, 20) })
    .map(gammaPoissonDemand),
  fc.tuple(fc.nat(40), number(0, 1)).map(([n, p]) => binomialDemand(n, p)),
  fc
    .record({
      meanLife: fc.constant(1),
      shape: number(0.7, 6),
      age,
      exposure: number(0, 2),
      units: fc.integer({ min: 0, max: 3 }),
    })
    .map(renewalDemand),
  fc.nat(9).map(pointMass),
);

const difference = (a: Pmf, b: Pmf) => {
  let most = 0;
  for (let k = 0; k < Math.max(a.mass.length, b.mass.length); k += 1) {
    most = Math.max(most, Math.abs((a.mass[k] ?? 0) - (b.mass[k] ?? 0)));
  }
  return most;
};

const problemOf = (run: () => unknown) => {
  try {
    run();
  } catch (error) {
    if (error instanceof Problem) return error;
  }
  return undefined;
};

describe("every demand", () => {
  it("sums to 1 with its tail, holds no negative mass and leaves out less than the limit", () => {
    fc.assert(
      fc.property(demand, ({ mass, tail }) => {
        expect(mass.every((p) => p >= 0)).toBe(true);
        expect(tail).toBeGreaterThanOrEqual(0);
        expect(tail).toBeLessThan(TAIL_LIMIT);
        expect(mass.reduce((sum, p) => sum + p, tail)).toBeCloseTo(1, 11);
      }),
    );
  });

  it("has cumulative and survival that rise, fall and add to 1", () => {
    fc.assert(
      fc.property(demand, (pmf) => {
        const reached = cumulative(pmf);
        const beyond = survival(pmf);
        reached.forEach((f, k) => {
          expect(f + (beyond[k] ?? 0)).toBeCloseTo(1, 11);
          expect(f).toBeGreaterThanOrEqual((reached[k - 1] ?? 0) - 1e-12);
        });
      }),
    );
  });
});

describe("convolution", () => {
  it("does not mind the order, and adds means", () => {
    fc.assert(
      fc.property(demand, demand, (a, b) => {
        expect(difference(convolve(a, b), convolve(b, a))).toBeLessThan(1e-15);
        expect(meanOf(convolve(a, b))).toBeCloseTo(meanOf(a) + meanOf(b), 8);
      }),
    );
  });

  it("pools many terms alike in whatever order they come, as one by one", () => {
    fc.assert(
      fc.property(fc.array(demand, { maxLength: 9 }), fc.nat(), (terms, turn) => {
        const at = terms.length === 0 ? 0 : turn % terms.length;
        const turned = [...terms.slice(at), ...terms.slice(0, at)].reverse();
        const oneByOne = terms.reduce(convolve, pointMass(0));
        expect(difference(convolveAll(terms), convolveAll(turned))).toBeLessThan(1e-13);
        expect(difference(convolveAll(terms), oneByOne)).toBeLessThan(1e-13);
      }),
      { numRuns: 40 },
    );
  });

  it("of Poisson terms is Poisson, and a power is repetition", () => {
    fc.assert(
      fc.property(number(0, 20), number(0, 20), fc.nat(6), (a, b, n) => {
        const sum = convolve(poissonDemand(a), poissonDemand(b));
        expect(difference(sum, poissonDemand(a + b))).toBeLessThan(1e-13);
        expect(difference(convolvePower(poissonDemand(a), n), poissonDemand(n * a))).toBeLessThan(
          1e-13,
        );
      }),
    );
  });

  it("keeps its promise on the tail over a thousand terms", () => {
    const pooled = convolveAll(Array.from({ length: 1000 }, () => poissonDemand(0.02)));
    expect(pooled.tail).toBeLessThan(TAIL_LIMIT);
    expect(difference(pooled, poissonDemand(20))).toBeLessThan(1e-12);
  });
});

describe("uncertain rates", () => {
  it("become Poisson as the history grows", () => {
    fc.assert(
      fc.property(number(0.01, 30), (mean) => {
        const known = gammaPoissonDemand({ shape: 1e9, rate: 1e9 / mean, exposure: 1 });
        expect(difference(known, poissonDemand(mean))).toBeLessThan(1e-6);
      }),
    );
  });

  it("spread wider than Poisson of the same mean: more chance of none and of many", () => {
    fc.assert(
      fc.property(number(0.2, 5), number(0.05, 10), (shape, mean) => {
        const wide = gammaPoissonDemand({ shape, rate: shape / mean, exposure: 1 });
        expect(wide.mass[0] ?? 0).toBeGreaterThan(poissonDemand(mean).mass[0] ?? 0);
        expect(meanOf(wide)).toBeCloseTo(mean, 8);
      }),
    );
  });

  it("follow a class until a few recorded uses outweigh it", () => {
    for (const rarity of rarityClasses) {
      expect(meanOf(rarityDemand(rarity, 1))).toBeCloseTo(1 / rarity.meanYearsBetween, 9);
      // Four uses at five times, or a fifth of, the class's rate: the belief moves nearer to them.
      for (const factor of [5, 1 / 5]) {
        const recorded = factor / rarity.meanYearsBetween;
        const history = { used: 4, overPieceYears: 4 / recorded };
        const seen = meanOf(rarityDemand(rarity, 1, history));
        const fromRecord = Math.abs(Math.log(seen / recorded));
        expect(fromRecord).toBeLessThan(Math.abs(Math.log(seen * rarity.meanYearsBetween)));
      }
    }
  });
});

describe("renewal", () => {
  it("lies between the counts of lives rounded up and rounded down to a coarse grid", () => {
    const setting = fc.record({
      meanLife: fc.constant(1),
      shape: number(0.6, 8),
      age,
      exposure: number(0.05, 2.5),
      units: fc.constant(1),
    });
    fc.assert(
      fc.property(setting, (wear) => {
        const life = weibullLife(wear.meanLife, wear.shape);
        const first = (x: number) =>
          wear.age === "unknown" ? life.failsFromUnknownAge(x) : life.failsFromAge(wear.age, x);
        const points = 300;
        // Lives rounded up to the grid renew less often; rounded down, more often.
        const fewest = roundedCounts(life.fails, first, wear.exposure, points, 0);
        const most = roundedCounts(life.fails, first, wear.exposure, points, 1);
        const beyond = survival(renewalDemand(wear));
        for (let k = 0; k < 6; k += 1) {
          expect(beyond[k] ?? 0).toBeGreaterThanOrEqual((fewest[k] ?? 0) - 1e-9);
          expect(beyond[k] ?? 0).toBeLessThanOrEqual((most[k] ?? 0) + 1e-9);
        }
      }),
      {
        numRuns: 15,
        // A hazard that is infinite at age zero once sent this down the path for old pieces.
        examples: [[{ meanLife: 1, shape: 0.6, age: 5e-324, exposure: 0.05, units: 1 }]],
      },
    );
  });

  it("does not mind the unit of time", () => {
    fc.assert(
      fc.property(number(0.001, 5000), age, (unit, since) => {
        const one = { meanLife: 1, shape: 2, age: since, exposure: 0.8, units: 2 };
        const other = {
          ...one,
          meanLife: unit,
          age: since === "unknown" ? since : since * unit,
          exposure: 0.8 * unit,
        };
        expect(difference(renewalDemand(one), renewalDemand(other))).toBeLessThan(1e-9);
      }),
      { numRuns: 30 },
    );
  });

  it("asks for more with more exposure, and with more age when parts wear", () => {
    fc.assert(
      fc.property(number(1.2, 5), number(0, 1.5), number(0.1, 1.5), (shape, since, exposure) => {
        const mean = (a: number, t: number) =>
          meanOf(renewalDemand({ meanLife: 1, shape, age: a, exposure: t, units: 1 }));
        expect(mean(since, exposure * 1.1)).toBeGreaterThan(mean(since, exposure) - 1e-9);
        const none = (a: number) =>
          renewalDemand({ meanLife: 1, shape, age: a, exposure, units: 1 }).mass[0] ?? 0;
        expect(none(since + 0.1)).toBeLessThanOrEqual(none(since) + 1e-12);
      }),
      { numRuns: 40 },
    );
  });
});

describe("bad figures are refused with rule, value and remedy", () => {
  it.each([
    ["negative mean", () => poissonDemand(-1), "rate-invalid", "-1"],
    ["mean not a number", () => poissonDemand(Number.NaN), "rate-invalid", "NaN"],
    ["endless mean", () => poissonDemand(Number.POSITIVE_INFINITY), "rate-invalid", "Infinity"],
    ["demand past counting", () => poissonDemand(1e9), "rate-invalid", "1000000000"],
    ["loss above one", () => binomialDemand(3, 1.2), "rate-invalid", "1.2"],
    ["half a piece", () => binomialDemand(2.5, 0.1), "input-invalid", "2.5"],
    [
      "prior shape of nothing",
      () => gammaPoissonDemand({ shape: 0, rate: 1, exposure: 1 }),
      "rate-invalid",
      "0",
    ],
    [
      "life of nothing",
      () => renewalDemand({ meanLife: 0, shape: 2, age: 0, exposure: 1, units: 1 }),
      "rate-invalid",
      "0",
    ],
    [
      "shape past wear",
      () => renewalDemand({ meanLife: 9, shape: 11, age: 0, exposure: 1, units: 1 }),
      "rate-invalid",
      "11",
    ],
    [
      "a life tiny against the crossing",
      () => renewalDemand({ meanLife: 1, shape: 2, age: 0, exposure: 480, units: 1 }),
      "rate-invalid",
      "480",
    ],
  ])("%s", (_, run, code, value) => {
    const problem = problemOf(run);
    expect(problem?.code).toBe(code);
    expect(problem?.message).toContain("must");
    expect(problem?.message).toContain(value);
  });
});

/** `Pr(N ≥ 1), Pr(N ≥ 2), ...` with every life moved to a grid point: `shift` 0 up, 1 down. */
function roundedCounts(
  fails: (x: number) => number,
  first: (x: number) => number,
  exposure: number,
  points: number,
  shift: number,
): number[] {
  const step = exposure / points;
  const life = (f: (x: number) => number, i: number) => f((i + shift) * step);
  const chance = (i: number) => life(fails, i) - (i === 0 ? 0 : life(fails, i - 1));
  let reached = Array.from({ length: points + 1 }, (_, i) => life(first, i));
  const result = [reached[points] ?? 0];
  const weights = Array.from({ length: points + 1 }, (_, i) => chance(i));
  for (let k = 1; k < 6; k += 1) {
    const before = reached;
    reached = before.map((_, j) => {
      let sum = 0;
      for (let i = 0; i <= j; i += 1) sum += (weights[i] ?? 0) * (before[j - i] ?? 0);
      return sum;
    });
    result.push(reached[points] ?? 0);
  }
  return result;
}
