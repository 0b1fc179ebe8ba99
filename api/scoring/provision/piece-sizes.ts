import type { PartClasses } from "../classes/part-classes.ts";
import type { Snapshot } from "../snapshot/snapshot.ts";

/** A size in whole grams or millilitres, and whether it was stated or the median stands in. */
export interface PieceSize {
  readonly units: number;
  readonly isKnown: boolean;
}

export interface PieceSizes {
  readonly mass: (partClass: number) => PieceSize;
  readonly volume: (partClass: number) => PieceSize;
}

/**
 * Returns grams and millilitres of one piece of each part class: the first stated size of its members, rounded up,
 * at least 1; else the median of the stated sizes, marked as not known, so that nothing weighs nothing. Of an imagined
 * snapshot the median is that of the one it departs from.
 */
export function pieceSizes(snapshot: Snapshot, classes: PartClasses): PieceSizes {
  const { parts } = snapshot.imaginedFrom ?? snapshot;
  const sizesIn = (
    column: Float64Array,
    before: Float64Array,
  ): ((partClass: number) => PieceSize) => {
    const known = [...before].filter((value) => value > 0).sort((a, b) => a - b);
    const median = known[Math.floor(known.length / 2)] ?? 0.001;
    const wholeUp = (value: number): number => Math.max(1, Math.ceil(value * 1000 - 1e-9));
    return (partClass) => {
      const own = (classes.members[partClass] ?? [])
        .map((part) => column[part] ?? Number.NaN)
        .find((value) => value > 0);
      return { units: wholeUp(own ?? median), isKnown: own !== undefined };
    };
  };
  return {
    mass: sizesIn(snapshot.parts.massKg, parts.massKg),
    volume: sizesIn(snapshot.parts.volumeLitres, parts.volumeLitres),
  };
}
