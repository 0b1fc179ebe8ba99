import { gammaFraction } from "../demand/gamma-fraction.ts";

/** Share of the belief left out at each end of a likely range. */
const leftOut = 0.1;

/**
 * Returns the factors on its mean between which an uncertain rate lies with chance .8 (from the 10 % to the 90 % point
 * of the gamma belief). [1, 1] where the rate is taken as known (shape NaN).
 *
 *   P(shape, shape x) = .1 and .9, P the regularised lower incomplete gamma function, solved by bisection
 */
export function likelyRange(gammaShape: number): readonly [number, number] {
  if (Number.isNaN(gammaShape)) return [1, 1];
  const at = (share: number): number => {
    let low = 0;
    let high = 1;
    while (gammaFraction(gammaShape, gammaShape * high) < share) high *= 2;
    for (let step = 0; step < 100; step++) {
      const middle = (low + high) / 2;
      if (gammaFraction(gammaShape, gammaShape * middle) < share) low = middle;
      else high = middle;
    }
    return (low + high) / 2;
  };
  return [at(leftOut), at(1 - leftOut)];
}
