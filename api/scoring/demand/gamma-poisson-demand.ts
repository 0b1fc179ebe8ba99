import { type Pmf, pointMass } from "./pmf.ts";
import { pmfFromRatios } from "./pmf-from-ratios.ts";
import { aboveZero, atLeastZero, requireNumber, wholeCount } from "./require-number.ts";

/** A constant but unknown rate: what was believed of it, what was seen, and what lies ahead. */
export interface UncertainRate {
  /** Prior shape `a` (no unit, > 0). */
  readonly shape: number;
  /** Prior rate `b`, in the unit of exposure (piece-years, say, > 0); prior mean rate `a / b`. */
  readonly rate: number;
  /** Pieces used so far, `k` (default 0). */
  readonly used?: number;
  /** Exposure in which they were used, `τ` (default 0). */
  readonly usedOver?: number;
  /** Exposure ahead, summed over every fitted item that shares the rate. */
  readonly exposure: number;
}

/**
 * The demand of a part whose rate is known only from its own history and a prior: the predictive
 * negative binomial.
 *
 *   Pr(D = j) = Γ(j+r)/(Γ(r) j!) p^r (1-p)^j,   r = a + k,   p = (b+τ)/(b+τ+exposure)
 *
 * All fitted items of a model share one unknown rate, so add their exposures first and call this
 * once; mixing each item alone would narrow the spread and flatter the kit.
 * Throws `rate-invalid` or `input-invalid` outside the ranges above.
 * Source: A. Gelman et al., Bayesian Data Analysis, the Poisson model with a gamma prior.
 */
export function gammaPoissonDemand(belief: UncertainRate): Pmf {
  const { exposure, used = 0, usedOver = 0 } = belief;
  requireNumber("The prior shape", belief.shape, aboveZero);
  requireNumber("The prior rate", belief.rate, aboveZero);
  requireNumber("The count used so far", used, wholeCount);
  requireNumber("The exposure of the history", usedOver, atLeastZero);
  requireNumber("The exposure ahead", exposure, atLeastZero);
  if (exposure === 0) return pointMass(0);
  const shape = belief.shape + used;
  const known = belief.rate + usedOver;
  const odds = exposure / known;
  const step = exposure / (known + exposure);
  const mode = shape > 1 ? Math.max(0, Math.floor((shape - 1) * odds)) : 0;
  return pmfFromRatios(mode, (k) => ((k + shape) / (k + 1)) * step);
}
