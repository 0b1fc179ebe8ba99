import { checkParts } from "./check-parts.ts";
import { compensatedSum } from "./compensated-sum.ts";
import type { KitPart } from "./kit-problem.ts";
import { StateHistory } from "./state-history.ts";
import { type Levels, undominatedLevels } from "./undominated-levels.ts";

export interface UndominatedKits {
  /** Cost of each kit, rising strictly. */
  readonly cost: Float64Array;
  /** ln sufficiency of each kit, rising strictly. */
  readonly logSufficiency: Float64Array;
  readonly sufficiency: Float64Array;
  /** True if dearer undominated kits exist that the limits left out. */
  readonly truncated: boolean;
  /** The list holds every undominated kit that costs at most this (Infinity when nothing was left out). */
  readonly completeToCost: number;
  /** Pieces to buy of each part in kit k. */
  readonly buysAt: (k: number) => Int32Array;
}

export interface UndominatedLimits {
  /** Longest list kept at any time; default 100 000. */
  readonly maxKits?: number;
  /** Dearest kit wanted, in cost units; default none. */
  readonly maxCost?: number;
}

/** Losses closer than this ratio differ by rounding only: the cheaper of two such kits stands for both. */
const TOLD_APART = 1 - 2 ** -48;

interface List {
  cost: Float64Array;
  loss: Float64Array;
  node: Int32Array;
  count: number;
}

/**
 * Returns every kit that no other kit matches in sufficiency without costing more, cheapest first.
 *
 * Parts join one at a time; after each, a partial kit survives only if no partial kit costs no more
 * and protects no less (the rest of the kit would suit both alike). No concavity is needed. Where the
 * list outgrows `maxKits` its dear end is cut and the cut remembered: costs only grow, so below the
 * cut the list stays complete, and `completeToCost` says how far. Of kits equal in cost and sufficiency one is kept.
 * Sufficiencies are summed afresh with compensation for the kits returned.
 *
 * @throws Problem `input-invalid`
 * Cost O(total levels x maxKits). Empty if some part has probability 0 at every level.
 * Source: Kettelle, "Least-Cost Allocations of Reliability Investment", Operations Research 10, 1962;
 * Barlow & Proschan, Statistical Theory of Reliability and Life Testing, ch. 7.
 */
export function undominatedKits(
  parts: readonly KitPart[],
  limits: UndominatedLimits = {},
): UndominatedKits {
  checkParts(parts);
  const most = Math.max(1, limits.maxKits ?? 100_000);
  const levels = undominatedLevels(
    parts,
    parts.map((_, p) => p),
  );
  const history = new StateHistory();
  let ceiling = limits.maxCost ?? Infinity;
  let truncated = false;
  let list: List = roomFor(1);
  list.node[0] = -1;
  list.count = 1;
  for (let k = 0; k < parts.length; k++) {
    let next = roomFor(0);
    for (let j = levels.first[k] ?? 0; j < (levels.first[k + 1] ?? 0); j++) {
      const merged = mergeShifted(next, list, levels, j, ceiling, history);
      truncated ||= merged.isCut;
      next = merged.list;
      if (next.count > most) {
        ceiling = cutBelow(next, most);
        truncated = true;
      }
    }
    list = next;
    // Cutting while levels join lowers the ceiling after dearer states were admitted: drop those now.
    while (list.count > 0 && (list.cost[list.count - 1] ?? 0) > ceiling) list.count--;
    history.tidy(list.node, list.count);
  }
  const kits = Array.from({ length: list.count }, (_, s) => history.choices(list.node[s] ?? -1));
  const log = Float64Array.from(kits, (choices) => {
    const sum = compensatedSum();
    for (const j of choices.toReversed()) sum.add(-(levels.loss[j] ?? 0));
    return sum.value();
  });
  return {
    cost: list.cost.slice(0, list.count),
    logSufficiency: log,
    sufficiency: log.map(Math.exp),
    truncated,
    completeToCost: truncated ? ceiling : Infinity,
    buysAt: (at) => buysOf(levels, kits[at] ?? []),
  };
}

function mergeShifted(
  kept: List,
  base: List,
  levels: Levels,
  j: number,
  ceiling: number,
  history: StateHistory,
): { list: List; isCut: boolean } {
  const addCost = levels.cost[j] ?? 0;
  const addLoss = levels.loss[j] ?? 0;
  const out = roomFor(kept.count + base.count);
  let a = 0;
  let b = 0;
  let end = 0;
  let least = Infinity;
  let isCut = false;
  while (a < kept.count || b < base.count) {
    const costA = a < kept.count ? (kept.cost[a] ?? 0) : Infinity;
    const costB = b < base.count ? (base.cost[b] ?? 0) + addCost : Infinity;
    const lossA = a < kept.count ? (kept.loss[a] ?? 0) : Infinity;
    const lossB = b < base.count ? (base.loss[b] ?? 0) + addLoss : Infinity;
    const isOld = costA < costB || (costA === costB && lossA <= lossB);
    const cost = isOld ? costA : costB;
    const loss = isOld ? lossA : lossB;
    const from = isOld ? (kept.node[a++] ?? -1) : (base.node[b++] ?? -1);
    if (loss >= least * TOLD_APART) continue;
    if (cost > ceiling) {
      isCut = true;
      break;
    }
    least = loss;
    out.cost[end] = cost;
    out.loss[end] = loss;
    out.node[end++] = isOld ? from : history.add(from, j);
  }
  out.count = end;
  return { list: out, isCut };
}

/** Shortens the list to `most` and returns the cost up to which it is complete: just below the first kit dropped. */
function cutBelow(list: List, most: number): number {
  const dropped = list.cost[most] ?? Infinity;
  list.count = most;
  return dropped - 1;
}

function buysOf(levels: Levels, choices: readonly number[]): Int32Array {
  const buys = new Int32Array(levels.part.length);
  for (const j of choices) buys[ownerOf(levels, j)] = levels.pieces[j] ?? 0;
  return buys;
}

function ownerOf(levels: Levels, level: number): number {
  let low = 0;
  let high = levels.part.length;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if ((levels.first[middle] ?? 0) <= level) low = middle;
    else high = middle;
  }
  return low;
}

function roomFor(size: number): List {
  return {
    cost: new Float64Array(size),
    loss: new Float64Array(size),
    node: new Int32Array(size),
    count: 0,
  };
}
