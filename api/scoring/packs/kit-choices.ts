import type { KitGroup } from "./sale-groups.ts";

/** One way to buy a group's service kits, and what it costs with its parts at their cheapest under the multipliers. */
export interface KitChoice {
  readonly units: Int32Array;
  readonly value: number;
}

/** Least cost + multiplier × loss of a part from each count of pieces it already has; never rises. */
export type PartTable = (part: number) => Float64Array;

/** A count of steps shared by all searches of one solve: beyond it the caller turns to another method. */
export interface Budget {
  left: number;
}

/**
 * Calls `found` with every way to buy a group's kits whose value is at most `ceiling()`, in depth.
 *
 * value(y) = sum_k cost_k y_k + sum_p table_p(held_p + sum_k contains(k, p) y_k).
 * A branch is cut where its cost so far, with every part that later kits can still give at its table's end and the
 * others as they stand, already exceeds the ceiling. Complete as long as the budget lasts.
 */
export function eachKitChoice(
  group: KitGroup,
  held: Int32Array,
  last: Int32Array,
  table: PartTable,
  ceiling: () => number,
  found: (choice: KitChoice) => void,
  budget: Budget,
): void {
  const { kits, parts } = group;
  const place = new Map(parts.map((part, at) => [part, at]));
  const tables = parts.map(table);
  const pieces = Int32Array.from(parts, (part) => held[part] ?? 0);
  const ends = Int32Array.from(parts, (part) => last[part] ?? 0);
  // The last kit in order that can still give a part.
  const until = new Int32Array(parts.length).fill(-1);
  kits.forEach((kit, k) => {
    for (const content of kit.contents) {
      if (content.pieces > 0) until[place.get(content.part) ?? 0] = k;
    }
  });
  const units = new Int32Array(kits.length);
  const bound = (k: number): number => {
    let sum = 0;
    for (let at = 0; at < parts.length; at++) {
      const end = ends[at] ?? 0;
      const now = (until[at] ?? -1) >= k ? end : Math.min(end, pieces[at] ?? 0);
      sum += now < 0 ? Infinity : (tables[at]?.[now] ?? Infinity);
    }
    return sum;
  };
  const visit = (k: number, cost: number): void => {
    if (budget.left <= 0) return;
    budget.left--;
    const kit = kits[k];
    if (kit === undefined) {
      const value = cost + bound(k);
      if (value <= ceiling()) found({ units: units.slice(), value });
      return;
    }
    const add = (count: number): void => {
      for (const content of kit.contents) {
        const at = place.get(content.part) ?? 0;
        pieces[at] = (pieces[at] ?? 0) + content.pieces * count;
      }
    };
    for (let count = 0; count <= kit.most; count = Math.max(count + 1, kit.least)) {
      add(count);
      units[k] = count;
      const spent = cost + kit.cost * count;
      // The parts later kits can fill stand at their ends here, so this bound only grows with the count.
      const isHopeless = spent + bound(k + 1) > ceiling();
      if (!isHopeless) visit(k + 1, spent);
      add(-count);
      units[k] = 0;
      if (isHopeless && spent + bound(k) > ceiling()) break;
    }
  };
  visit(0, 0);
}
