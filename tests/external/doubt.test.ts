import { describe, expect, it } from "vitest";
import { gammaPoissonDemand } from "../../api/scoring/demand/gamma-poisson-demand.ts";
import { cumulative } from "../../api/scoring/demand/pmf.ts";
import { poissonDemand } from "../../api/scoring/demand/poisson-demand.ts";
import { fitRoughPassage } from "../../api/scoring/doubt/fit-rough-passage.ts";
import { gammaNodes } from "../../api/scoring/doubt/gamma-nodes.ts";
import { likelyRange } from "../../api/scoring/doubt/likely-range.ts";

describe("rough-passage factor", () => {
  it("fits both figures of the survey of 290 boats (Yachting World, Atlantic rally of 2016; shape derived)", () => {
    const shape = fitRoughPassage(354 / 290, 167 / 290);
    expect(shape).toBeCloseTo(1.283, 3);
    // Counts as uneven as pure chance makes them need no factor.
    expect(fitRoughPassage(354 / 290, 1 - Math.exp(-354 / 290))).toBeUndefined();
  });

  it.each([0.5, 1, 1.283, 3, 40])(
    "sums over its points what Greenwood & Yule (1920) give, shape %d",
    (shape) => {
      const { point, weight } = gammaNodes(shape);
      for (const mean of [0.01, 0.3, 1.22, 4]) {
        // A Poisson count of gamma mean is negative binomial.
        const exact = cumulative(gammaPoissonDemand({ shape, rate: shape / mean, exposure: 1 }));
        for (const pieces of [0, 1, 2, 4]) {
          let mixed = 0;
          for (const [at, factor] of point.entries()) {
            const curve = cumulative(poissonDemand(mean * factor));
            mixed += (weight[at] ?? 0) * (curve[Math.min(pieces, curve.length - 1)] ?? 0);
          }
          expect(Math.abs(mixed - (exact[pieces] ?? Number.NaN))).toBeLessThan(1e-6);
        }
      }
    },
  );

  it("has mean 1 and variance 1 / shape, in known points (Abramowitz & Stegun, table 25.9)", () => {
    const { point, weight } = gammaNodes(1, 2);
    // Laguerre, n = 2: x = .585786, 3.414214; w = .853553, .146447.
    expect(point[0]).toBeCloseTo(0.585786, 6);
    expect(point[1]).toBeCloseTo(3.414214, 6);
    expect(weight[0]).toBeCloseTo(0.853553, 6);
    const many = gammaNodes(1.283);
    const moment = (power: number): number =>
      many.point.reduce((sum, g, at) => sum + (many.weight[at] ?? 0) * g ** power, 0);
    expect(moment(1)).toBeCloseTo(1, 12);
    expect(moment(2) - 1).toBeCloseTo(1 / 1.283, 12);
  });

  it("refuses a shape that is none", () => {
    expect(() => gammaNodes(0)).toThrow(expect.objectContaining({ code: "rate-invalid" }));
    expect(() => fitRoughPassage(0, 0.5)).toThrow(
      expect.objectContaining({ code: "rate-invalid" }),
    );
  });
});

describe("likely range of an uncertain rate", () => {
  it("is that of the chi-square tables for a rarity class (1 degree of freedom: .0158, 2.706)", () => {
    const [low, high] = likelyRange(0.5);
    expect(low).toBeCloseTo(0.0158, 4);
    expect(high).toBeCloseTo(2.7055, 4);
  });

  it("narrows with uses seen (chi-square, 10 degrees of freedom: 4.865, 15.987), and is a point where known", () => {
    const [low, high] = likelyRange(5);
    expect(low * 10).toBeCloseTo(4.865, 3);
    expect(high * 10).toBeCloseTo(15.987, 3);
    expect(likelyRange(Number.NaN)).toEqual([1, 1]);
  });
});
