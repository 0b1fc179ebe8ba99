import { max, sum } from "d3-array";
import { scaleBand, scaleLinear } from "d3-scale";
import type { CommonalityAnswer } from "../../api/contract/commonality.contract.ts";
import type { Mark, Scene } from "./scene.ts";

export type Matrix = CommonalityAnswer["matrix"];

export interface MatrixOptions {
  /** Draw only parts that two models or more take. */
  readonly sharedOnly: boolean;
  readonly rowHeight: number;
  readonly columnWidth: number;
}

export interface MatrixRow {
  /** Index into the matrix's models. */
  readonly model: number;
  readonly y: number;
  readonly shared: number;
  readonly lone: number;
  /** The category, where this is its only model and no band names it. */
  readonly soleOf?: string;
}
export interface MatrixBand {
  readonly category: string;
  readonly y: number;
}

/** The laid-out parts matrix: where its rows, category bands and columns stand, and its two scenes. */
export interface MatrixLayout {
  readonly rows: readonly MatrixRow[];
  readonly bands: readonly MatrixBand[];
  /** Indices into the matrix's parts, left to right. */
  readonly columns: readonly number[];
  readonly hiddenParts: number;
  readonly body: Scene;
  readonly head: Scene;
  readonly columnX: (part: number) => number | undefined;
  /** The length of a bar for so many parts, in a lane of the given width. */
  readonly barLength: (parts: number, lane: number) => number;
}

const headLabel = 104;
const headBars = 34;
export const headHeight = headLabel + headBars;

const clip = (text: string, letters: number) =>
  text.length > letters ? `${text.slice(0, letters - 1)}…` : text;

/**
 * Models as rows under their category, parts as columns in the order given, a mark where a model
 * takes a part. A part taken by one model only is drawn lighter; several pieces carry their count.
 * Cost O(cells + models + parts).
 */
export function layOutPartsMatrix(matrix: Matrix, options: MatrixOptions): MatrixLayout {
  const takers = matrix.parts.map(() => 0);
  const shared = matrix.models.map(() => 0);
  const lone = matrix.models.map(() => 0);
  for (const [, column] of matrix.cells) takers[column] = (takers[column] ?? 0) + 1;
  const isShared = (column: number) => (takers[column] ?? 0) > 1;
  for (const [row, column] of matrix.cells) {
    const counts = isShared(column) ? shared : lone;
    counts[row] = (counts[row] ?? 0) + 1;
  }
  const all = matrix.parts.map((_, column) => column);
  const columns = options.sharedOnly ? all.filter(isShared) : all;

  const rows: MatrixRow[] = [];
  const bands: MatrixBand[] = [];
  let y = 0;
  let category: string | undefined;
  let isAlone = false;
  matrix.models.forEach((model, index) => {
    if (model.category !== category) {
      category = model.category;
      // A category of one model is named beside it: a heading of its own would break the blocks apart.
      isAlone = matrix.models[index + 1]?.category !== category;
      if (!isAlone) {
        bands.push({ category, y });
        y += options.rowHeight;
      }
    }
    rows.push({
      model: index,
      y,
      shared: shared[index] ?? 0,
      lone: lone[index] ?? 0,
      ...(isAlone ? { soleOf: model.category } : {}),
    });
    y += options.rowHeight;
  });
  const width = columns.length * options.columnWidth;
  const across = scaleBand<number>().domain(columns).range([0, width]);
  const yOf = new Map(rows.map((row) => [row.model, row.y]));

  const marks: Mark[] = [];
  for (const band of bands)
    marks.push({
      kind: "rect",
      x: 0,
      y: band.y,
      width,
      height: options.rowHeight,
      className: "matrix-band",
    });
  for (const row of rows)
    marks.push({
      kind: "line",
      x1: 0,
      x2: width,
      y1: row.y + options.rowHeight,
      y2: row.y + options.rowHeight,
      className: "matrix-rule",
    });
  for (let step = 5; step < columns.length; step += 5)
    marks.push({
      kind: "line",
      x1: step * options.columnWidth,
      x2: step * options.columnWidth,
      y1: 0,
      y2: y,
      className: "matrix-rule",
    });
  for (const [row, column, quantity] of matrix.cells) {
    const x = across(column);
    const top = yOf.get(row);
    if (x === undefined || top === undefined) continue;
    marks.push({
      kind: "rect",
      x: x + 1,
      y: top + 3,
      width: options.columnWidth - 2,
      height: options.rowHeight - 6,
      className: isShared(column) ? "matrix-cell" : "matrix-cell matrix-lone",
    });
    if (quantity > 1)
      marks.push({
        kind: "text",
        x: x + options.columnWidth / 2,
        y: top + options.rowHeight / 2 + 4,
        text: quantity > 99 ? "+" : String(quantity),
        anchor: "middle",
        className: "matrix-count",
      });
  }

  const tallest = max(columns, (column) => takers[column]) ?? 1;
  const barHeight = scaleLinear()
    .domain([0, tallest])
    .range([0, headBars - 14]);
  const headMarks: Mark[] = [];
  for (const column of columns) {
    const x = across(column) ?? 0;
    const count = takers[column] ?? 0;
    const part = matrix.parts[column];
    headMarks.push(
      {
        kind: "text",
        x: x + options.columnWidth / 2 + 4,
        y: headLabel - 4,
        text: clip(part?.name ?? "", 15),
        turn: -90,
        className: "matrix-part",
      },
      {
        kind: "rect",
        x: x + 2,
        y: headHeight - barHeight(count),
        width: options.columnWidth - 4,
        height: barHeight(count),
        className: isShared(column) ? "matrix-bar" : "matrix-bar matrix-lone",
      },
      {
        kind: "text",
        x: x + options.columnWidth / 2,
        y: headHeight - barHeight(count) - 2,
        text: String(count),
        anchor: "middle",
        className: "matrix-tally",
      },
    );
  }
  const sharedParts = all.filter(isShared).length;
  const words =
    `${matrix.models.length} models by ${matrix.parts.length} parts: ${sharedParts} parts are taken ` +
    `by two models or more, ${matrix.parts.length - sharedParts} by one model only; ` +
    `${sum(shared) + sum(lone)} lines in all.`;
  const longest = max(matrix.models, (_, row) => (shared[row] ?? 0) + (lone[row] ?? 0)) ?? 1;
  return {
    rows,
    bands,
    columns,
    hiddenParts: matrix.parts.length - columns.length,
    body: { width, height: y, words, marks },
    head: { width, height: headHeight, words: "Models per part", marks: headMarks },
    columnX: (part) => across(part),
    barLength: (parts, lane) => scaleLinear().domain([0, longest]).range([0, lane])(parts),
  };
}
