import { daysAfter, monthsAfter } from "./independent-graph.ts";

/** One item's service as its log says, for a day-by-day walk over the crossing. */
export interface LoggedService {
  readonly everyHours: number | undefined;
  readonly everyMonths: number | undefined;
  readonly hoursPerDay: number;
  /** Hours run since it was last done; undefined where nobody wrote them down. */
  readonly hoursSince: number | undefined;
  readonly doneOn: string | undefined;
  readonly departs: string;
  readonly days: number;
}

/**
 * Times it falls due before longest-case arrival, by living through the crossing a day at a time: each morning the
 * calendar is looked at, during the day the hours add up. Overdue, or a clock never read, counts once at departure.
 */
export function timesByDiary(service: LoggedService): number {
  const { everyHours, everyMonths, hoursPerDay, departs, days } = service;
  const never = "9999-12-31";
  const unread =
    (everyHours !== undefined && service.hoursSince === undefined) ||
    (everyMonths !== undefined && service.doneOn === undefined);
  let hours = service.hoursSince ?? 0;
  let dueOn =
    everyMonths === undefined || service.doneOn === undefined
      ? never
      : monthsAfter(service.doneOn, everyMonths);
  let times = 0;
  const done = (today: string): void => {
    times += 1;
    hours = 0;
    dueOn = everyMonths === undefined ? never : monthsAfter(today, everyMonths);
  };
  for (let day = 0; day < days; day++) {
    const today = daysAfter(departs, day);
    const worn = everyHours !== undefined && hours >= everyHours;
    if (today >= dueOn || (day === 0 && (unread || worn))) done(today);
    let left = hoursPerDay * Math.min(1, days - day);
    while (everyHours !== undefined && hours + left >= everyHours) {
      const atArrival = day >= days - 1 && hours + left <= everyHours * (1 + 1e-12);
      if (atArrival) break;
      left -= everyHours - hours;
      done(today);
    }
    hours += left;
  }
  return times;
}
