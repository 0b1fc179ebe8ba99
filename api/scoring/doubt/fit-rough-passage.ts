import { aboveZero, requireNumber } from "../demand/require-number.ts";

/**
 * Returns the shape of the gamma factor that makes counts of breakages as uneven as a survey saw them, or undefined
 * where they are no more uneven than pure chance (Poisson) would have them.
 *
 *   Pr(none) = (shape / (shape + mean))^shape, solved for shape by bisection on its logarithm
 *   mean        breakages per boat, > 0
 *   shareWithAny  share of boats with at least one, between 0 and 1 - e^-mean
 *
 * Errors: `rate-invalid` for a mean or share out of range.
 * Source: negative binomial as gamma-mixed Poisson (Greenwood & Yule 1920); METHODS, doubt.
 */
export function fitRoughPassage(mean: number, shareWithAny: number): number | undefined {
  requireNumber("The mean number of breakages", mean, aboveZero);
  requireNumber("The share of boats with a breakage", shareWithAny, aboveZero);
  if (shareWithAny >= 1 - Math.exp(-mean)) return undefined;
  const none = 1 - shareWithAny;
  let low = Math.log(1e-6);
  let high = Math.log(1e9);
  for (let step = 0; step < 200; step++) {
    const middle = (low + high) / 2;
    const shape = Math.exp(middle);
    if (shape * Math.log(shape / (shape + mean)) > Math.log(none)) low = middle;
    else high = middle;
  }
  return Math.exp((low + high) / 2);
}
