import { Problem } from "../../errors/problem.ts";
import { addCalendarMonths, calendarDayOf } from "./calendar-months.ts";
import { type Pmf, pointMass } from "./pmf.ts";
import {
  aboveZero,
  atLeastZero,
  type NumberRule,
  requireNumber,
  wholeCount,
} from "./require-number.ts";

/** A planned service, the state of its clocks at departure, and the crossing ahead. */
export interface PlannedService {
  /** Falls due after so many hours of running (or operations), if it has that clock. */
  readonly everyHours?: number;
  /** Falls due after so many calendar months, if it has that clock (whole, ≥ 1). */
  readonly everyMonths?: number;
  /** Hours run since it was last done, at departure; leave out when unknown. */
  readonly hoursSinceDone?: number;
  /** ISO date on which it was last done; leave out when unknown. */
  readonly doneOn?: string;
  /** ISO date of departure. */
  readonly departsOn: string;
  /** Longest-case length of the crossing, days. */
  readonly days: number;
  /** Hours run (or operations) per day under way. */
  readonly hoursPerDay: number;
  /** Pieces used each time, `q`. */
  readonly pieces: number;
}

/** What a planned service asks of the kit. */
export interface ServiceDemand {
  readonly demand: Pmf;
  /** How often it falls due before arrival. */
  readonly times: number;
  /** When, in days after departure; 0 means overdue or due on departure. */
  readonly dueDays: readonly number[];
  /** True when a clock's last reading was unknown, and the worst case (due at once) was taken. */
  readonly assumed: boolean;
}

const SAME_MOMENT_DAYS = 1e-9;
const MOST_TIMES = 100_000;
const months: NumberRule = {
  code: "input-invalid",
  rule: "a whole number of months, 1 or more",
  holds: (value) => Number.isSafeInteger(value) && value >= 1,
  remedy: "Give shorter intervals in hours.",
};

/**
 * The exact demand of a planned service: it falls due when the first of its clocks runs out, is
 * then done, and both clocks start again.
 *
 *   due_1 = max(0, min((everyHours - hoursSinceDone)/hoursPerDay, doneOn + everyMonths - departsOn))
 *   due_(i+1) = due_i + min(everyHours/hoursPerDay, everyMonths from that day)
 *   D = pieces × number of i with due_i < days
 *
 * Overdue at departure counts once, as due at departure. A service due at the very moment of arrival
 * is not counted. Months are calendar months (31 January + 1 month = the last day of February). An
 * unknown last reading of any clock the service has is taken as due at departure, the most it could
 * ask for, and flagged. Throws `input-invalid` / `rate-invalid`. O(times). Source: METHODS of this
 * project, section 1; own derivation, checked against a day-by-day count in the tests.
 */
export function serviceDemand(service: PlannedService): ServiceDemand {
  check(service);
  const { everyHours, everyMonths, hoursSinceDone, doneOn, days, hoursPerDay } = service;
  const departure = calendarDayOf(service.departsOn);
  const assumed =
    (everyHours !== undefined && hoursSinceDone === undefined) ||
    (everyMonths !== undefined && doneOn === undefined);
  const hoursAhead = (from: number, hours: number) =>
    hours <= 0 ? from : hoursPerDay === 0 ? Number.POSITIVE_INFINITY : from + hours / hoursPerDay;
  let due = Number.POSITIVE_INFINITY;
  if (everyHours !== undefined && hoursSinceDone !== undefined) {
    due = Math.min(due, hoursAhead(0, everyHours - hoursSinceDone));
  }
  if (everyMonths !== undefined && doneOn !== undefined) {
    due = Math.min(due, addCalendarMonths(calendarDayOf(doneOn), everyMonths) - departure);
  }
  due = assumed ? 0 : Math.max(0, due);
  const dueDays: number[] = [];
  while (due < days - SAME_MOMENT_DAYS) {
    if (dueDays.length === MOST_TIMES) throw tooOften(service);
    dueDays.push(due);
    let next = Number.POSITIVE_INFINITY;
    if (everyHours !== undefined) next = hoursAhead(due, everyHours);
    if (everyMonths !== undefined) {
      next = Math.min(next, addCalendarMonths(departure + due, everyMonths) - departure);
    }
    due = next;
  }
  const times = dueDays.length;
  return { demand: pointMass(times * service.pieces), times, dueDays, assumed };
}

function check(service: PlannedService): void {
  const { everyHours, everyMonths, hoursSinceDone } = service;
  if (everyHours === undefined && everyMonths === undefined) {
    throw new Problem(
      "input-invalid",
      "A planned service must have an interval; received neither hours nor months. Give one or both.",
    );
  }
  if (everyHours !== undefined) requireNumber("The interval in hours", everyHours, aboveZero);
  if (everyMonths !== undefined) requireNumber("The interval in months", everyMonths, months);
  if (hoursSinceDone !== undefined) {
    requireNumber("The hours since it was last done", hoursSinceDone, atLeastZero);
  }
  requireNumber("The days of the crossing", service.days, atLeastZero);
  requireNumber("The hours run per day", service.hoursPerDay, atLeastZero);
  requireNumber("The pieces used each time", service.pieces, wholeCount);
}

function tooOften(service: PlannedService): Problem {
  return new Problem(
    "rate-invalid",
    `A service must fall due fewer than ${MOST_TIMES} times in a crossing; an interval of ` +
      `${service.everyHours} hours at ${service.hoursPerDay} hours a day exceeds that. Check the unit.`,
  );
}
