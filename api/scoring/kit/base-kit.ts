import type { ConvexSteps } from "./convex-steps.ts";
import { kitExcess } from "./kit-excess.ts";
import type { Levels } from "./undominated-levels.ts";

/** Returns the level of each part after all its envelope steps of slope < `slope` (or <= where `inclusive`). */
export function kitAtSlope(
  levels: Levels,
  steps: ConvexSteps,
  slope: number,
  inclusive = false,
): Int32Array {
  const chosen = levels.first.slice(0, levels.part.length);
  for (let k = 0; k < chosen.length; k++) {
    const end = steps.first[k + 1] ?? 0;
    for (let s = steps.first[k] ?? 0; s < end; s++) {
      const here = steps.slope[s] ?? Infinity;
      if (!(here < slope || (inclusive && here === slope))) break;
      chosen[k] = steps.level[s] ?? 0;
    }
  }
  return chosen;
}

/**
 * Returns a kit that reaches `allowed` loss, near the least cost: a good kit to start a proof from.
 *
 * From the base kit (all steps below the break slope) it takes steps of the break slope in order
 * until the target is reached, closes the last gap by the single cheapest level of any part if that
 * costs less, then gives pieces back wherever the target survives, dearest first.
 * The result reaches the target by `kitExcess`; nothing is claimed of its cost. O(levels) a pass.
 */
export function nearbyKit(
  levels: Levels,
  steps: ConvexSteps,
  slope: number,
  allowed: number,
): Int32Array {
  const kit = kitAtSlope(levels, steps, slope);
  let reach = slope;
  while (kitExcess(levels, kit, allowed) > 0) {
    if (!takeSteps(levels, steps, kit, reach, allowed)) {
      const steeper = steps.slope.reduce((l, s) => (s > reach && s < l ? s : l), Infinity);
      if (steeper === Infinity) return topKit(levels);
      reach = steeper;
    }
  }
  while (giveBack(levels, kit, allowed));
  return kit;
}

/** Takes steps of slope <= `reach` until the target is reached; false if they do not suffice. */
function takeSteps(
  levels: Levels,
  steps: ConvexSteps,
  kit: Int32Array,
  reach: number,
  allowed: number,
): boolean {
  let excess = kitExcess(levels, kit, allowed);
  for (let k = 0; k < kit.length; k++) {
    for (let s = steps.first[k] ?? 0; s < (steps.first[k + 1] ?? 0); s++) {
      const level = steps.level[s] ?? 0;
      if (level <= (kit[k] ?? 0)) continue;
      if ((steps.slope[s] ?? Infinity) > reach) break;
      if ((steps.gain[s] ?? 0) >= excess && closeGap(levels, kit, excess, allowed)) return true;
      kit[k] = level;
      excess -= steps.gain[s] ?? 0;
      if (excess <= 0) return kitExcess(levels, kit, allowed) <= 0;
    }
  }
  return false;
}

/** Raises the one part that closes the gap at least cost; false (kit unchanged) if none does. */
function closeGap(levels: Levels, kit: Int32Array, excess: number, allowed: number): boolean {
  let at = -1;
  let to = 0;
  let least = Infinity;
  for (let k = 0; k < kit.length; k++) {
    const from = kit[k] ?? 0;
    for (let j = from + 1; j < (levels.first[k + 1] ?? 0); j++) {
      const cost = (levels.cost[j] ?? 0) - (levels.cost[from] ?? 0);
      if (cost >= least) break;
      if ((levels.loss[from] ?? 0) - (levels.loss[j] ?? 0) >= excess) {
        least = cost;
        at = k;
        to = j;
      }
    }
  }
  if (at < 0) return false;
  const before = kit[at] ?? 0;
  kit[at] = to;
  if (kitExcess(levels, kit, allowed) <= 0) return true;
  kit[at] = before;
  return false;
}

/** Lowers the one part that saves most while the target is still reached; false if none can be lowered. */
function giveBack(levels: Levels, kit: Int32Array, allowed: number): boolean {
  const slack = -kitExcess(levels, kit, allowed);
  let at = -1;
  let to = 0;
  let most = 0;
  for (let k = 0; k < kit.length; k++) {
    const from = kit[k] ?? 0;
    for (let j = from - 1; j >= (levels.first[k] ?? 0); j--) {
      if ((levels.loss[j] ?? 0) - (levels.loss[from] ?? 0) > slack) break;
      const saved = (levels.cost[from] ?? 0) - (levels.cost[j] ?? 0);
      if (saved > most) {
        most = saved;
        at = k;
        to = j;
      }
    }
  }
  if (at < 0) return false;
  const before = kit[at] ?? 0;
  kit[at] = to;
  if (kitExcess(levels, kit, allowed) <= 0) return true;
  kit[at] = before;
  return false;
}

function topKit(levels: Levels): Int32Array {
  return Int32Array.from(levels.part, (_, k) => (levels.first[k + 1] ?? 1) - 1);
}
