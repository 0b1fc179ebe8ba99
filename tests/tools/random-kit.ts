import type { KitPart } from "../../api/scoring/kit/kit-problem.ts";

/** A seeded stream of numbers in [0, 1). Source: Steele & Vigna's splitmix construction on 32 bits, as commonly printed. */
export function seededRandom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x9e3779b9) >>> 0;
    let z = state;
    z = Math.imul(z ^ (z >>> 16), 0x85ebca6b);
    z = Math.imul(z ^ (z >>> 13), 0xc2b2ae35);
    return ((z ^ (z >>> 16)) >>> 0) / 2 ** 32;
  };
}

/** ln Pr(D <= x), x = 0, 1, ..., of a Poisson demand, summed upwards and cut where the remaining tail is below 1e-12. */
export function poissonLogCdf(mean: number): Float64Array {
  const logs: number[] = [];
  let mass = Math.exp(-mean);
  let cdf = mass;
  for (let x = 0; ; x++) {
    logs.push(Math.log(Math.min(1, cdf)));
    if (1 - cdf < 1e-12 || (x > mean && mass < 1e-14)) break;
    mass *= mean / (x + 1);
    cdf += mass;
  }
  return Float64Array.from(logs);
}

/** Seeded Poisson parts of one tier: means from .01 to 3 and prices from 2.00 to 2 000.00, both spread evenly in their logarithm. */
export function randomKit(count: number, seed: number): KitPart[] {
  const random = seededRandom(seed);
  return Array.from({ length: count }, () => ({
    logCdf: poissonLogCdf(0.01 * 300 ** random()),
    unitCost: Math.round(200 * 1000 ** random()),
    tier: 0 as const,
  }));
}
