import type { Snapshot } from "../snapshot/snapshot.ts";
import { hoursPerDayOf } from "./running-hours.ts";
import { timesDue } from "./service-lines.ts";

/** Stands for hours nobody knows: beyond any life, so that the ages of pieces stay unknown. */
const unknownHours = 1e9;

/**
 * Returns one vessel's gear as it stands after some days under way: hours run on, services that fell due done when they
 * did. Nothing else is assumed to have been renewed, so a wearing piece is as old as its item or its last service says.
 * A what-if, never written. O(items × services).
 *
 * @param departsDay day the leg begins, days since 1970-01-01
 * @param days days under way
 */
export function afterLeg(
  snapshot: Snapshot,
  vessel: number,
  departsDay: number,
  days: number,
): Snapshot {
  const { items, services, serviced } = snapshot;
  const hoursRun = items.hoursRun.slice();
  const start = new Int32Array(serviced.start.length);
  const target: number[] = [];
  const lastDoneDay: number[] = [];
  const lastDoneHours: number[] = [];
  const passage = { departsDay, daysExpected: days, daysLongest: days, marginDays: 0 };
  for (let item = 0; item + 1 < start.length; item++) {
    const model = items.model[item] ?? -1;
    const isOurs = items.vessel[item] === vessel && model >= 0;
    const run = items.hoursRun[item] ?? Number.NaN;
    const from = Number.isNaN(run) ? unknownHours : run;
    const perDay = hoursPerDayOf(snapshot, item);
    const done = new Map<number, number>();
    if (isOurs) {
      for (let service = 0; service < services.id.length; service++) {
        if (services.model[service] !== model) continue;
        const last = timesDue(snapshot, item, service, passage)?.dueDays.at(-1);
        if (last !== undefined) done.set(service, last);
      }
      if (!Number.isNaN(run) || done.size > 0) hoursRun[item] = from + perDay * days;
    }
    for (let entry = serviced.start[item] ?? 0; entry < (serviced.start[item + 1] ?? 0); entry++) {
      const service = serviced.target[entry] ?? -1;
      if (done.has(service)) continue;
      target.push(service);
      lastDoneDay.push(serviced.lastDoneDay[entry] ?? Number.NaN);
      lastDoneHours.push(serviced.lastDoneHours[entry] ?? Number.NaN);
    }
    for (const [service, day] of done) {
      target.push(service);
      lastDoneDay.push(departsDay + Math.floor(day));
      lastDoneHours.push(from + perDay * day);
    }
    start[item + 1] = target.length;
  }
  return {
    ...snapshot,
    items: { ...items, hoursRun },
    serviced: {
      start,
      target: Int32Array.from(target),
      lastDoneDay: Float64Array.from(lastDoneDay),
      lastDoneHours: Float64Array.from(lastDoneHours),
    },
  };
}
