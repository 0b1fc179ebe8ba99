/**
 * A demand as a probability mass function on 0, 1, 2, ...: `mass[k] = Pr(D = k)` for
 * `k < mass.length`, and `tail`, the probability left out beyond the array (below 1e-12). The tail
 * is kept, not shared out, so a cumulative probability is never overstated.
 */
export type Pmf = { readonly mass: Float64Array; readonly tail: number };

/** The most probability a whole demand may leave out beyond its array. */
export const TAIL_LIMIT = 1e-12;

/**
 * What one cut may drop. A thousand convolutions of terms cut here still leave out less than
 * TAIL_LIMIT, so pooling many gear lines does not eat into the promise.
 */
const CUT = TAIL_LIMIT / 2000;

/** The demand that is exactly `k` pieces. */
export function pointMass(k: number): Pmf {
  const mass = new Float64Array(k + 1);
  mass[k] = 1;
  return { mass, tail: 0 };
}

/** The same demand without its uppermost masses, whose sum (below 5e-16) moves to the tail. O(n). */
export function cutTail(mass: Float64Array, tail: number): Pmf {
  let end = mass.length;
  let dropped = 0;
  while (end > 1) {
    const next = dropped + (mass[end - 1] ?? 0);
    if (next > CUT) break;
    dropped = next;
    end -= 1;
  }
  return { mass: mass.slice(0, end), tail: tail + dropped };
}

/**
 * The demand `A + B` of two independent demands: `mass[k] = Σ_i a[i] b[k-i]`.
 * The tail is that of "either lies beyond its array", `ta + tb - ta tb`, plus what the cut drops.
 * O(n m), skipping masses that are exactly zero.
 */
export function convolve(a: Pmf, b: Pmf): Pmf {
  const [short, long] = a.mass.length <= b.mass.length ? [a.mass, b.mass] : [b.mass, a.mass];
  const mass = new Float64Array(short.length + long.length - 1);
  let from = 0;
  let to = long.length;
  while (from < to && long[from] === 0) from += 1;
  while (to > from && long[to - 1] === 0) to -= 1;
  for (let i = 0; i < short.length; i += 1) {
    const weight = short[i] ?? 0;
    if (weight === 0) continue;
    for (let j = from; j < to; j += 1) {
      mass[i + j] = (mass[i + j] ?? 0) + weight * (long[j] ?? 0);
    }
  }
  return cutTail(mass, a.tail + b.tail - a.tail * b.tail);
}

/**
 * The sum of independent demands, in whatever order they are given (none: exactly zero). The
 * shortest are joined first, which keeps hundreds of small terms at a few thousand multiplications.
 * Terms known to be Poisson are cheaper added as means before they come here.
 */
export function convolveAll(terms: readonly Pmf[]): Pmf {
  let queue = terms
    .map((term) => ({ term, mean: meanOf(term) }))
    .sort((x, y) => x.term.mass.length - y.term.mass.length || x.mean - y.mean)
    .map(({ term }) => term);
  while (queue.length > 1) {
    const joined: Pmf[] = [];
    for (let i = 0; i < queue.length; i += 2) {
      const first = queue[i];
      const second = queue[i + 1];
      if (first !== undefined) joined.push(second === undefined ? first : convolve(first, second));
    }
    queue = joined;
  }
  return queue[0] ?? pointMass(0);
}

/** The sum of `count` independent copies of one demand, by repeated squaring. */
export function convolvePower(term: Pmf, count: number): Pmf {
  let result = pointMass(0);
  let square = term;
  for (let left = count; left > 0; left = Math.floor(left / 2)) {
    if (left % 2 === 1) result = convolve(result, square);
    if (left > 1) square = convolve(square, square);
  }
  return result;
}

/** The expected number of pieces, `Σ k mass[k]`, with the tail counted at its least, `mass.length`. */
export function meanOf({ mass, tail }: Pmf): number {
  let sum = tail * mass.length;
  for (let k = mass.length - 1; k > 0; k -= 1) sum += k * (mass[k] ?? 0);
  return sum;
}

/**
 * `Pr(D > k)` for each `k < mass.length`, summed from the far end so that small chances of running
 * short keep all their digits (`1 - F` would lose them). Rounding never lifts it above 1. O(n).
 */
export function survival({ mass, tail }: Pmf): Float64Array {
  const beyond = new Float64Array(mass.length);
  let sum = tail;
  for (let k = mass.length - 1; k >= 0; k -= 1) {
    beyond[k] = Math.min(1, sum);
    sum += mass[k] ?? 0;
  }
  return beyond;
}

/**
 * `F(k) = Pr(D ≤ k)` for each `k < mass.length`: summed from below in the lower half and taken as
 * `1 - Pr(D > k)` above it, so each end is right to a few units in the last place. O(n).
 */
export function cumulative(pmf: Pmf): Float64Array {
  const result = survival(pmf);
  let sum = 0;
  for (let k = 0; k < result.length; k += 1) {
    sum += pmf.mass[k] ?? 0;
    result[k] = sum < 0.5 ? sum : 1 - (result[k] ?? 0);
  }
  return result;
}
