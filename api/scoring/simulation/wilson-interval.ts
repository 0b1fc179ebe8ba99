/** A share estimated from counts, with the interval that holds the true one 95 times in a hundred. */
export interface Estimate {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

const z95 = 1.959963984540054;

/**
 * The score interval of `hits` in `trials` (> 0) at `z` standard deviations (95 % when left out):
 *
 *   (p + z²/2n ± z √(p(1-p)/n + z²/4n²)) / (1 + z²/n),   p = hits / n
 *
 * Source: E. B. Wilson, Probable inference, the law of succession, and statistical inference, J. Am. Stat. Assoc. 22
 * (1927) 209. Never empty nor outside [0, 1], even where nothing or everything was hit.
 */
export function wilsonInterval(hits: number, trials: number, z = z95): Estimate {
  const value = hits / trials;
  const stretch = 1 + (z * z) / trials;
  const centre = value + (z * z) / (2 * trials);
  const spread = z * Math.sqrt((value * (1 - value)) / trials + (z / (2 * trials)) ** 2);
  return {
    value,
    low: hits === 0 ? 0 : Math.max(0, (centre - spread) / stretch),
    high: hits === trials ? 1 : Math.min(1, (centre + spread) / stretch),
  };
}
