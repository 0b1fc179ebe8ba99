import { addCalendarMonths } from "../demand/calendar-months.ts";

/** Why a lot does not count: out of date at arrival, no date on a part that perishes, poor condition. */
export type LotState = "usable" | "out of date" | "date unknown" | "not serviceable";

/** What decides whether a lot counts. Days since 1970-01-01 and months; NaN where not known. */
export interface LotFacts {
  /** 0 unstated, 1 new, 2 serviceable, 3 doubtful, 4 unserviceable. */
  readonly condition: number;
  readonly expiresDay: number;
  readonly madeDay: number;
  /** Of the part; NaN = it keeps. */
  readonly shelfLifeMonths: number;
}

const doubtful = 3;

/**
 * Returns whether a lot counts as aboard for a crossing.
 *
 * A lot counts when its last day of use falls after `usableUntilDay` (longest-case arrival plus margin) and it
 * is serviceable. Its last day is the earlier of the date on the packet and made + shelf life. A part with a
 * shelf life but no date counts as out of date. Source: METHODS section 7.
 *
 * @param usableUntilDay days since 1970-01-01
 */
export function stateOfLot(facts: LotFacts, usableUntilDay: number): LotState {
  if (facts.condition >= doubtful) return "not serviceable";
  const lastDay = lastDayOfLot(facts);
  if (lastDay !== undefined) return lastDay > usableUntilDay ? "usable" : "out of date";
  return Number.isNaN(facts.shelfLifeMonths) ? "usable" : "date unknown";
}

/** Last day on which a lot may be used, days since 1970-01-01; undefined when nothing says. */
export function lastDayOfLot({
  expiresDay,
  madeDay,
  shelfLifeMonths,
}: LotFacts): number | undefined {
  const byAge =
    Number.isNaN(madeDay) || Number.isNaN(shelfLifeMonths)
      ? Number.NaN
      : addCalendarMonths(madeDay, shelfLifeMonths);
  if (Number.isNaN(expiresDay)) return Number.isNaN(byAge) ? undefined : byAge;
  return Number.isNaN(byAge) ? expiresDay : Math.min(expiresDay, byAge);
}
