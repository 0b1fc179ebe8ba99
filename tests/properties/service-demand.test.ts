import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { serviceDemand } from "../../api/scoring/demand/service-demand.ts";

const base = { departsOn: "2026-11-30", days: 20, hoursPerDay: 12, pieces: 2 };

describe("a planned service", () => {
  it("by hours falls due at each multiple after what has been run", () => {
    // 40 h left of 100 at 12 h a day: due after 40 h and 140 h of the 240 h run; 240 h is arrival.
    const service = serviceDemand({ ...base, everyHours: 100, hoursSinceDone: 60 });
    expect(service.times).toBe(2);
    expect(service.dueDays[0]).toBeCloseTo(40 / 12, 12);
    expect(service.dueDays[1]).toBeCloseTo(140 / 12, 12);
    expect(service.demand.mass[4]).toBe(1);
    expect(service.assumed).toBe(false);
  });

  it("overdue at departure counts once, however long overdue", () => {
    const service = serviceDemand({ ...base, everyHours: 500, hoursSinceDone: 1700 });
    expect(service.dueDays).toEqual([0]);
  });

  it("takes whichever clock runs out first, and starts both again", () => {
    // Done 10 July: six months fall on 10 January, after arrival; the hours fall on day 5, then 15.
    const both = serviceDemand({
      ...base,
      everyHours: 120,
      everyMonths: 6,
      hoursSinceDone: 60,
      doneOn: "2026-07-10",
    });
    expect(both.dueDays).toEqual([5, 15]);
    // Done 10 June: due 10 December, day 10, before its hours (day 20); then 500 h from there.
    const months = serviceDemand({
      ...base,
      everyHours: 500,
      everyMonths: 6,
      hoursSinceDone: 200,
      doneOn: "2026-06-10",
    });
    expect(months.dueDays).toEqual([10]);
  });

  it("counts calendar months, to the last day where a month is shorter", () => {
    const service = serviceDemand({ ...base, everyMonths: 3, doneOn: "2026-08-31", pieces: 1 });
    expect(service.dueDays).toEqual([0]);
    const leap = serviceDemand({
      ...base,
      departsOn: "2028-02-20",
      everyMonths: 1,
      doneOn: "2028-01-31",
    });
    expect(leap.dueDays).toEqual([9]);
  });

  it("due at the very moment of arrival is not counted, a moment before is", () => {
    const at = { ...base, everyHours: 240, hoursSinceDone: 0 };
    expect(serviceDemand(at).times).toBe(0);
    expect(serviceDemand({ ...at, hoursSinceDone: 0.01 }).times).toBe(1);
  });

  it("last done at an unknown time is taken as due at once, and flagged", () => {
    const unknown = serviceDemand({ ...base, everyHours: 250 });
    expect(unknown.dueDays).toEqual([0]);
    expect(unknown.assumed).toBe(true);
    const oneClock = serviceDemand({
      ...base,
      everyHours: 250,
      everyMonths: 12,
      hoursSinceDone: 3,
    });
    expect(oneClock.assumed).toBe(true);
    expect(oneClock.times).toBe(1);
  });

  it("of gear that does not run falls due by the calendar only", () => {
    const still = { ...base, hoursPerDay: 0, everyHours: 50, hoursSinceDone: 10 };
    expect(serviceDemand(still).times).toBe(0);
  });

  it("matches a count in steps of an hour, and unknown is never the smaller demand", () => {
    const setting = fc.record({
      everyHours: fc.integer({ min: 12, max: 400 }),
      hoursSinceDone: fc.integer({ min: 0, max: 500 }),
      days: fc.integer({ min: 1, max: 60 }),
    });
    fc.assert(
      fc.property(setting, ({ everyHours, hoursSinceDone, days }) => {
        let sinceDone = hoursSinceDone;
        let times = 0;
        for (let hour = 0; hour < days * 24; hour += 1) {
          if (sinceDone >= everyHours) {
            times += 1;
            sinceDone = 0;
          }
          sinceDone += 1;
        }
        const one = { ...base, hoursPerDay: 24, days, everyHours };
        expect(serviceDemand({ ...one, hoursSinceDone }).times).toBe(times);
        expect(serviceDemand(one).times).toBeGreaterThanOrEqual(times);
      }),
    );
  });

  it.each([
    ["no interval", {}, /must have an interval/],
    ["no hours", { everyHours: 0 }, /above zero; received 0/],
    ["half a month", { everyMonths: 0.5 }, /whole number of months.*received 0.5/],
    ["no such day", { everyMonths: 1, doneOn: "2026-02-30" }, /real day.*2026-02-30/],
    ["another order of day", { everyMonths: 1, doneOn: "30/11/2026" }, /YYYY-MM-DD.*30\/11\/2026/],
    ["a unit astray", { everyHours: 1e-6, hoursSinceDone: 0 }, /fewer than 100000 times/],
  ])("refuses %s", (_, given, message) => {
    expect(() => serviceDemand({ ...base, ...given })).toThrow(message);
  });
});
