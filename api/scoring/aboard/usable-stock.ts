import { addCalendarMonths } from "../demand/calendar-months.ts";
import type { Snapshot } from "../snapshot/snapshot.ts";

/** Why a lot does not count: out of date at arrival, no date on a part that perishes, poor condition. */
export type LotState = "usable" | "out of date" | "date unknown" | "not serviceable";

const doubtful = 3;

/**
 * Returns whether one lot counts as aboard for a crossing.
 *
 * A lot counts when its last day of use falls after `usableUntilDay` (longest-case arrival plus margin) and it
 * is serviceable. Its last day is the earlier of the date on the packet and made + shelf life. A part with a
 * shelf life but no date counts as out of date.
 *
 * @param lot row of snapshot.lots
 * @param usableUntilDay days since 1970-01-01
 */
export function lotState(snapshot: Snapshot, lot: number, usableUntilDay: number): LotState {
  const { lots, parts } = snapshot;
  if ((lots.condition[lot] ?? 0) >= doubtful) return "not serviceable";
  const lastDay = lotLastDay(snapshot, lot);
  if (lastDay !== undefined) return lastDay > usableUntilDay ? "usable" : "out of date";
  const perishes = !Number.isNaN(parts.shelfLifeMonths[lots.part[lot] ?? -1] ?? Number.NaN);
  return perishes ? "date unknown" : "usable";
}

/** Last day on which the lot may be used, days since 1970-01-01; undefined when nothing says. */
export function lotLastDay(snapshot: Snapshot, lot: number): number | undefined {
  const { lots, parts } = snapshot;
  const part = lots.part[lot] ?? -1;
  const onPacket = lots.expiresDay[lot] ?? Number.NaN;
  const made = lots.madeDay[lot] ?? Number.NaN;
  const keeps = parts.shelfLifeMonths[part] ?? Number.NaN;
  const byAge =
    Number.isNaN(made) || Number.isNaN(keeps) ? Number.NaN : addCalendarMonths(made, keeps);
  if (Number.isNaN(onPacket)) return Number.isNaN(byAge) ? undefined : byAge;
  return Number.isNaN(byAge) ? onPacket : Math.min(onPacket, byAge);
}

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
