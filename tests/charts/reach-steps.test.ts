import { describe, expect, it } from "vitest";
import { layOutReach } from "../../ui/charts/reach-steps.ts";
import { reach as input } from "./made-by-hand.ts";
import { attribute, linesOfClass, svgText } from "./svg-text.tsx";

describe("the reach of the best few suppliers", () => {
  const svg = svgText(layOutReach(input));

  it("draws bars whose heights are as the items covered", () => {
    const heights = linesOfClass(svg, "reach-bar").map((line) => attribute(line, "height"));
    expect(heights).toHaveLength(3);
    expect((heights[1] ?? 0) / (heights[0] ?? 1)).toBeCloseTo(2, 2);
    expect((heights[2] ?? 0) / (heights[0] ?? 1)).toBeCloseTo(3, 2);
  });

  it("fills what survives the loss of any one, and caps what is not proven", () => {
    const sure = linesOfClass(svg, "reach-sure").map((line) => attribute(line, "height"));
    expect((sure[1] ?? 0) / (sure[0] ?? 1)).toBeCloseTo(2, 2);
    expect(linesOfClass(svg, "reach-bound")).toHaveLength(1);
  });

  it("marks all there is above what anyone sells, and says both", () => {
    const [all = 0, sold = 0] = linesOfClass(svg, "reach-limit").map((line) =>
      attribute(line, "y1"),
    );
    expect(all).toBeLessThan(sold);
    expect(layOutReach(input).words).toBe(
      "Fitted items covered whole by the best suppliers together, of 60, 50 of which are on sale at all. 1: 10; 2: 20 (5 of them without any one); 3: 30 (10 of them without any one).",
    );
  });

  it("is drawn with nothing to draw", () => {
    expect(svgText(layOutReach({ ...input, points: [], total: 0, coverable: 0 }))).not.toContain(
      "NaN",
    );
  });
});
