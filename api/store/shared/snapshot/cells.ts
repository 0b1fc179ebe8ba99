import type { Cell, Row } from "./row-source.ts";

const millisecondsPerDay = 86_400_000;

/** One column of rows as an array of the snapshot; absent is NaN, "" or the code given. */
export const numbers = (rows: readonly Row[], at: number): Float64Array =>
  Float64Array.from(rows, (row) => numberOf(row[at]));
export const texts = (rows: readonly Row[], at: number): readonly string[] =>
  rows.map((row) => textOf(row[at]));
/** ISO days as days since 1970-01-01. */
export const days = (rows: readonly Row[], at: number): Float64Array =>
  Float64Array.from(rows, (row) => dayOf(row[at]));
export const yesNos = (rows: readonly Row[], at: number, absent: 0 | 1): Uint8Array =>
  Uint8Array.from(rows, (row) => yesNoOf(row[at]) ?? absent);

/** A declared choice as its place in the list of choices plus `from`; `absent` where there is none. */
export function codes(
  rows: readonly Row[],
  at: number,
  choices: readonly string[],
  from: 0 | 1,
  absent: number,
): Uint8Array {
  const code = new Map(choices.map((choice, place) => [choice, place + from]));
  return Uint8Array.from(rows, (row) => code.get(textOf(row[at])) ?? absent);
}

export const numberOf = (cell: Cell): number => (typeof cell === "number" ? cell : Number.NaN);
const textOf = (cell: Cell): string => (typeof cell === "string" ? cell : "");
const dayOf = (cell: Cell): number =>
  typeof cell === "string" ? Date.parse(cell) / millisecondsPerDay : Number.NaN;
const yesNoOf = (cell: Cell): number | undefined =>
  typeof cell === "number" ? cell : typeof cell === "boolean" ? Number(cell) : undefined;
