import type { Pmf } from "../demand/pmf.ts";
import { requireNumber, wholeCount } from "../demand/require-number.ts";
import { atMost } from "./at-most.ts";
import { requireNeeded } from "./k-of-n.ts";

/** A stopping part of a model: demand over all its items, usable spares, pieces in each item. */
export interface StoppingPart {
  readonly demand: Pmf;
  readonly spares: number;
  readonly piecesPerItem: number;
}

/** The items of one model that serve a function. */
export interface ModelGroup {
  readonly fitted: number;
  readonly parts: readonly StoppingPart[];
}

/**
 * The chances that exactly 0, 1, ..., n items of a model can be kept whole by robbing the others.
 *
 *   Pr(W ≥ a) = Π_p F_p(s_p + (n - a) q_p),  a = 1..n;   Pr(W ≥ 0) = 1
 *
 * Returns an array of length n + 1 that sums to 1. O(n Σ length). Source: METHODS of this project,
 * section 2; own derivation.
 */
export function wholeItems(group: ModelGroup): Float64Array {
  const { fitted, parts } = group;
  requireNumber("The number fitted", fitted, wholeCount);
  for (const part of parts) {
    requireNumber("The usable spares", part.spares, wholeCount);
    requireNumber("The pieces in each item", part.piecesPerItem, wholeCount);
  }
  const result = new Float64Array(fitted + 1);
  let more = 0;
  for (let a = fitted; a > 0; a -= 1) {
    const kept = parts.reduce(
      (product, p) => product * atMost(p.demand, p.spares + (fitted - a) * p.piecesPerItem),
      1,
    );
    result[a] = Math.max(0, kept - more);
    more = Math.max(more, kept);
  }
  result[0] = 1 - more;
  return result;
}

/**
 * The chance that a function served by several models is met: `Pr(Σ_A W_A ≥ k)`, by convolution.
 * Right only when no two of the models share a stopping part; the caller must see to that (shared
 * parts: condition on their demand, or simulate), and never for safety gear, which takes no credit
 * for redundancy. Throws `input-invalid` when k exceeds the items.
 */
export function mixedModelSurvival(groups: readonly ModelGroup[], needed: number): number {
  requireNeeded(
    needed,
    groups.reduce((sum, group) => sum + group.fitted, 0),
  );
  let kept = new Float64Array([1]);
  for (const group of groups) {
    const whole = wholeItems(group);
    const next = new Float64Array(kept.length + whole.length - 1);
    kept.forEach((p, i) => {
      whole.forEach((w, j) => {
        next[i + j] = (next[i + j] ?? 0) + p * w;
      });
    });
    kept = next;
  }
  const failing = kept.subarray(0, needed).reduce((sum, p) => sum + p, 0);
  return failing < 0.5 ? 1 - failing : kept.subarray(needed).reduce((sum, p) => sum + p, 0);
}
