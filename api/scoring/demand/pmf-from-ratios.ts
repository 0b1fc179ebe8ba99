import { Problem } from "../../errors/problem.ts";
import { cutTail, type Pmf } from "./pmf.ts";

/** Beyond this many pieces a demand is a data error, not a spares question. */
const MOST_PIECES = 4_000_000;
/** Terms this far below the mode cannot be seen in a double, even summed. */
const NEGLIGIBLE = 1e-30;

/**
 * The unimodal distribution whose neighbouring terms stand in a known ratio.
 *
 *   p(k+1) = p(k) ratio(k),   Σ p = 1
 *
 * Starting from 1 at the mode and dividing by the sum needs no factorial or gamma function, so it
 * neither overflows nor cancels: relative error grows like one rounding per step from the mode
 * (about 1e-13 at a mean of 1e5, from the checks against tables and logarithms in the tests).
 *
 * @param mode where p is largest; a whole number ≥ 0.
 * @param ratio p(k+1)/p(k) for k ≥ 0; zero where the support ends.
 * Throws `rate-invalid` past four million pieces. O(length). Source: own derivation.
 */
export function pmfFromRatios(mode: number, ratio: (k: number) => number): Pmf {
  if (mode > MOST_PIECES) throw tooMany(mode);
  const upper: number[] = [1];
  let term = 1;
  let total = 1;
  for (let k = mode; term > NEGLIGIBLE; k += 1) {
    if (k > MOST_PIECES) throw tooMany(k);
    term *= ratio(k);
    upper.push(term);
    total += term;
  }
  const mass = new Float64Array(mode + upper.length);
  mass.set(upper, mode);
  term = 1;
  for (let k = mode - 1; k >= 0 && term > 0; k -= 1) {
    term /= ratio(k);
    mass[k] = term;
    total += term;
  }
  for (let k = 0; k < mass.length; k += 1) mass[k] = (mass[k] ?? 0) / total;
  return cutTail(mass, 0);
}

function tooMany(pieces: number): Problem {
  return new Problem(
    "rate-invalid",
    `A demand must stay under ${MOST_PIECES} pieces in a crossing; this one reaches ${pieces}. ` +
      "Check the unit of the rate and of the exposure.",
  );
}
