import type { MatrixGrid } from "./matrix-grid.ts";

/** How a large matrix stands in its box: sizes of a cell, of the margins, and how far it is scrolled. */
export interface MatrixView {
  readonly columnWidth: number;
  readonly rowHeight: number;
  readonly labelWidth: number;
  readonly headHeight: number;
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

const nearest = { columnWidth: 17, rowHeight: 28 } as const;
const farthest = { columnWidth: 0.25, rowHeight: 2 } as const;

const between = (from: number, to: number, share: number) =>
  Math.exp(Math.log(from) + (Math.log(to) - Math.log(from)) * share);

/**
 * Cell sizes at a zoom between 0 (all of it fits the box) and 1 (every name can be read): even steps of zoom are even
 * factors of size.
 */
export function cellSizes(
  zoom: number,
  counts: { readonly rows: number; readonly columns: number },
  room: { readonly width: number; readonly height: number },
): { readonly columnWidth: number; readonly rowHeight: number } {
  const sizeFor = (space: number, count: number, near: number, far: number) =>
    Math.min(near, Math.max(far, space / Math.max(1, count)));
  const width = sizeFor(room.width, counts.columns, nearest.columnWidth, farthest.columnWidth);
  const height = sizeFor(room.height, counts.rows, nearest.rowHeight, farthest.rowHeight);
  const share = Math.min(1, Math.max(0, zoom));
  return {
    columnWidth: between(width, nearest.columnWidth, share),
    rowHeight: between(height, nearest.rowHeight, share),
  };
}

/** The model and part under a point of the box; either may be missing. */
export function spotAt(
  layout: Pick<MatrixGrid, "rows" | "columns">,
  view: MatrixView,
  x: number,
  y: number,
): { readonly model: number | undefined; readonly part: number | undefined } {
  const column = Math.floor((x - view.labelWidth + view.left) / view.columnWidth);
  const row = Math.floor((y - view.headHeight + view.top) / view.rowHeight);
  return {
    part: x < view.labelWidth ? undefined : layout.columns[column],
    model: y < view.headHeight ? undefined : layout.rows[row]?.model,
  };
}
