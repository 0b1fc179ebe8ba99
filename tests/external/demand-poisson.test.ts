import { describe, expect, it } from "vitest";
import { gammaPoissonDemand } from "../../api/scoring/demand/gamma-poisson-demand.ts";
import { cumulative, meanOf, survival } from "../../api/scoring/demand/pmf.ts";
import { poissonDemand } from "../../api/scoring/demand/poisson-demand.ts";
import { expectedBackorders } from "../../api/scoring/sufficiency/expected-backorders.ts";

const reach = (mean: number) => cumulative(poissonDemand(mean));
const least = (mean: number, target: number) => reach(mean).findIndex((f) => f >= target);

describe("Poisson demand agrees with published figures", () => {
  it("McClave and Sincich, Statistics, 12th ed., ch. 4: mean 1.2", () => {
    const demand = poissonDemand(1.2);
    expect(demand.mass[0]).toBeCloseTo(0.3012, 4);
    expect(survival(demand)[1]).toBeCloseTo(0.3374, 4);
  });

  it("published spares worked example: 30 parts, MTBF 10 000 h, 2 160 h, 95 %", () => {
    const mean = (30 * 2160) / 10_000;
    expect(mean).toBeCloseTo(6.48, 12);
    expect(reach(mean)[10]).toBeCloseTo(0.93427, 5);
    expect(reach(mean)[11]).toBeCloseTo(0.96678, 5);
    expect(least(mean, 0.95)).toBe(11);
  });

  it("University of Southampton stock-control exercise: mean 104, run-out at most 5 %", () => {
    expect(least(104, 0.95)).toBe(121);
  });

  it("Blanchard, Logistics Engineering and Management: mean 4.32, 95 % (value from memory)", () => {
    expect(reach(4.32)[7]).toBeCloseTo(0.9275, 4);
    expect(reach(4.32)[8]).toBeCloseTo(0.96751, 5);
    expect(least(4.32, 0.95)).toBe(8);
  });

  // Standard statistical tables, cumulative Poisson, four decimals.
  it.each([
    [0.1, [0.9048, 0.9953, 0.9998]],
    [0.5, [0.6065, 0.9098, 0.9856, 0.9982, 0.9998]],
    [1, [0.3679, 0.7358, 0.9197, 0.981, 0.9963, 0.9994]],
    [2, [0.1353, 0.406, 0.6767, 0.8571, 0.9473, 0.9834, 0.9955, 0.9989]],
    [5, [0.0067, 0.0404, 0.1247, 0.265, 0.4405, 0.616, 0.7622, 0.8666, 0.9319, 0.9682]],
  ])("standard tables at mean %d", (mean, expected) => {
    const reached = reach(mean);
    expected.forEach((value, k) => {
      expect(Math.abs((reached[k] ?? 0) - value)).toBeLessThanOrEqual(0.5e-4 + 1e-9);
    });
  });

  it("stays exact at a mean of 100 000: mean and variance are both m (derived)", () => {
    const mean = 100_000;
    const demand = poissonDemand(mean);
    const variance = demand.mass.reduce((sum, p, k) => sum + p * (k - mean) ** 2, 0);
    expect(Math.abs(meanOf(demand) / mean - 1)).toBeLessThan(1e-11);
    expect(Math.abs(variance / mean - 1)).toBeLessThan(1e-8);
    // Stirling: Pr(D = m) = exp(-1/(12m) + 1/(360 m^3)) / sqrt(2πm).
    const atMode = Math.exp(-1 / (12 * mean)) / Math.sqrt(2 * Math.PI * mean);
    expect(Math.abs((demand.mass[mean] ?? 0) / atMode - 1)).toBeLessThan(1e-11);
  });

  it("keeps the digits of small chances of running short (derived, exact series)", () => {
    let series = 0;
    let term = Math.exp(-0.01);
    for (let k = 1; k < 20; k += 1) {
      term *= 0.01 / k;
      if (k > 3) series += term;
    }
    expect(Math.abs((survival(poissonDemand(0.01))[3] ?? 0) / series - 1)).toBeLessThan(1e-6);
  });
});

describe("expected backorders agree with the stockpyl test-suite (Snyder and Shen)", () => {
  it.each([
    [7, 5, 2.292600125697305],
    [15, 18, 0.5176095282584724],
    [47, 50, 1.514546939496945],
  ])("mean %d, stock %d", (mean, stock, expected) => {
    expect(expectedBackorders(poissonDemand(mean))[stock]).toBeCloseTo(expected, 9);
  });
});

describe("gamma-Poisson demand", () => {
  it("fits a survey: 57.6 % of 290 boats with a breakage at 1.2207 a boat, shape 1.283 (Yachting World, gear survey of the Atlantic rally of 2016; shape derived)", () => {
    const shape = 1.283;
    const demand = gammaPoissonDemand({ shape, rate: shape / 1.2207, exposure: 1 });
    expect(meanOf(demand)).toBeCloseTo(354 / 290, 4);
    expect(1 - (demand.mass[0] ?? 0)).toBeCloseTo(167 / 290, 3);
    expect(1 - (poissonDemand(1.2207).mass[0] ?? 0)).toBeCloseTo(0.705, 3);
  });

  it("is the mixture of Poisson demands over the gamma belief (derived, Simpson's rule)", () => {
    // Posterior Gamma(2 + 1, 4 + 6) = x^2 e^(-10x) 10^3 / 2!, exposure 5.
    const demand = gammaPoissonDemand({ shape: 2, rate: 4, used: 1, usedOver: 6, exposure: 5 });
    const factorial = [1, 1, 2, 6, 24, 120];
    for (let k = 0; k < 6; k += 1) {
      const at = (x: number) =>
        ((500 * x ** 2 * Math.exp(-10 * x) * (5 * x) ** k) / (factorial[k] ?? 1)) *
        Math.exp(-5 * x);
      const steps = 40_000;
      const h = 8 / steps;
      let integral = at(0) + at(8);
      for (let i = 1; i < steps; i += 1) integral += (i % 2 === 1 ? 4 : 2) * at(i * h);
      expect(demand.mass[k]).toBeCloseTo((integral * h) / 3, 10);
    }
  });
});
