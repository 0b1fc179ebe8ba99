import type { MatrixGrid } from "./matrix-grid.ts";
import type { MatrixView } from "./matrix-view.ts";
import type { Matrix } from "./parts-matrix.ts";

/** Colours of the light that is on, read from the page once. */
export interface MatrixColours {
  readonly paper: string;
  readonly band: string;
  readonly ink: string;
  readonly soft: string;
  readonly rule: string;
  readonly frame: string;
  readonly cell: string;
  readonly lone: string;
  readonly mate: string;
  readonly pick: string;
}

/** What is picked, and what vanishes with how much of it gone (0 to 1). */
export interface MatrixState {
  readonly model: number | undefined;
  readonly part: number | undefined;
  readonly mates: ReadonlySet<number>;
  readonly parts: ReadonlySet<number>;
  readonly replaced: number | undefined;
  readonly vanishing: ReadonlySet<number>;
  readonly gone: number;
}

type Pen = CanvasRenderingContext2D;

/** Text is drawn only where a row or column is this wide, in pixels: room for its letters. */
export const readable = 11;

/** Columns of the window, first and one past the last. */
function columnsInSight(grid: MatrixGrid, view: MatrixView): readonly [number, number] {
  const first = Math.max(0, Math.floor(view.left / view.columnWidth));
  const seen = Math.ceil((view.width - view.labelWidth) / view.columnWidth) + 1;
  return [first, Math.min(grid.columns.length, first + seen)];
}

function drawCells(
  pen: Pen,
  grid: MatrixGrid,
  view: MatrixView,
  state: MatrixState,
  colours: MatrixColours,
) {
  const [first, end] = columnsInSight(grid, view);
  const gap = view.columnWidth > 5 ? 1 : 0;
  const width = Math.max(1, view.columnWidth - 2 * gap);
  const inset = view.rowHeight > 9 ? 2 : view.rowHeight > 4 ? 0.5 : 0;
  const height = Math.max(1, view.rowHeight - 2 * inset);
  const bottom = view.top + view.height - view.headHeight;
  const ink = [colours.lone, colours.cell, colours.mate] as const;
  // One pass for each colour: changing the colour costs more than leaving a cell out.
  for (let pass = 0; pass < 3; pass++) {
    pen.fillStyle = ink[pass] ?? colours.cell;
    for (let place = first; place < end; place++) {
      const part = grid.columns[place] ?? 0;
      const isVanishing = state.vanishing.has(part);
      const kind =
        state.part === part || state.parts.has(part) ? 2 : (grid.takers[part] ?? 0) > 1 ? 1 : 0;
      if (kind !== pass) continue;
      if (isVanishing) pen.globalAlpha = Math.max(0.08, 1 - state.gone);
      const x = view.labelWidth + place * view.columnWidth - view.left + gap;
      const last = grid.start[place + 1] ?? 0;
      for (let at = grid.start[place] ?? 0; at < last; at++) {
        const y = (grid.cellRow[at] ?? 0) * view.rowHeight;
        if (y + view.rowHeight < view.top || y > bottom) continue;
        pen.fillRect(x, view.headHeight + y - view.top + inset, width, height);
      }
      if (isVanishing) pen.globalAlpha = 1;
    }
  }
}

function drawLabels(
  pen: Pen,
  matrix: Matrix,
  grid: MatrixGrid,
  view: MatrixView,
  state: MatrixState,
  colours: MatrixColours,
) {
  pen.fillStyle = colours.paper;
  pen.fillRect(0, view.headHeight, view.labelWidth, view.height);
  const first = Math.max(0, Math.floor(view.top / view.rowHeight));
  const end = Math.min(
    grid.rows.length,
    first + Math.ceil((view.height - view.headHeight) / view.rowHeight) + 1,
  );
  const isReadable = view.rowHeight >= readable;
  const size = Math.min(15, Math.max(10, view.rowHeight - 3));
  let lastText = Number.NEGATIVE_INFINITY;
  for (let row = first; row < end; row++) {
    const model = matrix.models[row];
    if (model === undefined) continue;
    const y = view.headHeight + row * view.rowHeight - view.top;
    const isNew = matrix.models[row - 1]?.category !== model.category;
    if (isNew) {
      pen.fillStyle = colours.rule;
      pen.fillRect(0, y, view.width, 1);
    }
    if (state.model === row || state.mates.has(row)) {
      pen.fillStyle = state.model === row ? colours.pick : colours.mate;
      pen.fillRect(
        state.model === row ? 0 : view.labelWidth - 5,
        y,
        state.model === row ? view.labelWidth : 5,
        view.rowHeight,
      );
    }
    const text = isReadable ? model.name : isNew ? model.category : "";
    if (text === "" || (!isReadable && y - lastText < 13)) continue;
    lastText = y;
    pen.fillStyle = isReadable ? colours.ink : colours.soft;
    pen.font = `${state.model === row ? 600 : 400} ${isReadable ? size : 12}px "Source Sans 3 Variable", sans-serif`;
    pen.textAlign = "left";
    const base = y + (isReadable ? view.rowHeight / 2 + size / 3 : 10);
    pen.fillText(text, 6, base, view.labelWidth - 14);
    if (state.replaced === row)
      pen.fillRect(
        6,
        base - size / 3,
        Math.min(view.labelWidth - 14, pen.measureText(text).width),
        1.5,
      );
  }
  pen.fillStyle = colours.frame;
  pen.fillRect(view.labelWidth - 1, 0, 1, view.height);
}

function drawHead(
  pen: Pen,
  matrix: Matrix,
  grid: MatrixGrid,
  view: MatrixView,
  state: MatrixState,
  colours: MatrixColours,
) {
  pen.fillStyle = colours.paper;
  pen.fillRect(0, 0, view.width, view.headHeight);
  const [first, end] = columnsInSight(grid, view);
  let tallest = 1;
  for (const part of grid.columns) tallest = Math.max(tallest, grid.takers[part] ?? 0);
  const barRoom = 30;
  const isReadable = view.columnWidth >= readable;
  pen.textAlign = "left";
  pen.font = '12px "Source Sans 3 Variable", sans-serif';
  for (let place = first; place < end; place++) {
    const part = grid.columns[place] ?? 0;
    const count = grid.takers[part] ?? 0;
    const x = view.labelWidth + place * view.columnWidth - view.left;
    const tall = (count / tallest) * barRoom;
    pen.fillStyle = state.part === part ? colours.mate : count > 1 ? colours.cell : colours.lone;
    pen.fillRect(
      x,
      view.headHeight - tall,
      Math.max(1, view.columnWidth - (view.columnWidth > 5 ? 2 : 0)),
      tall,
    );
    if (!isReadable) continue;
    pen.save();
    pen.translate(x + view.columnWidth / 2 + 4, view.headHeight - barRoom - 6);
    pen.rotate(-Math.PI / 2);
    pen.fillStyle = state.part === part ? colours.mate : colours.ink;
    pen.fillText(matrix.parts[part]?.name ?? "", 0, 0, view.headHeight - barRoom - 10);
    pen.restore();
  }
  pen.fillStyle = colours.paper;
  pen.fillRect(0, 0, view.labelWidth - 1, view.headHeight);
  pen.fillStyle = colours.soft;
  pen.font = '13px "Source Sans 3 Variable", sans-serif';
  pen.textAlign = "right";
  pen.fillText("models per part →", view.labelWidth - 8, view.headHeight - 10);
  pen.fillStyle = colours.frame;
  pen.fillRect(0, view.headHeight - 1, view.width, 1);
  pen.fillRect(view.labelWidth - 1, 0, 1, view.headHeight);
}

/** Draws what of the matrix is in sight, margins over it; cost is that of the cells in sight. */
export function drawMatrix(
  pen: Pen,
  matrix: Matrix,
  grid: MatrixGrid,
  view: MatrixView,
  state: MatrixState,
  colours: MatrixColours,
): void {
  pen.globalAlpha = 1;
  pen.fillStyle = colours.paper;
  pen.fillRect(0, 0, view.width, view.height);
  if (state.model !== undefined) {
    pen.fillStyle = colours.pick;
    const y = view.headHeight + state.model * view.rowHeight - view.top;
    pen.fillRect(view.labelWidth, y, view.width, Math.max(1, view.rowHeight));
  }
  drawCells(pen, grid, view, state, colours);
  drawLabels(pen, matrix, grid, view, state, colours);
  drawHead(pen, matrix, grid, view, state, colours);
}
