import { gammaFraction } from "./gamma-fraction.ts";
import { logGamma } from "./log-gamma.ts";

/** The lifetime law of a wearing part, by its mean and shape; time in the unit of the mean. */
export interface WeibullLife {
  readonly mean: number;
  readonly shape: number;
  /** `η = mean / Γ(1 + 1/β)`. */
  readonly scale: number;
  /** Chance of failing within `x` when new: `F(x) = 1 - exp(-(x/η)^β)`. */
  readonly fails: (x: number) => number;
  /** Chance that a piece of age `age` fails within `x`. */
  readonly failsFromAge: (age: number, x: number) => number;
  /** Chance that a piece of unknown age fails within `x`: `(1/mean) ∫_0^x (1-F) = P(1/β, (x/η)^β)`. */
  readonly failsFromUnknownAge: (x: number) => number;
  /** `∫_0^x F(s) ds`. */
  readonly integralOfFails: (x: number) => number;
  /** Failures per unit of time at an age, `(β/η)(age/η)^(β-1)`; infinite at 0 for β < 1. */
  readonly hazard: (age: number) => number;
}

/** The Weibull life of given mean (> 0) and shape β (> 0). Source: W. Weibull (1951). */
export function weibullLife(mean: number, shape: number): WeibullLife {
  const scale = mean / Math.exp(logGamma(1 + 1 / shape));
  const wear = (x: number) => (x / scale) ** shape;
  const fails = (x: number) => -Math.expm1(-wear(x));
  const failsFromUnknownAge = (x: number) => gammaFraction(1 / shape, wear(x));
  return {
    mean,
    shape,
    scale,
    fails,
    failsFromAge: (age, x) => -Math.expm1(wear(age) - wear(age + x)),
    failsFromUnknownAge,
    // Two equal forms; each cancels where the other does not.
    integralOfFails: (x) =>
      wear(x) < 1
        ? x * fails(x) - mean * gammaFraction(1 + 1 / shape, wear(x))
        : x - mean * failsFromUnknownAge(x),
    hazard: (age) => (shape / scale) * (age / scale) ** (shape - 1),
  };
}
