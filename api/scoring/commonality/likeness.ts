import { chance, requireNumber } from "../demand/require-number.ts";
import { type Incidence, inverseOf, requireIncidence } from "./incidence.ts";

/** Pairs of models that share parts, as columns of one length, by first then second model. */
export interface LikenessPairs {
  /** The lower model number of the pair. */
  readonly first: Int32Array;
  readonly second: Int32Array;
  /** Part classes both use. */
  readonly shared: Int32Array;
  /** Jaccard likeness: shared / (used by either), in (0, 1]. */
  readonly likeness: Float64Array;
}

/**
 * The Jaccard likeness of every pair of models that shares at least one part class; pairs not listed
 * share none. Walks the models of each part rather than all pairs, so cost is `Σ_p Φ_p²`.
 *
 * @param atLeast leave out pairs below this likeness (default 0: keep every sharing pair).
 * Throws `input-invalid` for a malformed incidence.
 * Source: P. Jaccard, New Phytologist 11 (1912), coefficient of community.
 */
export function likenessPairs(incidence: Incidence, atLeast = 0): LikenessPairs {
  requireIncidence(incidence);
  requireNumber("The least likeness", atLeast, chance);
  const { modelCount, start, parts } = incidence;
  const users = inverseOf(incidence);
  const size = (m: number) => (start[m + 1] ?? 0) - (start[m] ?? 0);
  const first: number[] = [];
  const second: number[] = [];
  const shared: number[] = [];
  const likeness: number[] = [];
  const counts = new Int32Array(modelCount);
  for (let m = 0; m < modelCount; m += 1) {
    const met: number[] = [];
    for (let i = start[m] ?? 0; i < (start[m + 1] ?? 0); i += 1) {
      const part = parts[i] ?? 0;
      // The users of a part rise, so those after m are reached from the end.
      for (let u = (users.start[part + 1] ?? 0) - 1; (users.parts[u] ?? -1) > m; u -= 1) {
        const other = users.parts[u] ?? 0;
        const count = counts[other] ?? 0;
        if (count === 0) met.push(other);
        counts[other] = count + 1;
      }
    }
    met.sort((a, b) => a - b);
    for (const other of met) {
      const both = counts[other] ?? 0;
      counts[other] = 0;
      const jaccard = both / (size(m) + size(other) - both);
      if (jaccard < atLeast) continue;
      first.push(m);
      second.push(other);
      shared.push(both);
      likeness.push(jaccard);
    }
  }
  return {
    first: Int32Array.from(first),
    second: Int32Array.from(second),
    shared: Int32Array.from(shared),
    likeness: Float64Array.from(likeness),
  };
}
