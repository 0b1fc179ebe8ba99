import type { Pmf } from "../demand/pmf.ts";

/**
 * `F(x) = Pr(D ≤ x)`: 0 below zero, `1 - tail` beyond the array (never overstated). Taken from
 * whichever end is nearer one half, so small and near-one values both keep their digits. O(n).
 */
export function atMost(demand: Pmf, x: number): number {
  if (x < 0) return 0;
  let below = 0;
  for (let k = 0; k <= x && k < demand.mass.length; k += 1) below += demand.mass[k] ?? 0;
  return below < 0.5 ? below : 1 - moreThan(demand, x);
}

/** `Pr(D > x)`, the chance of running short with `x` pieces, summed from the far end. O(n). */
export function moreThan(demand: Pmf, x: number): number {
  let beyond = demand.tail;
  const first = Math.max(0, Math.floor(x) + 1);
  for (let k = demand.mass.length - 1; k >= first; k -= 1) beyond += demand.mass[k] ?? 0;
  return x < 0 ? 1 : beyond;
}
