import type { Snapshot } from "../snapshot/snapshot.ts";
import { type LotFacts, type LotState, lastDayOfLot, stateOfLot } from "./lot-state.ts";

const absent = Number.NaN;

const factsOf = ({ lots, parts }: Snapshot, lot: number): LotFacts => ({
  condition: lots.condition[lot] ?? 0,
  expiresDay: lots.expiresDay[lot] ?? absent,
  madeDay: lots.madeDay[lot] ?? absent,
  shelfLifeMonths: parts.shelfLifeMonths[lots.part[lot] ?? -1] ?? absent,
});

/**
 * Returns whether one lot of a snapshot counts as aboard for a crossing; see `stateOfLot`.
 *
 * @param lot row of snapshot.lots
 * @param usableUntilDay days since 1970-01-01
 */
export const lotState = (snapshot: Snapshot, lot: number, usableUntilDay: number): LotState =>
  stateOfLot(factsOf(snapshot, lot), usableUntilDay);

/** Last day on which the lot may be used, days since 1970-01-01; undefined when nothing says. */
export const lotLastDay = (snapshot: Snapshot, lot: number): number | undefined =>
  lastDayOfLot(factsOf(snapshot, lot));

export interface StockAboard {
  /** Usable pieces per part row. */
  readonly usable: Float64Array;
  /** Pieces per part row that are aboard but do not count. */
  readonly notUsable: Float64Array;
  /** Lots of each part row, usable ones first, in picking order: first out of date, first used. */
  readonly lotsOf: ReadonlyMap<number, readonly number[]>;
}

/** Usable stock of every part on one vessel (METHODS: what counts as aboard). O(lots log lots). */
export function stockAboard(
  snapshot: Snapshot,
  vessel: number,
  usableUntilDay: number,
): StockAboard {
  const { lots, parts } = snapshot;
  const usable = new Float64Array(parts.id.length);
  const notUsable = new Float64Array(parts.id.length);
  const lotsOf = new Map<number, number[]>();
  for (let lot = 0; lot < lots.id.length; lot++) {
    const part = lots.part[lot] ?? -1;
    if (lots.vessel[lot] !== vessel || part < 0) continue;
    const counts = lotState(snapshot, lot, usableUntilDay) === "usable";
    const tally = counts ? usable : notUsable;
    tally[part] = (tally[part] ?? 0) + (lots.quantity[lot] ?? 0);
    const list = lotsOf.get(part);
    if (list === undefined) lotsOf.set(part, [lot]);
    else list.push(lot);
  }
  const rank = (lot: number): number =>
    lotState(snapshot, lot, usableUntilDay) === "usable" ? 0 : 1;
  const lastDay = (lot: number): number => lotLastDay(snapshot, lot) ?? Number.MAX_SAFE_INTEGER;
  for (const list of lotsOf.values()) {
    list.sort((a, b) => rank(a) - rank(b) || lastDay(a) - lastDay(b) || a - b);
  }
  return { usable, notUsable, lotsOf };
}
