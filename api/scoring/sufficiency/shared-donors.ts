import { requireNumber, wholeCount } from "../demand/require-number.ts";
import type { UnmetAtMost } from "./unmet-demand.ts";

/** A part whose failure stops items of a function. */
export interface LentPart {
  /** How many demands on it find no spare. */
  readonly unmet: UnmetAtMost;
  /** Good pieces one stopped item of each make gives, aligned with the makes; 0 where it gives none. */
  readonly piecesPerItem: readonly number[];
  /** Never robbed: each unmet demand stops an item. */
  readonly isNeverLent: boolean;
}

/** Boxes looked at before a union of them is given up. */
const mostBoxes = 200_000;

/**
 * The chance that at most `slack` items must be given up to make good every unmet demand, chosen with foresight.
 *
 *   Pr(there is d with 0 ≤ d_A ≤ n_A, Σ_A d_A ≤ m, X_p ≤ Σ_A d_A q_pA for every part p)
 *
 * X_p unmet demand on part p (independent), q_pA pieces of p in one item of make A, n_A items of A, m items that can be
 * spared. A part of one make asks for least donors e_A of that make, Pr(e_A ≤ d) = Π_p Pr(X_p ≤ d q_pA); parts
 * of several makes are conditioned on: for each e the donors d ≥ e cover a union of boxes of (X_p), whose chance is
 * summed cell by cell. So nothing is assumed of parts that makes share but that demands are independent. One make,
 * or makes sharing nothing: the same as robbing credit and the convolution of whole items, and then no foresight is
 * needed. Once all items that take a part are given up its demand is moot. Where makes share parts it is a ceiling: which make gives its piece must be chosen before it is known what fails next.
 *
 * Parts never lent count here as if they were: a ceiling too.
 * @returns undefined where more than 200 000 boxes would have to be looked at
 * Source: own derivation; oracle: enumeration of demands and donors, tests/properties.
 */
export function survivalWithForesight(
  fitted: readonly number[],
  parts: readonly LentPart[],
  slack: number,
): number | undefined {
  for (const count of fitted) requireNumber("The number fitted", count, wholeCount);
  requireNumber("The items that can be spared", slack, wholeCount);
  const users = (part: LentPart): number[] =>
    part.piecesPerItem.flatMap((pieces, make) => (pieces > 0 ? [make] : []));
  const fixed = parts.filter((part) => users(part).length === 0);
  const always = fixed.reduce((chance, part) => chance * part.unmet(0), 1);
  const least = fitted.map((count, make) => {
    const own = parts.filter((part) => users(part).length === 1 && users(part)[0] === make);
    const atMost = Array.from({ length: Math.min(count, slack) + 1 }, (_, d) =>
      d === count
        ? 1
        : own.reduce((chance, part) => chance * part.unmet(d * (part.piecesPerItem[make] ?? 0)), 1),
    );
    return atMost.map((chance, d) => Math.max(0, chance - (d === 0 ? 0 : (atMost[d - 1] ?? 0))));
  });
  const shared = mergeAlike(parts.filter((part) => users(part).length > 1));
  const donors = everyDonorSet(fitted, slack);
  let boxes = 0;
  const inUnion = (corners: readonly (readonly number[])[], at: number): number => {
    const part = shared[at];
    if (part === undefined) return corners.length > 0 ? 1 : 0;
    const values = [...new Set(corners.map((corner) => corner[at] ?? 0))].sort((a, b) => a - b);
    let chance = 0;
    let below = 0;
    for (const value of values) {
      if (++boxes > mostBoxes) return Number.NaN;
      const upTo = value === Number.POSITIVE_INFINITY ? 1 : part.unmet(value);
      if (upTo > below) {
        const rest = corners.filter((corner) => (corner[at] ?? 0) >= value);
        chance += (upTo - below) * inUnion(rest, at + 1);
      }
      below = upTo;
    }
    return chance;
  };
  let chance = 0;
  for (const asked of everyVector(least.map((masses) => masses.length - 1))) {
    const weight = asked.reduce((p, e, make) => p * (least[make]?.[e] ?? 0), 1);
    if (weight === 0) continue;
    const corners = donors
      .filter((d) => d.every((count, make) => count >= (asked[make] ?? 0)))
      .map((d) =>
        shared.map(({ piecesPerItem }) =>
          piecesPerItem.every((pieces, make) => pieces === 0 || d[make] === fitted[make])
            ? Number.POSITIVE_INFINITY
            : piecesPerItem.reduce((sum, pieces, make) => sum + pieces * (d[make] ?? 0), 0),
        ),
      );
    if (corners.length > 0) chance += weight * inUnion(corners, 0);
  }
  return Number.isNaN(chance) ? undefined : Math.min(1, always * chance);
}

/**
 * The least that the same chance can be, however the crew choose: a floor.
 *
 *   Pr(Σ_A min(n_A, e_A + Σ_(p never lent, of A alone) X_p) + Σ_(p shared) min(X_p, items that take p) ≤ m)
 *
 * A shortage of a part of one make stops another item of A only while fewer than e_A of A are stopped; a shortage of a
 * shared or never-lent part stops at most one item each, and no more than take it. Exact where every part belongs to one
 * make and either all are lent or none is. O(parts × m²). Source and oracle: as above.
 */
export function survivalWithoutForesight(
  fitted: readonly number[],
  parts: readonly LentPart[],
  slack: number,
): number {
  let stopped: Float64Array = certainlyNone(slack + 1);
  fitted.forEach((count, make) => {
    const own = parts.filter((part) => soleMake(part) === make);
    if (own.length === 0) return;
    const lent = own.filter((part) => !part.isNeverLent);
    const donors: UnmetAtMost = (d) =>
      lent.reduce((p, part) => p * part.unmet(d * (part.piecesPerItem[make] ?? 0)), 1);
    let down = add(certainlyNone(count + 1), donors, count, true);
    for (const part of own) if (part.isNeverLent) down = add(down, part.unmet, count, true);
    let below = 0;
    const atMost = down.map((mass) => {
      below += mass;
      return below;
    });
    stopped = add(stopped, (v) => atMost[v] ?? 1, count, false);
  });
  for (const part of parts) {
    if (soleMake(part) < 0) stopped = add(stopped, part.unmet, itemsThatTake(fitted, part), false);
  }
  return Math.min(
    1,
    stopped.reduce((sum, p) => sum + p, 0),
  );
}

/**
 * The most that the chance can be where nothing may be taken from a stopped item.
 *
 *   Pr(Σ_A min(n_A, Σ_(p of A alone) X_p) ≤ m) Π_(p shared) Pr(min(X_p, items that take p) ≤ m)
 *
 * Exact where no part is shared; else each factor is needed, though not enough. Source: own derivation.
 */
export function survivalUnrobbedAtMost(
  fitted: readonly number[],
  parts: readonly LentPart[],
  slack: number,
): number {
  const own = parts.filter((part) => soleMake(part) >= 0);
  return parts.reduce(
    (chance, part) =>
      soleMake(part) >= 0 || itemsThatTake(fitted, part) <= slack
        ? chance
        : chance * part.unmet(slack),
    survivalWithoutForesight(fitted, own, slack),
  );
}

/** The one make that takes a part; -1 where several do, or none. */
function soleMake({ piecesPerItem }: LentPart): number {
  const users = piecesPerItem.flatMap((pieces, make) => (pieces > 0 ? [make] : []));
  return users.length === 1 ? (users[0] ?? -1) : -1;
}

const itemsThatTake = (fitted: readonly number[], { piecesPerItem }: LentPart): number =>
  fitted.reduce((sum, count, make) => sum + ((piecesPerItem[make] ?? 0) > 0 ? count : 0), 0);

function certainlyNone(length: number): Float64Array {
  const masses = new Float64Array(length);
  masses[0] = 1;
  return masses;
}

/**
 * Adds min(X, most) to a number of stopped items. What goes beyond the array is gathered in its last place where
 * `isCapped` (no more items can stop), else dropped (too many have).
 */
function add(
  masses: Float64Array,
  atMost: UnmetAtMost,
  most: number,
  isCapped: boolean,
): Float64Array {
  const next = new Float64Array(masses.length);
  const last = next.length - 1;
  for (let more = 0; more <= most; more++) {
    const mass = (more === most ? 1 : atMost(more)) - (more === 0 ? 0 : atMost(more - 1));
    masses.forEach((p, before) => {
      const at = Math.min(before + more, isCapped ? last : before + more);
      if (at <= last) next[at] = (next[at] ?? 0) + mass * p;
    });
  }
  return next;
}

/** Shared parts that every donor covers alike are one: all of them must hold at the same number of pieces. */
function mergeAlike(parts: readonly LentPart[]): readonly LentPart[] {
  const alike = new Map<string, LentPart[]>();
  for (const part of parts) {
    const key = part.piecesPerItem.join();
    alike.set(key, [...(alike.get(key) ?? []), part]);
  }
  return [...alike.values()].map((own) => ({
    unmet: (v: number) => own.reduce((p, part) => p * part.unmet(v), 1),
    piecesPerItem: own[0]?.piecesPerItem ?? [],
    isNeverLent: false,
  }));
}

/** Vectors of whole numbers from 0 to each of `most`. */
function everyVector(most: readonly number[]): number[][] {
  return most.reduce<number[][]>(
    (list, top) => list.flatMap((head) => Array.from({ length: top + 1 }, (_, x) => [...head, x])),
    [[]],
  );
}

/** The largest sets of donors: as many items of each make as there are, all the slack used where it can be. */
function everyDonorSet(fitted: readonly number[], slack: number): number[][] {
  const total = Math.min(
    slack,
    fitted.reduce((sum, count) => sum + count, 0),
  );
  return everyVector(fitted.map((count) => Math.min(count, slack))).filter(
    (d) => d.reduce((sum, count) => sum + count, 0) === total,
  );
}
