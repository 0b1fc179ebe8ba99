import { describe, expect, it } from "vitest";
import { meanOf, survival } from "../../api/scoring/demand/pmf.ts";
import { renewalDemand } from "../../api/scoring/demand/renewal-demand.ts";

/** Gamma at 1 + 1/β for the shapes used here; Abramowitz and Stegun table 6.1 and Γ(3/2) = √π/2. */
const scaleOfMeanOne: Record<string, number> = {
  "0.5": 1 / 2,
  "2": 2 / Math.sqrt(Math.PI),
};

describe("renewal demand", () => {
  // H. Tijms, A First Course in Stochastic Models, table 8.1.1, mean 1, squared c.v. .25.
  it.each([
    [0.1, 0.0061],
    [0.2, 0.0261],
    [0.4, 0.1087],
    [0.6, 0.2422],
    [1, 0.6091],
    [1.2, 0.8143],
    [1.5, 1.124],
    [2, 1.627],
    [2.5, 2.125],
  ])("has Tijms's Weibull renewal function at t = %d", (exposure, expected) => {
    const demand = renewalDemand({ meanLife: 1, shape: 2.101349, age: 0, exposure, units: 1 });
    expect(Math.abs(meanOf(demand) - expected)).toBeLessThan(5e-4);
    // The table prints four decimals below 1, three above.
    if (expected < 1) expect(Math.abs(meanOf(demand) - expected)).toBeLessThan(1e-4);
  });

  // B. McShane et al., Count models based on Weibull interarrival times, J. Business and Economic
  // Statistics 26 (2008): power series for the count of a new unit. Formula from memory.
  it.each([
    ["0.5", 0.2],
    ["0.5", 0.8],
    ["2", 0.3],
    ["2", 1],
    ["2", 1.6],
  ])("has the Weibull count series' probabilities, shape %s, %d lives", (shape, exposure) => {
    const demand = renewalDemand({
      meanLife: 1,
      shape: Number(shape),
      age: 0,
      exposure,
      units: 1,
    });
    const series = weibullCounts(Number(shape), exposure / (scaleOfMeanOne[shape] ?? 1), 4);
    series.forEach((p, k) => {
      expect(Math.abs((demand.mass[k] ?? 0) - p)).toBeLessThan(1e-7);
    });
  });

  it.each([
    [1.3, 0],
    [2, 0],
    [2, 300],
    [2, 1900],
    [3.5, 700],
  ])(
    "has the integrals for no and one renewal, shape %d, age %d h (derived, Simpson)",
    (shape, age) => {
      const scale = 1000;
      const exposure = 480;
      const meanLife = scale * gammaByIntegral(1 + 1 / shape);
      const demand = renewalDemand({ meanLife, shape, age, exposure, units: 1 });
      const lasts = (x: number) => Math.exp(-((x / scale) ** shape));
      const density = (x: number) => (shape / scale) * (x / scale) ** (shape - 1) * lasts(x);
      expect(demand.mass[0]).toBeCloseTo(lasts(age + exposure) / lasts(age), 8);
      const one = simpson((u) => {
        // u² takes the corner of x^(β-1) at zero out of the integrand.
        const x = u * u;
        return ((2 * u * density(age + x)) / lasts(age)) * lasts(exposure - x);
      }, Math.sqrt(exposure));
      expect(Math.abs((demand.mass[1] ?? 0) - one)).toBeLessThan(1e-7);
    },
  );

  it.each([
    [3, 6, 1.5],
    [8, 2, 2.2],
    [9, 2.5, 0.9],
    [10, 1.3, 5],
    [10, 1.1, 1.05],
  ])(
    "has the integral for two renewals of a worn piece, shape %d, age %d, %d lives (derived, Simpson)",
    (shape, age, exposure) => {
      const scale = 1 / gammaByIntegral(1 + 1 / shape);
      const fails = (x: number) => (x <= 0 ? 0 : -Math.expm1(-((x / scale) ** shape)));
      const worn = (age / scale) ** shape;
      // u is the wear still to come, exponential with mean 1.
      const two = simpson((u) => {
        const x = age * Math.expm1(Math.log1p(u / worn) / shape);
        return Math.exp(-u) * fails(exposure - x);
      }, 45);
      const demand = renewalDemand({ meanLife: 1, shape, age, exposure, units: 1 });
      expect(Math.abs((survival(demand)[1] ?? 0) - two)).toBeLessThan(1e-6);
    },
  );

  it("has the exact chances of shape 1 on both sides of it: the grid meets Poisson", () => {
    const near = renewalDemand({ meanLife: 1, shape: 1 + 1e-9, age: 0, exposure: 3, units: 2 });
    const exact = renewalDemand({ meanLife: 1, shape: 1, age: 0, exposure: 3, units: 2 });
    for (let k = 0; k < 20; k += 1) {
      expect(Math.abs((near.mass[k] ?? 0) - (exact.mass[k] ?? 0))).toBeLessThan(1e-7);
    }
    let term = Math.exp(-6);
    for (let k = 0; k < 20; k += 1) {
      expect(exact.mass[k]).toBeCloseTo(term, 12);
      term *= 6 / (k + 1);
    }
  });

  it.each([
    ["unknown" as const, 0.7],
    ["unknown" as const, 3],
    [0, 2.5],
    [1.2, 1.5],
  ])("lies inside a seeded simulation's interval, shape 2, age %s, %d lives", (age, exposure) => {
    const runs = 60_000;
    const random = seeded(20_161_125);
    const scale = scaleOfMeanOne["2"] ?? 1;
    const draw = () => scale * Math.sqrt(-Math.log(1 - random()));
    const counts = new Float64Array(60);
    for (let run = 0; run < runs; run += 1) {
      let clock = firstFailure(age, draw, random);
      let count = 0;
      for (; clock <= exposure; clock += draw()) count += 1;
      counts[count] = (counts[count] ?? 0) + 1;
    }
    const demand = renewalDemand({ meanLife: 1, shape: 2, age, exposure, units: 1 });
    for (let k = 0; k < 8; k += 1) {
      const p = demand.mass[k] ?? 0;
      const error = Math.sqrt((p * (1 - p)) / runs);
      expect(Math.abs((counts[k] ?? 0) / runs - p)).toBeLessThan(4 * error + 2 / runs);
    }
  });

  it("asks for exposure / mean pieces on average when the age is unknown (Cox, Renewal Theory, 1962)", () => {
    for (const shape of [0.6, 1.4, 2, 5]) {
      const demand = renewalDemand({ meanLife: 7, shape, age: "unknown", exposure: 16, units: 3 });
      expect(meanOf(demand)).toBeCloseTo((3 * 16) / 7, 8);
    }
  });
});

/** Life left at departure: by rejection for a known age, by watching from long before for an unknown. */
function firstFailure(age: number | "unknown", draw: () => number, random: () => number): number {
  if (age === "unknown") {
    let clock = -12 - random();
    while (clock <= 0) clock += draw();
    return clock;
  }
  let life = draw();
  while (life <= age) life = draw();
  return life - age;
}

function weibullCounts(shape: number, t: number, most: number): number[] {
  const terms = 60;
  const gamma = Array.from({ length: terms + 1 }, (_, j) => gammaOf(shape * j + 1));
  const factorial = Array.from({ length: terms + 1 }, (_, j) => gammaOf(j + 1));
  const g = (j: number) => gamma[j] ?? 1;
  const f = (j: number) => factorial[j] ?? 1;
  let alpha = Array.from({ length: terms + 1 }, (_, j) => g(j) / f(j));
  const result: number[] = [];
  for (let n = 0; n <= most; n += 1) {
    let sum = 0;
    for (let j = n; j <= terms; j += 1) {
      sum += ((j + n) % 2 === 0 ? 1 : -1) * ((t ** (shape * j) * (alpha[j] ?? 0)) / g(j));
    }
    result.push(sum);
    const previous = alpha;
    alpha = previous.map((_, j) => {
      let next = 0;
      for (let m = n; m < j; m += 1) next += ((previous[m] ?? 0) * g(j - m)) / f(j - m);
      return next;
    });
  }
  return result;
}

/** Γ(x) for x = 1, 3/2, 2, 5/2, ... by its recursion: the only arguments the series needs here. */
function gammaOf(x: number): number {
  let result = Number.isInteger(x) ? 1 : Math.sqrt(Math.PI);
  for (let y = Number.isInteger(x) ? 1 : 0.5; y < x; y += 1) result *= y;
  return result;
}

/** Γ(x) = ∫ t^(x-1) e^-t dt with t = u³, x > 1. */
function gammaByIntegral(x: number): number {
  return simpson((u) => 3 * u ** (3 * x - 1) * Math.exp(-(u ** 3)), 3.6);
}

function simpson(f: (u: number) => number, end: number): number {
  const steps = 20_000;
  const h = end / steps;
  let sum = f(0) + f(end);
  for (let i = 1; i < steps; i += 1) sum += (i % 2 === 1 ? 4 : 2) * f(i * h);
  return (sum * h) / 3;
}

/** A small linear congruential generator in 32 bits (Numerical Recipes constants), seeded. */
function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32;
  };
}
