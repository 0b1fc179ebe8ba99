import type { Adjacency } from "../../../scoring/snapshot/snapshot.ts";

/** Compressed adjacency, and for each of its lines the position of the pair it came from. */
interface Arranged {
  readonly adjacency: Adjacency;
  readonly order: Int32Array;
}

/**
 * Arranges pairs (row, target) by row, then target, by two counting sorts. Pairs with an end of -1 are left out.
 * Parameters: `rowCount` rows, `targetCount` targets; `row` and `target` of equal length. Cost O(pairs + rows + targets).
 */
export function arrange(
  row: Int32Array,
  target: Int32Array,
  rowCount: number,
  targetCount: number,
): Arranged {
  const kept = Int32Array.from(row.keys()).filter(
    (pair) => (row[pair] ?? -1) >= 0 && (target[pair] ?? -1) >= 0,
  );
  const byTarget = countingSort(kept, target, targetCount).order;
  const { order, start } = countingSort(byTarget, row, rowCount);
  return { adjacency: { start, target: order.map((pair) => target[pair] ?? -1) }, order };
}

/** A stable sort of `pairs` by their key, each key within 0 .. keyCount - 1. */
function countingSort(pairs: Int32Array, key: Int32Array, keyCount: number) {
  const start = new Int32Array(keyCount + 1);
  for (const pair of pairs) {
    const slot = (key[pair] ?? 0) + 1;
    start[slot] = (start[slot] ?? 0) + 1;
  }
  for (let k = 1; k <= keyCount; k++) start[k] = (start[k] ?? 0) + (start[k - 1] ?? 0);
  const next = start.slice();
  const order = new Int32Array(pairs.length);
  for (const pair of pairs) {
    const slot = key[pair] ?? 0;
    const place = next[slot] ?? 0;
    order[place] = pair;
    next[slot] = place + 1;
  }
  return { order, start };
}
