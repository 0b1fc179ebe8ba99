import type { Random } from "./xoshiro.ts";

/** Longest mean that one product of uniforms is asked for; e^-30 is far from the smallest double. */
const longest = 30;

/**
 * One draw from Poisson(mean), by counting exponential gaps (a product of uniforms) in steps of at most 30; exact,
 * O(mean). Source: D. Knuth, The Art of Computer Programming 2, 3.4.1.
 */
export function drawPoisson(random: Random, mean: number): number {
  let count = 0;
  for (let left = mean; left > 0; left -= longest) {
    const floor = Math.exp(-Math.min(left, longest));
    let product = random();
    while (product > floor) {
      count += 1;
      product *= random();
    }
  }
  return count;
}

/**
 * One draw from Gamma(shape, rate 1), shape > 0. Source: G. Marsaglia, W. Tsang, A simple method for generating
 * gamma variables, ACM Trans. Math. Software 26 (2000); shapes below 1 through shape + 1 and a power of a uniform.
 */
export function drawGamma(random: Random, shape: number): number {
  if (shape < 1) return drawGamma(random, shape + 1) * random() ** (1 / shape);
  const d = shape - 1 / 3;
  const c = 1 / Math.sqrt(9 * d);
  for (;;) {
    const x = drawNormal(random);
    const v = (1 + c * x) ** 3;
    if (v > 0 && Math.log(random()) < 0.5 * x * x + d * (1 - v + Math.log(v))) return d * v;
  }
}

/** One standard normal draw, by G. Marsaglia's polar method (1964); the second of the pair is not kept. */
function drawNormal(random: Random): number {
  for (;;) {
    const x = 2 * random() - 1;
    const y = 2 * random() - 1;
    const square = x * x + y * y;
    if (square > 0 && square < 1) return x * Math.sqrt((-2 * Math.log(square)) / square);
  }
}

/**
 * A picker of indices in proportion to `weights` (≥ 0, not all 0), in constant time by the alias table.
 * Source: A. Walker (1977); M. Vose, A linear algorithm for generating random numbers with a given distribution (1991).
 */
export function weightedPicker(weights: Float64Array): (random: Random) => number {
  const n = weights.length;
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const share = weights.map((weight) => (weight * n) / total);
  const alias = Int32Array.from(weights, (_, at) => at);
  const low: number[] = [];
  const high: number[] = [];
  share.forEach((value, at) => {
    (value < 1 ? low : high).push(at);
  });
  for (let small = low.pop(), large = high.pop(); small !== undefined; small = low.pop()) {
    if (large === undefined) {
      share[small] = 1;
      continue;
    }
    alias[small] = large;
    share[large] = (share[large] ?? 0) - (1 - (share[small] ?? 0));
    if ((share[large] ?? 0) < 1) {
      low.push(large);
      large = high.pop();
    }
  }
  return (random) => {
    const at = Math.floor(random() * n);
    return random() < (share[at] ?? 1) ? at : (alias[at] ?? at);
  };
}
