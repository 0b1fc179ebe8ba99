import { describe, expect, it } from "vitest";
import { layOutGrid } from "../../ui/charts/matrix-grid.ts";
import { replaceInMatrix } from "../../ui/charts/matrix-replacement.ts";
import { cellSizes, spotAt } from "../../ui/charts/matrix-view.ts";
import type { Matrix } from "../../ui/charts/parts-matrix.ts";
import { wholeMatrixScene } from "../../ui/charts/whole-matrix.ts";
import { linesOfClass, svgText } from "./svg-text.tsx";

const model = (id: string, items: number) => ({
  id,
  name: id,
  category: "winch",
  maker: "Brasswick",
  items,
  parts: 0,
});
const part = (id: string) => ({ id, name: id, description: "", maker: "Brasswick", models: 0 });

/** Counted by hand: A takes p q r, B takes p q, C takes s. Only A takes r; only C takes s. */
const matrix: Matrix = {
  models: [model("A", 2), model("B", 1), model("C", 4)],
  parts: [part("p"), part("q"), part("r"), part("s")],
  cells: [
    [0, 0, 1],
    [0, 1, 1],
    [0, 2, 1],
    [1, 0, 1],
    [1, 1, 12],
    [2, 3, 1],
  ],
};

describe("a replacement supposed in the matrix", () => {
  it("makes vanish what no other model takes, and nothing else", () => {
    const outcome = replaceInMatrix(matrix, 0, 1);
    expect([...(outcome?.vanishing ?? [])]).toEqual([2]);
    expect(outcome?.staying).toBe(2);
    expect(outcome?.words).toBe(
      "With B in the place of A (2 fitted), 1 part vanishes; 2 it shares stay, and none comes in.",
    );
  });

  it("makes nothing vanish where another takes everything", () => {
    expect(replaceInMatrix(matrix, 1, 0)?.vanishing.size).toBe(0);
  });

  it("is none for a model in its own place or one that is not there", () => {
    expect(replaceInMatrix(matrix, 1, 1)).toBeUndefined();
    expect(replaceInMatrix(matrix, 7, 1)).toBeUndefined();
  });
});

describe("the matrix on canvas", () => {
  it("keeps every cell under its own column, and counts as the margins show", () => {
    const grid = layOutGrid(matrix, false);
    const cells = grid.columns.flatMap((column, place) =>
      [...grid.cellRow.subarray(grid.start[place], grid.start[place + 1])].map((row) => [
        row,
        column,
      ]),
    );
    expect(cells.sort()).toEqual(matrix.cells.map(([row, column]) => [row, column]).sort());
    expect(grid.rows.map(({ shared, lone }) => [shared, lone])).toEqual([
      [2, 1],
      [2, 0],
      [0, 1],
    ]);
  });

  it("leaves lone parts out when asked", () => {
    const grid = layOutGrid(matrix, true);
    expect(grid.columns).toEqual([0, 1]);
    expect(grid.cellRow).toHaveLength(4);
  });

  it("fits the whole of it at no zoom, and shows readable rows at full zoom", () => {
    const counts = { rows: 300, columns: 3000 };
    const room = { width: 1000, height: 900 };
    const far = cellSizes(0, counts, room);
    expect(far.columnWidth * counts.columns).toBeCloseTo(1000);
    expect(far.rowHeight * counts.rows).toBeCloseTo(900);
    const near = cellSizes(1, counts, room);
    expect(near.columnWidth).toBeCloseTo(17);
    expect(near.rowHeight).toBeCloseTo(28);
    const half = cellSizes(0.5, counts, room);
    expect(half.columnWidth / far.columnWidth).toBeCloseTo(near.columnWidth / half.columnWidth);
  });

  it("finds what is under a finger, scrolled or not", () => {
    const grid = layOutGrid(matrix, false);
    const view = {
      columnWidth: 10,
      rowHeight: 20,
      labelWidth: 100,
      headHeight: 50,
      left: 0,
      top: 0,
      width: 400,
      height: 300,
    };
    expect(spotAt(grid, view, 125, 75)).toEqual({ part: 2, model: 1 });
    expect(spotAt(grid, { ...view, left: 10, top: 20 }, 125, 75)).toEqual({ part: 3, model: 2 });
    expect(spotAt(grid, view, 50, 75)).toEqual({ part: undefined, model: 1 });
    expect(spotAt(grid, view, 125, 20)).toEqual({ part: 2, model: undefined });
  });

  it("goes into files whole, with every label", () => {
    const svg = svgText(wholeMatrixScene(matrix, false, "3 models by 4 parts"));
    expect(linesOfClass(svg, "matrix-cell")).toHaveLength(6);
    for (const name of ["A", "B", "C", "p", "q", "r", "s"]) expect(svg).toContain(`>${name}<`);
  });
});
