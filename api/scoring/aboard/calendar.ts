const dayMs = 86_400_000;

/** Days since 1970-01-01 (UTC) of an ISO day `YYYY-MM-DD`; NaN when it is not one. */
export const dayOfIso = (iso: string): number => Date.parse(`${iso}T00:00:00Z`) / dayMs;

/** ISO day of a count of days since 1970-01-01 (UTC). */
export const isoOfDay = (day: number): string => new Date(day * dayMs).toISOString().slice(0, 10);
