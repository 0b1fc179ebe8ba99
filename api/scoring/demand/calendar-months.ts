import { Problem } from "../../errors/problem.ts";
import { dayOfIso, isoOfDay } from "../aboard/calendar.ts";

const MS_PER_DAY = 86_400_000;

/** Whole days from 1970-01-01 to an ISO date (YYYY-MM-DD). Throws `input-invalid` for no real date. */
export function calendarDayOf(isoDate: string): number {
  const day = dayOfIso(isoDate);
  if (Number.isInteger(day) && isoOfDay(day) === isoDate) return day;
  throw new Problem(
    "input-invalid",
    `A date must be a real day written YYYY-MM-DD; received "${isoDate}". Correct it or leave it out.`,
  );
}

/**
 * The day (fractions of a day kept) that lies `months` calendar months after `day`, both counted from
 * 1970-01-01; where the month is shorter, its last day.
 */
export function addCalendarMonths(day: number, months: number): number {
  const whole = Math.floor(day);
  const date = new Date(whole * MS_PER_DAY);
  const year = date.getUTCFullYear();
  const month = date.getUTCMonth() + months;
  const lastOfMonth = new Date(Date.UTC(year, month + 1, 0)).getUTCDate();
  const moved = Date.UTC(year, month, Math.min(date.getUTCDate(), lastOfMonth)) / MS_PER_DAY;
  return moved + (day - whole);
}
