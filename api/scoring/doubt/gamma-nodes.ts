import { aboveZero, requireNumber } from "../demand/require-number.ts";

/** Points and weights by which an expectation over a gamma variable is summed; weights sum to 1. */
export interface GammaNodes {
  readonly point: Float64Array;
  readonly weight: Float64Array;
}

/**
 * Returns points g_i and weights w_i with E[f(G)] = sum w_i f(g_i), G gamma of mean 1 and the given shape.
 *
 *   g_i = x_i / shape, x_i the eigenvalues of the Jacobi matrix of the generalised Laguerre polynomials with
 *   alpha = shape - 1 (diagonal 2 i + 1 + alpha, off-diagonal sqrt(i (i + alpha)));
 *   w_i = 1 / sum_k p_k(x_i)^2, p_k the orthonormal polynomials
 *
 * Exact for polynomials f of degree below 2 `count`; within 1e-6 for Poisson counts of mean up to 4 and shapes from .5. Eigenvalues are found by bisection on Sturm counts.
 *
 * @param shape > 0; the variance of G is 1 / shape
 * @param count points, default 48
 * Errors: `rate-invalid` for a shape of 0 or below. O(count^2 x 60).
 * Source: G. H. Golub and J. H. Welsch, "Calculation of Gauss quadrature rules", Mathematics of Computation 23 (1969).
 */
export function gammaNodes(shape: number, count = 48): GammaNodes {
  requireNumber("The shape of the rough-passage factor", shape, aboveZero);
  const alpha = shape - 1;
  const diagonal = (i: number): number => 2 * i + 1 + alpha;
  const offSquared = (i: number): number => i * (i + alpha);
  /** Eigenvalues below x: signs of the leading minors (Sturm). */
  const below = (x: number): number => {
    let found = 0;
    let pivot = 1;
    for (let i = 0; i < count; i++) {
      pivot = diagonal(i) - x - (i === 0 ? 0 : offSquared(i) / pivot);
      if (pivot === 0) pivot = 1e-300;
      if (pivot < 0) found += 1;
    }
    return found;
  };
  const most = 4 * count + 2 * Math.abs(alpha) + 4;
  const point = new Float64Array(count);
  const weight = new Float64Array(count);
  for (let at = 0; at < count; at++) {
    let low = 0;
    let high = most;
    for (let step = 0; step < 200 && high - low > 1e-15 * high; step++) {
      const middle = (low + high) / 2;
      if (middle === low || middle === high) break;
      if (below(middle) > at) high = middle;
      else low = middle;
    }
    const x = (low + high) / 2;
    point[at] = x / shape;
    weight[at] = 1 / squares(x);
  }
  const sum = weight.reduce((total, w) => total + w, 0);
  return { point, weight: weight.map((w) => w / sum) };

  /** Sum of the squared orthonormal polynomials at x. */
  function squares(x: number): number {
    let before = 0;
    let now = 1;
    let total = 1;
    for (let i = 0; i < count - 1; i++) {
      const next =
        ((x - diagonal(i)) * now - (i === 0 ? 0 : Math.sqrt(offSquared(i))) * before) /
        Math.sqrt(offSquared(i + 1));
      before = now;
      now = next;
      total += now * now;
    }
    return total;
  }
}
