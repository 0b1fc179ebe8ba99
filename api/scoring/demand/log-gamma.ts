const HALF_LOG_TWO_PI = Math.log(2 * Math.PI) / 2;
/** `B_2n / (2n (2n-1))` for n = 1, 2, ..., from the Bernoulli numbers. */
const stirling = [
  1 / 12,
  -1 / 360,
  1 / 1260,
  -1 / 1680,
  1 / 1188,
  -691 / 360_360,
  1 / 156,
] as const;

/**
 * The natural logarithm of the gamma function, `ln Γ(x)`, for x > 0; absolute error about 1e-15 for
 * x below ten. Moves x above 12 by `Γ(x+1) = x Γ(x)`, then takes Stirling's series.
 * Source: M. Abramowitz and I. Stegun, Handbook of Mathematical Functions, 6.1.15 and 6.1.41.
 */
export function logGamma(x: number): number {
  let product = 1;
  let z = x;
  for (; z < 12; z += 1) product *= z;
  let correction = 0;
  for (let n = stirling.length - 1; n >= 0; n -= 1) {
    correction = correction / (z * z) + (stirling[n] ?? 0);
  }
  return (z - 0.5) * Math.log(z) - z + HALF_LOG_TWO_PI + correction / z - Math.log(product);
}
