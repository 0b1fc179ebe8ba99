import { headHeight, layOutPartsMatrix, type Matrix } from "./parts-matrix.ts";
import type { Mark, Scene } from "./scene.ts";

const rowHeight = 20;
const columnWidth = 13;
const labels = 260;

const shifted = (mark: Mark, dx: number, dy: number): Mark => {
  switch (mark.kind) {
    case "line":
      return { ...mark, x1: mark.x1 + dx, x2: mark.x2 + dx, y1: mark.y1 + dy, y2: mark.y2 + dy };
    case "circle":
      return { ...mark, cx: mark.cx + dx, cy: mark.cy + dy };
    case "path":
      return mark;
    default:
      return { ...mark, x: mark.x + dx, y: mark.y + dy };
  }
};

/** The whole matrix with its labels in one scene, for files. */
export function wholeMatrixScene(matrix: Matrix, sharedOnly: boolean, words: string): Scene {
  const layout = layOutPartsMatrix(matrix, { sharedOnly, rowHeight, columnWidth });
  const label = (x: number, y: number, text: string, className: string): Mark => ({
    kind: "text",
    x,
    y: headHeight + y + rowHeight - 6,
    text,
    className,
  });
  return {
    width: labels + layout.body.width,
    height: headHeight + layout.body.height,
    words,
    marks: [
      ...layout.body.marks.map((mark) => shifted(mark, labels, headHeight)),
      ...layout.head.marks.map((mark) => shifted(mark, labels, 0)),
      ...layout.bands.map(({ category, y }) => label(4, y, category, "matrix-heading")),
      ...layout.rows.map(({ model, y, soleOf }) =>
        label(
          12,
          y,
          `${matrix.models[model]?.name ?? ""}${soleOf === undefined ? "" : ` (${soleOf})`}`,
          "matrix-part",
        ),
      ),
    ],
  };
}
