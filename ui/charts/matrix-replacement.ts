import type { Matrix } from "./parts-matrix.ts";

/** What becomes of the parts when one fitted model is replaced by another that is fitted too. */
export interface Replacement {
  readonly replaced: number;
  readonly by: number;
  /** Parts nothing else takes: no longer needed aboard. */
  readonly vanishing: ReadonlySet<number>;
  /** Parts of the replaced model that others still ask for. */
  readonly staying: number;
  readonly words: string;
}

/**
 * Parts that vanish when every item of model `replaced` becomes a `by`: those no other model takes. As `by` is fitted
 * already, no part is added. O(cells). Its pieces are counted by part, not by how many are aboard.
 */
export function replaceInMatrix(
  matrix: Matrix,
  replaced: number,
  by: number,
): Replacement | undefined {
  const from = matrix.models[replaced];
  const to = matrix.models[by];
  if (from === undefined || to === undefined || replaced === by) return undefined;
  const takers = matrix.parts.map(() => 0);
  for (const [, column] of matrix.cells) takers[column] = (takers[column] ?? 0) + 1;
  const taken = matrix.cells.filter(([row]) => row === replaced).map(([, column]) => column);
  const vanishing = new Set(taken.filter((column) => takers[column] === 1));
  const staying = taken.length - vanishing.size;
  const parts = vanishing.size === 1 ? "1 part vanishes" : `${vanishing.size} parts vanish`;
  return {
    replaced,
    by,
    vanishing,
    staying,
    words:
      `With ${to.name} in the place of ${from.name} (${from.items} fitted), ${vanishing.size === 0 ? "no part vanishes" : parts}` +
      `${staying > 0 ? `; ${staying} it shares stay` : ""}, and none comes in.`,
  };
}
