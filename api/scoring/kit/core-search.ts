import { singleCompletions } from "./single-completions.ts";
import { StateHistory } from "./state-history.ts";

/**
 * The kit problem as changes from a base kit, the one of least cost + slope x loss.
 *
 * A choice replaces the base level of its group (a part) by another; groups own choices
 * first[g] .. first[g + 1] - 1 and are sorted by `penalty`.
 */
export interface Core {
  readonly first: Int32Array;
  /** Change in cost (an integer), per choice. */
  readonly cost: Float64Array;
  /** Change in loss (-ln F), per choice. */
  readonly loss: Float64Array;
  /** cost + slope x loss of a choice: >= 0 but for rounding. The least of a group orders the groups. */
  readonly penalty: Float64Array;
  /** Loss of the base kit in excess of what the target allows. */
  readonly excess: number;
  /** Multiplier of the Lagrangian bound: cost units per unit of ln F. */
  readonly slope: number;
  /** Costs are multiples of this integer >= 1. */
  readonly unit: number;
  /** Change in cost of the best kit known beforehand. */
  readonly best: number;
  /** Losses this close to what is allowed are not judged by running sums but by `accept`. */
  readonly band: number;
}

export interface CoreAnswer {
  /** Change in cost of the best kit; the one known beforehand if no better was accepted. */
  readonly best: number;
  /** No kit changes the cost by less. Equal to `best` when `complete`. */
  readonly bound: number;
  readonly complete: boolean;
}

interface States {
  cost: Float64Array;
  excess: Float64Array;
  node: Int32Array;
  count: number;
}

const MOST_STATES = 2 ** 22;
const STOP_EVERY = 2 ** 16;

/**
 * Returns the least change in cost that brings the excess loss to 0 or less, with its bound.
 *
 * Dynamic programming over an expanding core: groups enter in order of least penalty; a state is a
 * pair (cost, excess), kept only if no other state costs no more with no more excess, and only if
 * the bound of its best completion beats the best kit by one unit. With slopes U = least of the
 * groups to come for lowering loss and W = greatest for giving loss back (W <= slope <= U), a
 * completion costs at least cost + U excess (excess > 0), cost + W excess (excess <= 0), and, as any
 * change carries a penalty, cost + slope excess + least penalty to come. Once that last bound fails
 * for penalty 0 all further groups stay at base: the proof is complete. No concavity is used: choices
 * are arbitrary levels. After 1, 2, 4, 8 ... groups every state is also completed by the one best
 * choice to come, which finds good kits early.
 *
 * Rounding: costs are exact integers. Excess is a running double; states within `band` of 0 may be
 * kits, so they are offered to `accept` (which sums afresh, compensated) and also kept for
 * completion; bounds are slackened by the same band. Two states whose excess differs by less than
 * `band` may be taken for one another; such kits are equal as far as doubles can tell.
 *
 * @param accept called with the choices of a kit cheaper than the best so far; says whether it truly
 *   reaches the target.
 * Source: Pisinger, EJOR 83, 1995 (expanding core, multiple choice); Kettelle, Operations Research 10, 1962 (dominance).
 */
export function searchCore(
  core: Core,
  accept: (choices: readonly number[]) => boolean,
  shouldStop: () => boolean,
): CoreAnswer {
  const groups = core.first.length - 1;
  const { up, down } = slopesToCome(core);
  const leastPenalty = (g: number): number => {
    let least = Infinity;
    for (let j = core.first[g] ?? 0; j < (core.first[g + 1] ?? 0); j++) {
      least = Math.min(least, core.penalty[j] ?? Infinity);
    }
    return least;
  };
  const history = new StateHistory();
  let best = core.best;
  const slack = core.slope * core.band * 4 + Math.abs(core.best) * 2 ** -46;
  let limit = best - core.unit + slack;
  let live: States = room(1);
  live.excess[0] = core.excess;
  live.node[0] = -1;
  live.count = 1;
  let spare = room(1024);
  let spareToo = room(1024);

  const bound = (cost: number, excess: number, steep: number, flat: number, next: number) => {
    let least = cost;
    if (excess > core.band) least += steep * (excess - core.band);
    else if (excess < 0) least += flat * excess;
    return Math.max(least, cost + core.slope * excess + next);
  };
  const boundOf = (states: States, g: number): number => {
    const next = g < groups ? leastPenalty(g) : Infinity;
    let least = best;
    for (let s = 0; s < states.count; s++) {
      const cost = states.cost[s] ?? 0;
      const lower = bound(cost, states.excess[s] ?? 0, up[g] ?? Infinity, down[g] ?? 0, next);
      if (lower < least) least = lower;
    }
    return least;
  };

  /** Offers the best kit one choice among those to come makes of each state: good kits early keep the proof short. */
  const tryCompletions = (states: States, from: number): void => {
    const { loss, cheapest, cost } = singleCompletions(core.cost, core.loss, from);
    let at = -1;
    for (let s = 0; s < states.count; s++) {
      const need = core.band - (states.excess[s] ?? 0);
      while (at + 1 < loss.length && (loss[at + 1] ?? 0) <= need) at++;
      if (at < 0) continue;
      const total = (states.cost[s] ?? 0) + (cost[at] ?? 0);
      if (total < best && accept([...history.choices(states.node[s] ?? -1), cheapest[at] ?? 0])) {
        best = total;
        limit = best - core.unit + slack;
      }
    }
  };

  const root = core.slope * core.excess;
  for (let g = 0; g < groups && live.count > 0; g++) {
    const penalty = leastPenalty(g);
    if (root + penalty > limit) break;
    if (shouldStop() || live.count > MOST_STATES) {
      return { best, bound: boundOf(live, g), complete: false };
    }
    const steep = up[g + 1] ?? Infinity;
    const flat = down[g + 1] ?? 0;
    const next = g + 1 < groups ? leastPenalty(g + 1) : Infinity;
    let current = live;
    let untilStop = STOP_EVERY;
    for (let j = core.first[g] ?? 0; j < (core.first[g + 1] ?? 0); j++) {
      if (root + (core.penalty[j] ?? 0) > limit) continue;
      const addCost = core.cost[j] ?? 0;
      const addLoss = core.loss[j] ?? 0;
      const out = current === spare ? spareToo : spare;
      reserve(out, current.count + live.count);
      let a = 0;
      let b = 0;
      let end = 0;
      let least = Infinity;
      while (a < current.count || b < live.count) {
        const costA = a < current.count ? (current.cost[a] ?? 0) : Infinity;
        const costB = b < live.count ? (live.cost[b] ?? 0) + addCost : Infinity;
        const excessA = a < current.count ? (current.excess[a] ?? 0) : Infinity;
        const excessB = b < live.count ? (live.excess[b] ?? 0) + addLoss : Infinity;
        const isOld = costA < costB || (costA === costB && excessA <= excessB);
        const cost = isOld ? costA : costB;
        const excess = isOld ? excessA : excessB;
        const from = isOld ? (current.node[a++] ?? -1) : (live.node[b++] ?? -1);
        if (!isOld && excess <= core.band && cost < best) {
          if (accept([...history.choices(from), j])) {
            best = cost;
            limit = best - core.unit + slack;
          }
        }
        if (excess >= least) continue;
        if (bound(cost, excess, steep, flat, next) > limit) {
          // Such a state may still be wanted as an old one for a later choice of this group only if
          // its completion could pay, which the bound has just ruled out.
          continue;
        }
        least = excess;
        out.cost[end] = cost;
        out.excess[end] = excess;
        out.node[end] = isOld ? from : history.add(from, j);
        end++;
        if (--untilStop === 0) {
          untilStop = STOP_EVERY;
          if (shouldStop()) return { best, bound: boundOf(live, g), complete: false };
        }
      }
      out.count = end;
      current = out;
    }
    if (current === live) {
      continue;
    }
    if (current === spare) spare = live;
    else spareToo = live;
    live = current;
    if (((g + 1) & g) === 0) tryCompletions(live, core.first[g + 1] ?? 0);
    history.tidy(live.node, live.count);
  }
  return { best, bound: best, complete: true };
}

/** Per group g: the least slope for lowering loss, and the greatest for giving it back, among groups >= g. */
function slopesToCome(core: Core): { up: Float64Array; down: Float64Array } {
  const groups = core.first.length - 1;
  const up = new Float64Array(groups + 1).fill(Infinity);
  const down = new Float64Array(groups + 1);
  for (let g = groups - 1; g >= 0; g--) {
    let steep = up[g + 1] ?? Infinity;
    let flat = down[g + 1] ?? 0;
    for (let j = core.first[g] ?? 0; j < (core.first[g + 1] ?? 0); j++) {
      const loss = core.loss[j] ?? 0;
      const slope = -(core.cost[j] ?? 0) / loss;
      if (loss < 0) steep = Math.min(steep, slope);
      else flat = Math.max(flat, slope);
    }
    up[g] = steep;
    down[g] = flat;
  }
  return { up, down };
}

function room(size: number): States {
  return {
    cost: new Float64Array(size),
    excess: new Float64Array(size),
    node: new Int32Array(size),
    count: 0,
  };
}

function reserve(states: States, size: number): void {
  if (states.cost.length >= size) return;
  const larger = room(size * 2);
  states.cost = larger.cost;
  states.excess = larger.excess;
  states.node = larger.node;
}
