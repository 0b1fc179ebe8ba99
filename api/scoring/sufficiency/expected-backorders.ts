import { type Pmf, survival } from "../demand/pmf.ts";

/**
 * The expected number of pieces wanting, `E[max(0, D - s)]`, for each `s < mass.length`.
 *
 *   EBO(s) = Σ_{j ≥ s} Pr(D > j)
 *
 * What lies beyond the array (below 1e-12) counts at its least. O(n).
 * Source: C. Sherbrooke, Optimal Inventory Modeling of Systems, ch. 2.
 */
export function expectedBackorders(demand: Pmf): Float64Array {
  const result = survival(demand);
  let sum = 0;
  for (let s = result.length - 1; s >= 0; s -= 1) {
    sum += result[s] ?? 0;
    result[s] = sum;
  }
  return result;
}
