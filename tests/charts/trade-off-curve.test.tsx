import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { depthOf } from "../../ui/charts/depth.ts";
import { layOutTradeOff, roundestTarget } from "../../ui/charts/trade-off-curve.ts";
import { curve as input } from "./made-by-hand.ts";
import { attribute, linesOfClass, svgText } from "./svg-text.tsx";

describe("the trade-off curve", () => {
  it("gives each tenfold fall of the chance of running short the same height", () => {
    const [first, second, third] = layOutTradeOff(input).placed;
    const step = (first?.y ?? 0) - (second?.y ?? 0);
    expect(step).toBeGreaterThan(20);
    expect((second?.y ?? 0) - (third?.y ?? 0)).toBeCloseTo(step, 6);
  });

  it("never goes back: dearer kits stand to the right and are no less sure", () => {
    const { placed } = layOutTradeOff(input);
    for (let i = 1; i < placed.length; i++) {
      expect(placed[i]?.x).toBeGreaterThanOrEqual(placed[i - 1]?.x ?? 0);
      expect(placed[i]?.y).toBeLessThanOrEqual(placed[i - 1]?.y ?? 0);
    }
  });

  it("draws a point for each kit, the chosen one marked once and labelled with its figures", () => {
    const layout = layOutTradeOff(input);
    const svg = svgText(layout.scene);
    expect(linesOfClass(svg, "curve-point")).toHaveLength(3);
    expect(linesOfClass(svg, "curve-chosen")).toHaveLength(1);
    expect(linesOfClass(svg, "curve-chosen-text")[0]).toContain("0.99 for 10 EUR");
    expect(layout.chosenIndex).toBe(1);
  });

  it("draws the target below a kit that exceeds it", () => {
    const layout = layOutTradeOff(input);
    const line = linesOfClass(svgText(layout.scene), "curve-target")[0] ?? "";
    expect(attribute(line, "y1")).toBeGreaterThan(layout.placed[1]?.y ?? 0);
    expect(attribute(line, "y1")).toBeLessThan(layout.placed[0]?.y ?? 0);
  });

  it("keeps every mark inside its frame", () => {
    for (const { cx, cy } of linesOfClass(svgText(layOutTradeOff(input).scene), "curve-point").map(
      (line) => ({ cx: attribute(line, "cx"), cy: attribute(line, "cy") }),
    )) {
      expect(cx).toBeGreaterThanOrEqual(0);
      expect(cx).toBeLessThanOrEqual(400);
      expect(cy).toBeGreaterThanOrEqual(0);
      expect(cy).toBeLessThanOrEqual(240);
    }
  });

  it("says the finding in words", () => {
    expect(layOutTradeOff(input).scene.words).toBe(
      "passage tier: the kit reaches 0.99 for 10 EUR, target 0.98; 0.999 would take 40 EUR.",
    );
  });

  it("is drawn with one point, or with a kit that cannot fail", () => {
    const one = layOutTradeOff({ ...input, points: [{ cost: 0, sufficiency: 1, pieces: 0 }] });
    expect(svgText(one.scene)).not.toContain("NaN");
    expect(depthOf(1)).toBe(6);
  });
});

describe("the target a point on the curve sets", () => {
  it("is met by that kit and by no cheaper one", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 0.9999, noNaN: true }),
        fc.double({ min: 1e-6, max: 0.5, noNaN: true }),
        (above, step) => {
          const upTo = above + (1 - above) * step;
          const target = roundestTarget(above, upTo);
          expect(target).toBeGreaterThan(above);
          expect(target).toBeLessThanOrEqual(upTo);
        },
      ),
    );
  });
  it("is as round as the gap between two kits allows", () => {
    expect(roundestTarget(0.941, 0.9573)).toBe(0.95);
    expect(roundestTarget(0.9512, 0.9573)).toBe(0.957);
  });
});
