/** Choices of a core still to come, ready to be asked for the cheapest that suits an excess. */
export interface SingleCompletions {
  /** Changes in loss, rising. */
  readonly loss: Float64Array;
  /** Per position: the cheapest choice at or before it, and its change in cost. */
  readonly cheapest: Int32Array;
  readonly cost: Float64Array;
}

/**
 * Returns, for the choices from `from` on, which is cheapest among those that change the loss by at most a given amount.
 *
 * To complete a state of excess e by one choice, take the last position whose loss is <= -e: the
 * cheapest choice there turns the state into a kit. O(n log n) in the choices.
 */
export function singleCompletions(
  costs: Float64Array,
  losses: Float64Array,
  from: number,
): SingleCompletions {
  const order = Int32Array.from({ length: costs.length - from }, (_, at) => from + at).sort(
    (a, b) => (losses[a] ?? 0) - (losses[b] ?? 0) || a - b,
  );
  const cheapest = new Int32Array(order.length);
  const cost = new Float64Array(order.length);
  let least = Infinity;
  let best = 0;
  order.forEach((j, at) => {
    if ((costs[j] ?? 0) < least) {
      least = costs[j] ?? 0;
      best = j;
    }
    cheapest[at] = best;
    cost[at] = least;
  });
  return { loss: Float64Array.from(order, (j) => losses[j] ?? 0), cheapest, cost };
}
