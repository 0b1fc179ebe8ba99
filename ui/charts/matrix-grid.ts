import type { Matrix } from "./parts-matrix.ts";

/** A matrix made ready for drawing on canvas: models as rows one under the other, cells sorted by column. */
export interface MatrixGrid {
  readonly rows: readonly {
    readonly model: number;
    readonly shared: number;
    readonly lone: number;
  }[];
  readonly columns: readonly number[];
  readonly takers: Uint32Array;
  /** Cells of the n-th drawn column stand at start[n] up to start[n + 1] in `cellRow`. */
  readonly start: Uint32Array;
  readonly cellRow: Uint32Array;
}

/** Lays a matrix out for canvas; O(cells + models + parts). */
export function layOutGrid(matrix: Matrix, sharedOnly: boolean): MatrixGrid {
  const takers = new Uint32Array(matrix.parts.length);
  for (const [, column] of matrix.cells) takers[column] = (takers[column] ?? 0) + 1;
  const columns: number[] = [];
  const placeOf = new Int32Array(matrix.parts.length).fill(-1);
  for (let part = 0; part < matrix.parts.length; part++)
    if (!sharedOnly || (takers[part] ?? 0) > 1) {
      placeOf[part] = columns.length;
      columns.push(part);
    }
  const start = new Uint32Array(columns.length + 1);
  const shared = new Uint32Array(matrix.models.length);
  const lone = new Uint32Array(matrix.models.length);
  for (const [row, column] of matrix.cells) {
    const counts = (takers[column] ?? 0) > 1 ? shared : lone;
    counts[row] = (counts[row] ?? 0) + 1;
    const place = placeOf[column] ?? -1;
    if (place >= 0) start[place + 1] = (start[place + 1] ?? 0) + 1;
  }
  for (let place = 0; place < columns.length; place++)
    start[place + 1] = (start[place + 1] ?? 0) + (start[place] ?? 0);
  const next = start.slice(0, columns.length);
  const cellRow = new Uint32Array(start[columns.length] ?? 0);
  for (const [row, column] of matrix.cells) {
    const place = placeOf[column] ?? -1;
    if (place < 0) continue;
    const at = next[place] ?? 0;
    cellRow[at] = row;
    next[place] = at + 1;
  }
  return {
    rows: matrix.models.map((_, model) => ({
      model,
      shared: shared[model] ?? 0,
      lone: lone[model] ?? 0,
    })),
    columns,
    takers,
    start,
    cellRow,
  };
}
