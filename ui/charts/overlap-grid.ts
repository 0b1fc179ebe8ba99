import { max } from "d3-array";
import type { Mark, Scene } from "./scene.ts";

/** Two suppliers that sell some of the same parts. */
export interface Overlap {
  readonly a: string;
  readonly b: string;
  readonly shared: number;
}

const cell = 34;

const clip = (text: string, letters: number) =>
  text.length > letters ? `${text.slice(0, letters - 1)}…` : text;

/**
 * Suppliers against suppliers, below the diagonal: a square the darker the more parts both sell, in four steps up to the
 * greatest overlap, with their number where it has room. Suppliers stand in the order given.
 */
export function layOutOverlaps(
  suppliers: readonly string[],
  overlaps: readonly Overlap[],
  width: number,
  words: string,
): Scene {
  const names = Math.min(220, Math.max(96, width - suppliers.length * cell - 8));
  const size = Math.min(cell, Math.max(18, (width - names - 8) / Math.max(1, suppliers.length)));
  const greatest = max(overlaps, ({ shared }) => shared) ?? 1;
  const place = new Map(suppliers.map((name, index) => [name, index]));
  const marks: Mark[] = [];
  suppliers.forEach((name, row) => {
    const y = row * size;
    marks.push(
      {
        kind: "text",
        x: names - 8,
        y: y + size / 2 + 5,
        text: clip(name, Math.floor(names / 7)),
        anchor: "end",
        className: "overlap-name",
      },
      {
        kind: "line",
        x1: names,
        x2: names + row * size,
        y1: y + size,
        y2: y + size,
        className: "matrix-rule",
      },
      {
        kind: "text",
        x: names + row * size + size / 2,
        y: y + size / 2 + 5,
        text: String(row + 1),
        anchor: "middle",
        className: "axis-text",
      },
    );
  });
  for (const { a, b, shared } of overlaps) {
    const first = place.get(a);
    const second = place.get(b);
    if (first === undefined || second === undefined || shared === 0) continue;
    const row = Math.max(first, second);
    const column = Math.min(first, second);
    const side = size - 4;
    const step = Math.min(4, 1 + Math.floor((3.999 * shared) / greatest));
    const cx = names + column * size + size / 2;
    const cy = row * size + size / 2;
    marks.push({
      kind: "rect",
      x: cx - side / 2,
      y: cy - side / 2,
      width: side,
      height: side,
      className: `overlap-${step}`,
    });
    if (size >= 26)
      marks.push({
        kind: "text",
        x: cx,
        y: cy + 4,
        text: String(shared),
        anchor: "middle",
        className: step > 2 ? "overlap-count overlap-dark" : "overlap-count",
      });
  }
  return { width, height: suppliers.length * size + 4, words, marks };
}
