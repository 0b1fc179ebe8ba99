import { FirstOf } from "./first-of.ts";
import { type Incidence, inverseOf, requireIncidence } from "./incidence.ts";

/** Pairs of models that share parts, as columns of one length. */
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
 * The pairs of models most alike by Jaccard likeness, among those that share at least one part class: by falling
 * likeness, then falling number shared, then rising models. Walks the models of each part rather than all pairs, so
 * cost is `Σ_p Φ_p²`; holds no more than a few times `most` pairs, so that a fleet of many thousand models can be asked.
 *
 * @param most the most pairs wanted; Infinity for all
 * Throws `input-invalid` for a malformed incidence.
 * Source: P. Jaccard, New Phytologist 11 (1912), coefficient of community.
 */
export function mostAlike(incidence: Incidence, most: number): LikenessPairs {
  const best = new FirstOf(most, compareAlike);
  for (const { model, met, bothOf, likenessTo } of metByModel(incidence))
    for (const other of met) {
      const likeness = likenessTo(other);
      if (likeness < (best.last?.likeness ?? 0)) continue;
      best.offer({ first: model, second: other, shared: bothOf(other), likeness });
    }
  const pairs = best.list();
  return {
    first: Int32Array.from(pairs, ({ first }) => first),
    second: Int32Array.from(pairs, ({ second }) => second),
    shared: Int32Array.from(pairs, ({ shared }) => shared),
    likeness: Float64Array.from(pairs, ({ likeness }) => likeness),
  };
}

interface Pair {
  readonly first: number;
  readonly second: number;
  readonly shared: number;
  readonly likeness: number;
}
const compareAlike = (x: Pair, y: Pair): number =>
  y.likeness - x.likeness || y.shared - x.shared || x.first - y.first || x.second - y.second;

/** One model after another with the later models it shares a part with; to be read before the next is asked for. */
function* metByModel(incidence: Incidence) {
  requireIncidence(incidence);
  const { modelCount, start, parts } = incidence;
  const users = inverseOf(incidence);
  const size = (m: number) => (start[m + 1] ?? 0) - (start[m] ?? 0);
  const counts = new Int32Array(modelCount);
  const bothOf = (other: number): number => counts[other] ?? 0;
  for (let model = 0; model < modelCount; model += 1) {
    const met: number[] = [];
    for (let i = start[model] ?? 0; i < (start[model + 1] ?? 0); i += 1) {
      const part = parts[i] ?? 0;
      // The users of a part rise, so those after the model are reached from the end.
      for (let u = (users.start[part + 1] ?? 0) - 1; (users.parts[u] ?? -1) > model; u -= 1) {
        const other = users.parts[u] ?? 0;
        const count = counts[other] ?? 0;
        if (count === 0) met.push(other);
        counts[other] = count + 1;
      }
    }
    const likenessTo = (other: number): number =>
      bothOf(other) / (size(model) + size(other) - bothOf(other));
    yield { model, met, bothOf, likenessTo };
    for (const other of met) counts[other] = 0;
  }
}
