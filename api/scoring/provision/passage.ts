/** The crossing as the kit is sized on it. Days are days since 1970-01-01 or counts of days. */
export interface Passage {
  readonly departsDay: number;
  readonly daysExpected: number;
  /** The kit is sized on these days. */
  readonly daysLongest: number;
  /** Days past longest-case arrival for which dates must still hold. */
  readonly marginDays: number;
}

export const daysPerYear = 365.25;

/** Longest-case arrival, days since 1970-01-01. */
export const arrivalDay = (passage: Passage): number =>
  passage.departsDay + Math.ceil(passage.daysLongest);

/** The day after which stock must still be in date. */
export const usableUntilDay = (passage: Passage): number =>
  arrivalDay(passage) + Math.ceil(passage.marginDays);
