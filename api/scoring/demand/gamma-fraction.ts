import { logGamma } from "./log-gamma.ts";

const STEPS = 500;
const EPSILON = 1e-17;
const TINY = 1e-300;

/**
 * The regularised lower incomplete gamma function, `P(a, z) = (1/Γ(a)) ∫_0^z t^(a-1) e^-t dt`,
 * for a > 0, z ≥ 0; in [0, 1], absolute error about 1e-15 for a below ten.
 * Source: M. Abramowitz and I. Stegun, Handbook of Mathematical Functions, 6.5.29 (series, used for
 * z < a + 1) and 6.5.31 (continued fraction, evaluated by Lentz's method, beyond).
 */
export function gammaFraction(a: number, z: number): number {
  if (z <= 0) return 0;
  const front = Math.exp(a * Math.log(z) - z - logGamma(a));
  if (z < a + 1) {
    let term = 1 / a;
    let sum = term;
    for (let n = 1; n < STEPS && term > sum * EPSILON; n += 1) {
      term *= z / (a + n);
      sum += term;
    }
    return Math.min(1, front * sum);
  }
  let b = z + 1 - a;
  let c = 1 / TINY;
  let d = 1 / b;
  let fraction = d;
  for (let n = 1; n < STEPS; n += 1) {
    const weight = -n * (n - a);
    b += 2;
    d = 1 / nonZero(weight * d + b);
    c = nonZero(b + weight / c);
    const change = d * c;
    fraction *= change;
    if (Math.abs(change - 1) < 1e-16) break;
  }
  return Math.max(0, 1 - front * fraction);
}

function nonZero(value: number): number {
  return Math.abs(value) < TINY ? TINY : value;
}
