import { type Cell, type CellNote, valueCell } from "./cell.ts";

/** Which end of a range is the safe one: the longest lead time, but the shortest life. */
export type SafeEnd = "least" | "most";

const figure = String.raw`\d[\d.,]*`;
const unit = String.raw`[^\d\s–—-][^\d–—]*?`;
const between = String.raw`\s*(?:-|–|—|\.\.\.?|…|\bto\b|\bbis\b|à|\ba\b|\bau\b|\btot\b|\baté\b|\bad\b|\bor\b|\boder\b|\bou\b|\bof\b|\bo\b|\band\b|\bund\b|\bet\b|\by\b|\ben\b|\be\b)\s*`;
const range = new RegExp(`^(${figure})\\s*(${unit})?${between}(${figure})\\s*(\\D*)$`, "iu");
const lead = /^(?:from|between|von|zwischen|de|entre|tussen|van|da|tra|fra)\s+/iu;
/** Words for "about" before a figure. */
export const roughly =
  /^(?:ca\.?|circa|approx\.?|approximately|about|around|abt\.?|roughly|~|≈|±|etwa|ungefähr|rund|env\.?|environ|aprox\.?|unos|unas|alrededor de|ongeveer|plm\.?|cerca de)\s*(?=\d)/iu;

/** The two ends of a range written in one cell, each with its unit: "3-4 weeks", "von 2 bis 3 Wochen". */
export function splitRange(cell: string): readonly [string, string] | undefined {
  const match = range.exec(cell.trim().replace(lead, ""));
  if (match === null) return undefined;
  const [, low = "", own = "", high = "", rest = ""] = match;
  return [`${low} ${own.trim() || rest}`.trim(), `${high} ${rest}`.trim()];
}

const rangeNotes: Readonly<Record<SafeEnd, CellNote>> = {
  most: {
    code: "range-most-taken",
    text: "A range was written here; its upper end was taken, to be on the safe side.",
  },
  least: {
    code: "range-least-taken",
    text: "A range was written here; its lower end was taken, to be on the safe side.",
  },
};
/** Ranges of which only the safe end is written: "10+" in stock, "up to 3 weeks" to wait. */
const openEnded: Readonly<Record<SafeEnd, RegExp>> = {
  least: /^(?:>=?|≥|at least|min(?:\.|d\.|imum)?)\s*(?=\d)|(?<=\d)\s*\+$/iu,
  most: /^(?:<=?|≤|at most|max(?:\.|imum)?|up to)\s*(?=\d)/iu,
};
export const roughNote: CellNote = {
  code: "rough-figure",
  text: 'A rough figure was written here ("about"); it was taken as it stands.',
};

/**
 * Reads a cell that is no plain figure: a range by its safe end, a rough figure as it stands; each with a note, never
 * silently. The fault of the cell as it is, if it is neither.
 * @param read reads a plain figure with its unit
 * @param safe the end of a range to take; undefined = a range is a fault
 */
export function readFigure<T>(
  cell: string,
  read: (cell: string) => Cell<T>,
  safe: SafeEnd | undefined,
  sizeOf: (value: T) => number,
): Cell<T> {
  const plain = read(cell);
  if (plain.kind !== "fault") return plain;
  const text = cell.trim();
  const exact = text.replace(roughly, "");
  if (exact !== text) {
    const answer = readFigure(exact, read, safe, sizeOf);
    return answer.kind === "value" ? valueCell(answer.value, answer.note ?? roughNote) : plain;
  }
  const limit = safe === undefined ? text : text.replace(openEnded[safe], "");
  if (safe !== undefined && limit !== text) {
    const answer = read(limit);
    return answer.kind === "value" ? valueCell(answer.value, rangeNotes[safe]) : plain;
  }
  const ends = safe === undefined ? undefined : splitRange(text);
  if (safe === undefined || ends === undefined) return plain;
  const [one, other] = ends.map(read);
  if (one?.kind !== "value" || other?.kind !== "value") return plain;
  const isOneLess = sizeOf(one.value) <= sizeOf(other.value);
  return valueCell((safe === "least") === isOneLess ? one.value : other.value, rangeNotes[safe]);
}

/** The safe end of the fields that people write ranges for, by target. */
const safeEnds: Readonly<Record<string, SafeEnd>> = {
  "OFFERS.leadTimeDays": "most",
  "OFFERS.minimumOrder": "most",
  "OFFERS.packSize": "most",
  "USES.quantity": "most",
  "USES.rate": "most",
  "USES.lossChance": "most",
  "CONSUMES.quantity": "most",
  "FittedItem.hoursPerDay": "most",
  "FittedItem.operationsPerDay": "most",
  "RequiredFunction.need": "most",
  "Part.massKg": "most",
  "Part.volumeLitres": "most",
  "Crossing.daysLongest": "most",
  "Crossing.daysExpected": "most",
  "Crossing.legDays": "most",
  "Crossing.legLongest": "most",
  "USES.mtbfHours": "least",
  "USES.meanLifeHours": "least",
  "ServiceTask.interval": "least",
  "ServiceTask.intervalHours": "least",
  "ServiceTask.intervalMonths": "least",
  "ServiceTask.intervalOperations": "least",
  "Part.shelfLifeMonths": "least",
  "Part.serviceLifeMonths": "least",
  "StockLot.quantity": "least",
  "CONTAINS.quantity": "least",
  "Locker.capacityLitres": "least",
};

export const safeEndOf = (target: string): SafeEnd | undefined => safeEnds[target];
