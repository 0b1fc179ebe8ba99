/**
 * Returns the least slope s such that the steps of slope <= s together gain at least `need`.
 *
 * The steps of lesser slope are the greedy (marginal analysis) kit just before it reaches its target;
 * s is the multiplier of the best Lagrangian bound. If all steps together gain less (rounding), the
 * largest slope is returned. Any s gives a valid bound, so sums here need no care.
 * Cost O(number of steps) on average: quickselect with three-way partition, weights summed as it narrows.
 * Source: Pisinger, "A minimal algorithm for the multiple-choice knapsack problem", EJOR 83, 1995.
 */
export function breakSlope(slopes: Float64Array, gains: Float64Array, need: number): number {
  const slope = slopes.slice();
  const gain = gains.slice();
  const swap = (a: number, b: number): void => {
    const s = slope[a] ?? 0;
    const g = gain[a] ?? 0;
    slope[a] = slope[b] ?? 0;
    gain[a] = gain[b] ?? 0;
    slope[b] = s;
    gain[b] = g;
  };
  let low = 0;
  let high = slope.length;
  let before = 0;
  let answer = 0;
  while (low < high) {
    const pivot = median(slope[low] ?? 0, slope[(low + high) >> 1] ?? 0, slope[high - 1] ?? 0);
    let less = low;
    let at = low;
    let more = high;
    let gainLess = 0;
    let gainEqual = 0;
    while (at < more) {
      const here = slope[at] ?? 0;
      if (here < pivot) {
        gainLess += gain[at] ?? 0;
        swap(at++, less++);
      } else if (here > pivot) {
        swap(at, --more);
      } else {
        gainEqual += gain[at++] ?? 0;
      }
    }
    answer = pivot;
    if (before + gainLess >= need) {
      high = less;
    } else if (before + gainLess + gainEqual >= need) {
      return pivot;
    } else {
      before += gainLess + gainEqual;
      low = more;
    }
  }
  return answer;
}

function median(a: number, b: number, c: number): number {
  return Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
}
