import { gammaPoissonDemand } from "./gamma-poisson-demand.ts";
import type { Pmf } from "./pmf.ts";

/** A named guess at how often a piece fails, for parts of which nothing better is known. */
export interface RarityClass {
  readonly id: string;
  readonly label: string;
  /** Prior mean, in years of service of one piece between failures. */
  readonly meanYearsBetween: number;
  /** Prior gamma shape; one half keeps it wide, so that a few recorded uses outweigh it. */
  readonly shape: number;
  /** Where the figure comes from: nobody measured it. */
  readonly basis: "assumption";
  /** ISO date on which the figure was set. */
  readonly setOn: string;
}

const assumed = { shape: 0.5, basis: "assumption", setOn: "2026-11-25" } as const;

/** The classes the program starts with; a person may edit them. */
export const rarityClasses: readonly RarityClass[] = [
  { id: "seldom", label: "seldom", meanYearsBetween: 50, ...assumed },
  { id: "now-and-then", label: "now and then", meanYearsBetween: 10, ...assumed },
  { id: "often", label: "often", meanYearsBetween: 2, ...assumed },
];

/**
 * The prior of a class as gamma-Poisson shape `a` and rate `b` (piece-years): mean rate `a / b` is
 * one failure in `meanYearsBetween` years, so `b = a × meanYearsBetween`.
 */
export function rarityPrior(rarity: RarityClass): { shape: number; rate: number } {
  return { shape: rarity.shape, rate: rarity.shape * rarity.meanYearsBetween };
}

/**
 * The demand assumed of a part that has a rarity class, with its own history if there is one.
 * `exposurePieceYears` is years ahead × pieces, summed over the fitted items of the model.
 * Safety gear must never come here: it takes no rarity-class default.
 */
export function rarityDemand(
  rarity: RarityClass,
  exposurePieceYears: number,
  history: { readonly used: number; readonly overPieceYears: number } = {
    used: 0,
    overPieceYears: 0,
  },
): Pmf {
  return gammaPoissonDemand({
    ...rarityPrior(rarity),
    used: history.used,
    usedOver: history.overPieceYears,
    exposure: exposurePieceYears,
  });
}
