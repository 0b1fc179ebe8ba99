import type { KitGroup, KitOffer } from "./sale-groups.ts";

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

/** Stands for "cannot be" where a difference must not become NaN. */
const HUGE = 1e15;

/**
 * Calls `found` with every way to buy a group's kits whose value is at most `ceiling()`, in depth.
 *
 * value(y) = sum_k cost_k y_k + sum_p table_p(held_p + sum_k contains(k, p) y_k).
 * A branch is cut where its bound exceeds the ceiling. With h_p the lower convex envelope of table_p (it falls and
 * flattens), kits to come save no more together than each by itself from where things stand, so
 * value >= cost so far + sum_p h_p(s_p) + sum over kits to come of min over c of
 *   [cost_k c - sum_p in k (h_p(s_p) - h_p(s_p + contains(k, p) c))],
 * what opening takes being left out of the saving (it can only cost). Complete as long as the budget lasts.
 *
 * @param first counts offered to `found` before the search, so that a falling ceiling starts low
 */
export function eachKitChoice(
  group: KitGroup,
  held: Int32Array,
  last: Int32Array,
  table: PartTable,
  ceiling: () => number,
  found: (choice: KitChoice) => void,
  budget: Budget,
  first?: Int32Array,
): void {
  const { kits, parts } = group;
  const place = new Map(parts.map((part, at) => [part, at]));
  const tables = parts.map(table);
  const hulls = tables.map(lowerHull);
  const pieces = Int32Array.from(parts, (part) => held[part] ?? 0);
  const ends = Int32Array.from(parts, (part) => last[part] ?? 0);
  const inside = kits.map((kit) =>
    kit.contents.map((content) => ({
      at: place.get(content.part) ?? 0,
      pieces: content.pieces,
    })),
  );
  const units = new Int32Array(kits.length);
  const hull = (at: number, count: number): number =>
    hulls[at]?.[Math.max(0, Math.min(count, ends[at] ?? 0))] ?? HUGE;
  /** What so many of a kit add to the bound from where things stand: convex in the count. */
  const net = (k: number, kit: KitOffer, count: number): number => {
    let sum = kit.cost * count;
    for (const content of inside[k] ?? []) {
      if (content.pieces < 0) continue;
      const now = pieces[content.at] ?? 0;
      sum -= hull(content.at, now) - hull(content.at, now + content.pieces * count);
    }
    return sum;
  };
  const mostSaved = (k: number, kit: KitOffer): number => {
    let least = 0;
    for (let count = kit.least; count <= kit.most; count++) {
      const here = net(k, kit, count);
      if (here < least) least = here;
      else if (count > kit.least) break;
    }
    return least;
  };
  const bound = (k: number): number => {
    let sum = 0;
    for (let at = 0; at < parts.length; at++) sum += hull(at, pieces[at] ?? 0);
    for (let later = k; later < kits.length; later++) {
      const kit = kits[later];
      if (kit !== undefined) sum += mostSaved(later, kit);
    }
    return sum;
  };
  const exact = (): number => {
    let sum = 0;
    for (let at = 0; at < parts.length; at++) {
      const now = pieces[at] ?? 0;
      sum += now < 0 ? Infinity : (tables[at]?.[Math.min(ends[at] ?? 0, now)] ?? Infinity);
    }
    return sum;
  };
  const visit = (k: number, cost: number): void => {
    if (budget.left <= 0) return;
    budget.left--;
    const kit = kits[k];
    if (kit === undefined) {
      const value = cost + exact();
      if (value <= ceiling()) found({ units: units.slice(), value });
      return;
    }
    const add = (count: number): void => {
      for (const content of inside[k] ?? [])
        pieces[content.at] = (pieces[content.at] ?? 0) + content.pieces * count;
    };
    const rest = cost + bound(k + 1);
    let before = Infinity;
    for (let count = 0; count <= kit.most; count = Math.max(count + 1, kit.least)) {
      const own = net(k, kit, count);
      if (rest + own > ceiling()) {
        // Convex: once it rises it keeps rising.
        if (own >= before) break;
      } else {
        add(count);
        units[k] = count;
        const spent = cost + kit.cost * count;
        if (count === 0 || spent + bound(k + 1) <= ceiling()) visit(k + 1, spent);
        add(-count);
        units[k] = 0;
      }
      before = own;
    }
  };
  if (first !== undefined) {
    let cost = 0;
    const start = pieces.slice();
    kits.forEach((kit, k) => {
      const count = first[k] ?? 0;
      cost += kit.cost * count;
      for (const content of inside[k] ?? [])
        pieces[content.at] = (pieces[content.at] ?? 0) + content.pieces * count;
    });
    found({ units: first, value: cost + exact() });
    pieces.set(start);
  }
  visit(0, 0);
}

/** The lower convex envelope of a table, at its own places. */
function lowerHull(table: Float64Array): Float64Array {
  const at: number[] = [];
  const value = (s: number): number => Math.min(HUGE, table[s] ?? HUGE);
  for (let s = 0; s < table.length; s++) {
    while (at.length > 1) {
      const b = at[at.length - 1] ?? 0;
      const a = at[at.length - 2] ?? 0;
      if ((value(b) - value(a)) * (s - a) < (value(s) - value(a)) * (b - a)) break;
      at.pop();
    }
    at.push(s);
  }
  const hull = new Float64Array(table.length);
  for (let k = 0; k < at.length; k++) {
    const a = at[k] ?? 0;
    const b = at[k + 1] ?? a;
    for (let s = a; s <= b; s++) {
      hull[s] =
        s === a || b === a ? value(a) : value(a) + ((value(b) - value(a)) * (s - a)) / (b - a);
    }
  }
  return hull;
}
