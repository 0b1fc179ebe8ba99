import type { Matrix } from "./parts-matrix.ts";

/** Which models share parts with a model, and which parts it takes. */
export interface Neighbours {
  readonly parts: ReadonlySet<number>;
  /** Model index -> number of parts shared, most first. */
  readonly sharedWith: ReadonlyMap<number, number>;
}

/** Parts of one model and the models it shares them with; O(cells). */
export function neighboursOfModel(matrix: Matrix, model: number): Neighbours {
  const parts = new Set<number>();
  for (const [row, column] of matrix.cells) if (row === model) parts.add(column);
  const counts = new Map<number, number>();
  for (const [row, column] of matrix.cells)
    if (row !== model && parts.has(column)) counts.set(row, (counts.get(row) ?? 0) + 1);
  return { parts, sharedWith: new Map([...counts].sort((a, b) => b[1] - a[1] || a[0] - b[0])) };
}

/** Models that take a part, in row order; O(cells). */
export const takersOfPart = (matrix: Matrix, part: number): readonly number[] =>
  [...new Set(matrix.cells.filter(([, column]) => column === part).map(([row]) => row))].sort(
    (a, b) => a - b,
  );

/** What pointing at a row says. */
export function modelWords(matrix: Matrix, model: number): string {
  const about = matrix.models[model];
  if (about === undefined) return "";
  const { parts, sharedWith } = neighboursOfModel(matrix, model);
  const shared = [...sharedWith]
    .slice(0, 4)
    .map(([other, count]) => `${matrix.models[other]?.name ?? ""} (${count})`);
  const rest = sharedWith.size - shared.length;
  const tail =
    shared.length === 0
      ? "shares none with another model"
      : `shares parts with ${shared.join(", ")}${rest > 0 ? ` and ${rest} more` : ""}`;
  const maker = about.name.startsWith(about.maker) ? "" : ` by ${about.maker}`;
  return `${about.name}${maker}, ${about.items} fitted: ${parts.size} parts, ${tail}.`;
}

/** What pointing at a column says. */
export function partWords(matrix: Matrix, part: number): string {
  const about = matrix.parts[part];
  if (about === undefined) return "";
  const takers = takersOfPart(matrix, part).map((row) => matrix.models[row]?.name ?? "");
  const names = takers.length > 6 ? [...takers.slice(0, 6), `${takers.length - 6} more`] : takers;
  return `${about.name} ${about.description} by ${about.maker}: taken by ${names.join(", ")}.`;
}
