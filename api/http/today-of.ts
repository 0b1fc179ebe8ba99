/** The calendar day of an instant, in UTC, `YYYY-MM-DD`. */
export const todayOf = (now: Date): string => now.toISOString().slice(0, 10);
