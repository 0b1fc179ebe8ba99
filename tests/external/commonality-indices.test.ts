import { describe, expect, it } from "vitest";
import { incidenceOf } from "../../api/scoring/commonality/incidence.ts";
import { commonalityIndices } from "../../api/scoring/commonality/indices.ts";

// Collier 1981; Wacker and Treleven 1986; Martin and Ishii 1997; Jiao and Tseng 2000: formulas from
// memory of the papers, the toy's figures derived by hand.
describe("commonality indices of the toy of three models", () => {
  // A: p1 p2 p3 p5; B: p1 p2 p3 p4 p6; C: p1 p2 p4 p7.
  const toy = incidenceOf(
    [
      [0, 1, 2, 4],
      [0, 1, 2, 3, 5],
      [0, 1, 3, 6],
    ],
    7,
  );

  it("are 13/7, .5 and .75", () => {
    const indices = commonalityIndices(toy);
    expect(indices.distinctParts).toBe(7);
    expect(indices.uses).toBe(13);
    expect(indices.usedByOneModel).toBe(3);
    expect(indices.degreeOfCommonality).toBeCloseTo(13 / 7, 14);
    expect(indices.totalConstantCommonality).toBeCloseTo(0.5, 14);
    expect(indices.commonality).toBeCloseTo(0.75, 14);
    expect(indices.weightedByCost).toBeNull();
  });

  it("weighted by cost is 766/330", () => {
    const quantity = [2, 1, 1, 1, 2, 1, 1, 3, 1, 2, 1, 3, 4];
    const price = [10, 5, 20, 4, 8, 6, 2];
    const indices = commonalityIndices(toy, { price, quantity, volume: [3, 2, 1] });
    expect(indices.weightedByCost).toBeCloseTo(766 / 330, 14);
  });

  it("give three identical models of four parts DCI 3 but TCCI 8/11, not 1", () => {
    const alike = incidenceOf(Array(3).fill([0, 1, 2, 3]), 4);
    const indices = commonalityIndices(alike);
    expect(indices.degreeOfCommonality).toBe(3);
    expect(indices.totalConstantCommonality).toBeCloseTo(8 / 11, 14);
    expect(indices.commonality).toBe(1);
  });

  it("are null where nothing divides nothing", () => {
    const none = commonalityIndices(incidenceOf([], 0));
    expect(none.degreeOfCommonality).toBeNull();
    expect(none.totalConstantCommonality).toBeNull();
    const single = commonalityIndices(incidenceOf([[0, 1]], 2));
    expect(single.commonality).toBeNull();
  });
});
