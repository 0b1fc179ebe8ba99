import { describe, expect, it } from "vitest";
import {
  modelWords,
  neighboursOfModel,
  partWords,
  takersOfPart,
} from "../../ui/charts/matrix-neighbours.ts";
import { layOutPartsMatrix, type Matrix } from "../../ui/charts/parts-matrix.ts";
import { matrix } from "./made-by-hand.ts";
import { attribute, linesOfClass, svgText } from "./svg-text.tsx";

const options = { sharedOnly: false, rowHeight: 20, columnWidth: 10 };

describe("the parts matrix", () => {
  it("draws one mark for each line of the parts lists, lone parts lighter", () => {
    const svg = svgText(layOutPartsMatrix(matrix, options).body);
    expect(linesOfClass(svg, "matrix-cell")).toHaveLength(6);
    expect(linesOfClass(svg, "matrix-lone")).toHaveLength(2);
  });

  it("writes the count only where a model takes several pieces", () => {
    const counts = linesOfClass(svgText(layOutPartsMatrix(matrix, options).body), "matrix-count");
    expect(counts).toHaveLength(1);
    expect(counts[0]).toContain(">12<");
  });

  it("keeps the order given and puts a mark in its part's column and its model's row", () => {
    const layout = layOutPartsMatrix(matrix, options);
    expect(layout.columns).toEqual([0, 1, 2, 3]);
    const last = linesOfClass(svgText(layout.body), "matrix-cell").at(-1) ?? "";
    expect(attribute(last, "x")).toBe(31);
    const row = layout.rows.find(({ model }) => model === 2);
    expect(attribute(last, "y")).toBe((row?.y ?? 0) + 3);
  });

  it("counts in its margins what its body shows", () => {
    const layout = layOutPartsMatrix(matrix, options);
    expect(layout.rows.map(({ shared, lone }) => [shared, lone])).toEqual([
      [2, 1],
      [2, 0],
      [0, 1],
    ]);
    const tallies = linesOfClass(svgText(layout.head), "matrix-tally");
    expect(tallies.map((line) => />(\d+)</.exec(line)?.[1])).toEqual(["2", "2", "1", "1"]);
    expect(layout.barLength(3, 60)).toBe(60);
    expect(layout.barLength(1, 60)).toBe(20);
  });

  it("heads each category of several models once, and names a lone model's beside it", () => {
    const { bands, rows } = layOutPartsMatrix(matrix, options);
    expect(bands).toEqual([{ category: "winch", y: 0 }]);
    expect(rows.map(({ y }) => y)).toEqual([20, 40, 60]);
    expect(rows.map(({ soleOf }) => soleOf)).toEqual([undefined, undefined, "bilge pump"]);
  });

  it("names the category again where the order given returns to it", () => {
    const again = { ...matrix, models: [...matrix.models, { ...matrix.models[0], id: "m4" }] };
    const { bands, rows } = layOutPartsMatrix(again as Matrix, options);
    expect(bands).toHaveLength(1);
    expect(rows.at(-1)).toMatchObject({ soleOf: "winch" });
  });

  it("leaves lone parts out when asked, says how many, and still counts them", () => {
    const layout = layOutPartsMatrix(matrix, { ...options, sharedOnly: true });
    expect(layout.columns).toEqual([0, 1]);
    expect(layout.hiddenParts).toBe(2);
    expect(layout.columnX(3)).toBeUndefined();
    expect(layout.rows[0]).toMatchObject({ shared: 2, lone: 1 });
    expect(layout.body.words).toContain(
      "2 parts are taken by two models or more, 2 by one model only",
    );
  });

  it("is drawn empty, not broken, without any model", () => {
    const layout = layOutPartsMatrix({ models: [], parts: [], cells: [] }, options);
    expect(layout.body).toMatchObject({ width: 0, height: 0 });
  });

  it("names what shares a model or takes a part", () => {
    expect([...neighboursOfModel(matrix, 0).sharedWith]).toEqual([[1, 2]]);
    expect(takersOfPart(matrix, 1)).toEqual([0, 1]);
    expect(modelWords(matrix, 0)).toBe(
      "A by Brasswick, 2 fitted: 3 parts, shares parts with B (2).",
    );
    expect(modelWords(matrix, 2)).toContain("shares none with another model");
    expect(partWords(matrix, 3)).toBe("900 diaphragm by Tholepin: taken by C.");
  });
});
