import type { Pmf } from "../demand/pmf.ts";
import { atMost } from "./at-most.ts";

/** `Pr(X ≤ v)` for whole v ≥ 0: how many pieces a demand goes without. */
export type UnmetAtMost = (v: number) => number;

/** Own demand served before any other: X = max(0, D - s), so `Pr(X ≤ v) = F(s + v)`: the least it can go without. */
export const unmetServedFirst =
  (own: Pmf, spares: number): UnmetAtMost =>
  (v) =>
    atMost(own, spares + v);

/**
 * Own demand served after all other demand on the same pieces: the most it can go without.
 *
 *   X = min(D, max(0, D + E - s)),   Pr(X ≤ v) = F_D(v) + Σ_(i > v) Pr(D = i) Pr(E ≤ s + v - i)
 *
 * D own demand, E the rest (independent), s pieces. In any order of time X lies between this and `unmetServedFirst`.
 * O(length). Source: own derivation; oracle: enumeration, tests/properties.
 */
export function unmetServedLast(own: Pmf, rest: Pmf, spares: number): UnmetAtMost {
  if (rest.mass.length === 1 && rest.tail === 0) return unmetServedFirst(own, spares);
  return (v) => {
    let chance = atMost(own, v);
    for (let i = v + 1; i < own.mass.length && i <= spares + v; i += 1) {
      chance += (own.mass[i] ?? 0) * atMost(rest, spares + v - i);
    }
    return Math.min(1, chance);
  };
}
