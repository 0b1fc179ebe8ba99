import { compensatedSum } from "./compensated-sum.ts";
import type { Levels } from "./undominated-levels.ts";

/**
 * Returns the loss (-ln sufficiency) of a kit beyond what is allowed; the kit reaches its target where <= 0.
 *
 * Summed in the order of the parts with compensation: this, and nothing faster, decides whether a kit counts.
 */
export function kitExcess(levels: Levels, kit: Int32Array, allowed: number): number {
  const sum = compensatedSum();
  for (let k = 0; k < kit.length; k++) sum.add(levels.loss[kit[k] ?? 0] ?? Infinity);
  return sum.value() - allowed;
}

/** Returns the cost of a kit, exactly (costs are integers whose sum is safe). */
export function kitCost(levels: Levels, kit: Int32Array): number {
  let cost = 0;
  for (const level of kit) cost += levels.cost[level] ?? 0;
  return cost;
}
