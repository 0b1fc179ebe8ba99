/** A cover problem's core in arrays, with the standing of its columns and rows at one node of a search. */
export interface CoverNode {
  /** 0 free, 1 taken, 2 left out. */
  readonly standing: Uint8Array;
  /** Rows covered by a taken column: 1. */
  readonly covered: Uint8Array;
  /** Multiplier of each row, the best known. */
  readonly multipliers: Float64Array;
  /** Cost of the taken columns. */
  taken: number;
}

interface BoundInput {
  readonly columns: readonly Int32Array[];
  readonly costs: Float64Array;
  readonly node: CoverNode;
  /** Cost of the best cover known. */
  readonly upper: number;
  /** Bounds above this end the work early. */
  readonly enough: number;
  readonly steps: number;
  /** Called with the reduced costs every few steps, for a cover to be made of them. */
  readonly tryCover?: (reduced: Float64Array) => void;
}

/**
 * A lower bound by Lagrangian relaxation of the rows, its multipliers improved by subgradient steps:
 * L(u) = taken + Σ u_i + Σ_j min(0, c_j - Σ_i u_i). Any u >= 0 gives a true bound.
 * Leaves the best multipliers in `node`, their reduced costs in `reduced` (infinite for settled columns).
 * Source: Beasley, "A Lagrangian heuristic for set-covering problems", 1990; Held & Karp step lengths.
 */
export function multiplierBound(input: BoundInput, reduced: Float64Array): number {
  const { columns, costs, node, enough } = input;
  const { standing, covered, multipliers } = node;
  const trial = multipliers.slice();
  const missing = new Float64Array(trial.length);
  const open = [...covered.keys()].filter((row) => covered[row] === 0);
  const free = [...standing.keys()].filter((column) => standing[column] === 0);
  const price = (u: Float64Array): number => {
    let bound = node.taken;
    for (const row of open) {
      bound += u[row] ?? 0;
      missing[row] = 1;
    }
    for (const column of free) {
      let cost = costs[column] ?? 0;
      const rows = columns[column] ?? [];
      for (const row of rows) if (covered[row] === 0) cost -= u[row] ?? 0;
      reduced[column] = cost;
      if (cost >= 0) continue;
      bound += cost;
      for (const row of rows) missing[row] = (missing[row] ?? 0) - 1;
    }
    return bound;
  };
  reduced.fill(Number.POSITIVE_INFINITY);
  let best = Number.NEGATIVE_INFINITY;
  let scale = 1.5;
  let idle = 0;
  for (let step = 0; step < input.steps; step++) {
    const bound = price(trial);
    if (bound > best + 1e-9) {
      best = bound;
      multipliers.set(trial);
      idle = 0;
    } else if (++idle >= 12) {
      scale /= 2;
      idle = 0;
    }
    if (best > enough || scale < 0.005) break;
    if (step % 8 === 7) input.tryCover?.(reduced);
    let length = 0;
    for (const row of open) {
      const slope = missing[row] ?? 0;
      if (slope > 0 || (trial[row] ?? 0) > 0) length += slope * slope;
    }
    if (length === 0) break;
    const stride = (scale * Math.max(input.upper * 1.01 - bound, 1e-3)) / length;
    for (const row of open) {
      trial[row] = Math.max(0, (trial[row] ?? 0) + stride * (missing[row] ?? 0));
    }
  }
  return price(multipliers);
}
