/** A running sum that carries its own rounding error. */
export interface CompensatedSum {
  readonly add: (value: number) => void;
  readonly value: () => number;
}

/**
 * Returns a running sum whose error is about one rounding of the result, whatever the count of terms.
 *
 * Infinite terms give an infinite sum (never NaN, provided they agree in sign).
 * Source: Neumaier, "Rundungsfehleranalyse einiger Verfahren zur Summation endlicher Summen", 1974.
 */
export function compensatedSum(): CompensatedSum {
  let sum = 0;
  let lost = 0;
  return {
    add(value) {
      const next = sum + value;
      if (Number.isFinite(next)) {
        lost += Math.abs(sum) >= Math.abs(value) ? sum - next + value : value - next + sum;
      }
      sum = next;
    },
    value: () => sum + lost,
  };
}
