import { requireNumber, wholeCount } from "../demand/require-number.ts";
import { requireNeeded } from "./k-of-n.ts";

/** How a function bears on a part: items of one model serve it, and each takes some of the part. */
export interface AlikeService {
  /** Items of the one model that serve the function, `n`. */
  readonly fitted: number;
  /** Items the function needs, `k`. */
  readonly needed: number;
  /** Pieces of the part in each item, `q`. */
  readonly piecesPerItem: number;
  /** Safety gear takes no credit, ever. */
  readonly tier: "safety" | "passage" | "comfort";
}

/**
 * The pieces of a part that may be taken from items the functions can spare, `V`.
 *
 *   V = Σ over functions (n - k) q
 *
 * With n q + s - D good pieces left, k whole items can be made exactly when D ≤ s + (n-k) q; so a
 * part is sufficient with probability F(s + V). Functions of the safety tier add nothing.
 * Throws `input-invalid` when k exceeds n. Source: own derivation; oracle: enumeration of every
 * way to share out the pieces, tests/properties.
 */
export function robbingCredit(functions: readonly AlikeService[]): number {
  let credit = 0;
  for (const { fitted, needed, piecesPerItem, tier } of functions) {
    requireNeeded(needed, fitted);
    requireNumber("The pieces in each item", piecesPerItem, wholeCount);
    if (tier !== "safety") credit += (fitted - needed) * piecesPerItem;
  }
  return credit;
}
