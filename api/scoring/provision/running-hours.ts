import type { Snapshot } from "../snapshot/snapshot.ts";

const hoursWhenUnknown = 24;

/** Running hours a day of one item; unknown counts as running all day, the most it could wear. */
export function hoursPerDayOf(snapshot: Snapshot, item: number): number {
  const stated = snapshot.items.hoursPerDay[item] ?? Number.NaN;
  return Number.isNaN(stated) ? hoursWhenUnknown : stated;
}
