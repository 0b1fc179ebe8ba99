import { max } from "d3-array";
import { categorySign, type SignShape } from "./category-sign.ts";
import type { Mark, Scene } from "./scene.ts";

/** A model on the map. */
export interface MapModel {
  readonly id: string;
  readonly name: string;
  readonly category: string;
  readonly items: number;
}

/** How alike two models are: shared parts over parts of either (Jaccard), above 0. */
export interface Likeness {
  readonly a: string;
  readonly b: string;
  readonly jaccard: number;
  readonly shared: number;
}

interface Point {
  x: number;
  y: number;
}

/** Groups of models linked by likeness, largest first; models like nothing stand in no group. O(models + pairs). */
export function likeGroups(
  models: readonly MapModel[],
  pairs: readonly Likeness[],
): readonly (readonly string[])[] {
  const near = new Map<string, string[]>();
  for (const { a, b } of pairs) {
    near.set(a, [...(near.get(a) ?? []), b]);
    near.set(b, [...(near.get(b) ?? []), a]);
  }
  const seen = new Set<string>();
  const groups: string[][] = [];
  for (const { id } of models) {
    if (seen.has(id) || !near.has(id)) continue;
    const group: string[] = [];
    const queue = [id];
    seen.add(id);
    for (let next = queue.pop(); next !== undefined; next = queue.pop()) {
      group.push(next);
      for (const other of near.get(next) ?? [])
        if (!seen.has(other)) {
          seen.add(other);
          queue.push(other);
        }
    }
    groups.push(group);
  }
  return groups.sort((a, b) => b.length - a.length);
}

/**
 * Places in the plane whose distances are as near as can be to 1 - likeness, by stress majorisation from points on a circle
 * (de Leeuw 1977; SMACOF with equal weights: X <- B(X) X / n). Unlike pairs of a group count as distance 1.
 * Deterministic; cost O(rounds n^2). Returns the points and the normalised stress, 0 = distances exact.
 */
export function embed(
  ids: readonly string[],
  pairs: readonly Likeness[],
  rounds = 120,
): { readonly points: readonly Point[]; readonly stress: number } {
  const count = ids.length;
  const index = new Map(ids.map((id, at) => [id, at]));
  const wanted = ids.map(() => new Float64Array(count).fill(1));
  ids.forEach((_, at) => {
    const row = wanted[at];
    if (row !== undefined) row[at] = 0;
  });
  for (const { a, b, jaccard } of pairs) {
    const i = index.get(a);
    const j = index.get(b);
    if (i === undefined || j === undefined) continue;
    const distance = Math.max(0.08, 1 - jaccard);
    const rowI = wanted[i];
    const rowJ = wanted[j];
    if (rowI !== undefined) rowI[j] = distance;
    if (rowJ !== undefined) rowJ[i] = distance;
  }
  let points: Point[] = ids.map((_, at) => ({
    x: 0.5 * Math.cos((2 * Math.PI * at) / count),
    y: 0.5 * Math.sin((2 * Math.PI * at) / count),
  }));
  for (let round = 0; round < rounds; round++)
    points = points.map((at, i) => {
      const moved = { x: 0, y: 0 };
      points.forEach((other, j) => {
        if (i === j) return;
        const distance = Math.hypot(at.x - other.x, at.y - other.y) || 1e-9;
        const ratio = (wanted[i]?.[j] ?? 1) / distance;
        moved.x += other.x + ratio * (at.x - other.x);
        moved.y += other.y + ratio * (at.y - other.y);
      });
      return count === 1 ? at : { x: moved.x / (count - 1), y: moved.y / (count - 1) };
    });
  let off = 0;
  let all = 0;
  points.forEach((a, i) => {
    points.forEach((b, j) => {
      if (j <= i) return;
      const want = wanted[i]?.[j] ?? 1;
      off += (Math.hypot(a.x - b.x, a.y - b.y) - want) ** 2;
      all += want ** 2;
    });
  });
  return { points, stress: all === 0 ? 0 : Math.sqrt(off / all) };
}

const signMark = (shape: SignShape, x: number, y: number, r: number, className: string): Mark => {
  const n = (value: number) => value.toFixed(1);
  switch (shape) {
    case "disc":
      return { kind: "circle", cx: x, cy: y, r, className };
    case "square":
      return {
        kind: "rect",
        x: x - r * 0.88,
        y: y - r * 0.88,
        width: r * 1.76,
        height: r * 1.76,
        className,
      };
    case "triangle":
      return {
        kind: "path",
        d: `M${n(x)} ${n(y - r * 1.15)}L${n(x + r * 1.1)} ${n(y + r * 0.85)}H${n(x - r * 1.1)}z`,
        className,
      };
    case "lozenge":
      return {
        kind: "path",
        d: `M${n(x)} ${n(y - r * 1.25)}L${n(x + r * 1.25)} ${n(y)}L${n(x)} ${n(y + r * 1.25)}L${n(x - r * 1.25)} ${n(y)}z`,
        className,
      };
  }
};

/**
 * Groups of models that share parts, each laid out so that what is alike stands together, groups in rows by size. Models
 * that share nothing are named in words, not scattered.
 */
export function layOutLikeness(
  models: readonly MapModel[],
  pairs: readonly Likeness[],
  width: number,
  words: string,
): Scene {
  const groups = likeGroups(models, pairs);
  const byId = new Map(models.map((model) => [model.id, model]));
  const categories = [...new Set(models.map(({ category }) => category))].sort();
  const mostItems = max(models, ({ items }) => items) ?? 1;
  const marks: Mark[] = [];
  let left = 0;
  let top = 0;
  let rowHeight = 0;
  for (const group of groups) {
    const side = Math.min(width, 120 + 58 * Math.sqrt(group.length) * 1.4);
    const cellWidth = Math.min(width, Math.max(side, 230));
    const cellHeight = group.length === 2 ? 76 : Math.max(130, side * 0.82);
    if (left + cellWidth > width && left > 0) {
      left = 0;
      top += rowHeight;
      rowHeight = 0;
    }
    const { points } = embed(group, pairs);
    const xs = points.map(({ x }) => x);
    const ys = points.map(({ y }) => y);
    const spanX = Math.max(...xs) - Math.min(...xs) || 1;
    const spanY = Math.max(...ys) - Math.min(...ys) || 1;
    const scale = Math.min((cellWidth - 130) / spanX, (cellHeight - 70) / spanY, 260);
    const placed = points.map(({ x, y }) => ({
      x: left + cellWidth / 2 + (x - (Math.max(...xs) + Math.min(...xs)) / 2) * scale,
      y: top + cellHeight / 2 + (y - (Math.max(...ys) + Math.min(...ys)) / 2) * scale,
    }));
    const at = new Map(group.map((id, index) => [id, placed[index] ?? { x: 0, y: 0 }]));
    for (const pair of pairs) {
      const a = at.get(pair.a);
      const b = at.get(pair.b);
      if (a === undefined || b === undefined) continue;
      marks.push({
        kind: "line",
        x1: a.x,
        y1: a.y,
        x2: b.x,
        y2: b.y,
        className:
          pair.jaccard >= 0.5
            ? "like-line like-strong"
            : pair.jaccard >= 0.2
              ? "like-line"
              : "like-line like-weak",
      });
    }
    group.forEach((id, index) => {
      const model = byId.get(id);
      const spot = placed[index];
      if (model === undefined || spot === undefined) return;
      const { shape, colour } = categorySign(categories.indexOf(model.category));
      const radius = 6 + 6 * Math.sqrt(model.items / mostItems);
      marks.push(signMark(shape, spot.x, spot.y, radius, `like-model kind-${colour}`), {
        kind: "text",
        x: spot.x,
        y: spot.y + (index % 2 === 0 ? -radius - 5 : radius + 14),
        text: model.name,
        anchor: "middle",
        className: "like-name",
      });
    });
    left += cellWidth;
    rowHeight = Math.max(rowHeight, cellHeight);
  }
  return { width, height: top + rowHeight, words, marks };
}
