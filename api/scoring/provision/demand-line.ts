import type { Pmf } from "../demand/pmf.ts";

/** How good the evidence is: `measured` by maker or publication, counted in our own use, a class guessed, a service plan. */
export type Evidence = "measured" | "own history" | "assumed" | "scheduled";

/** The demand that one line of one model's parts list (or one service of it) makes on one part. */
export interface DemandLine {
  readonly model: number;
  readonly part: number;
  /** Item rows of the vessel that share the line. */
  readonly items: readonly number[];
  /** Row of snapshot.uses; -1 for a service's line. */
  readonly usesLine: number;
  /** Shape of the gamma belief about an uncertain rate; NaN where the rate is taken as known. */
  readonly gammaShape: number;
  readonly quantity: number;
  readonly origin: "failure" | "service";
  /** 0 a failure stops the item, 1 degrades it, 2 neither. */
  readonly effect: number;
  /** False: a spare buys nothing at sea. */
  readonly fittable: boolean;
  /** Mean of the Poisson share of the demand. */
  readonly poissonMean: number;
  /** The rest of the demand, independent terms. */
  readonly terms: readonly Pmf[];
  /** Expected pieces in all. */
  readonly mean: number;
  /** Of which resting on an assumed rate. */
  readonly assumedMean: number;
  readonly evidence: Evidence;
  /** Whether running hours enter the demand, so that unknown ones matter. */
  readonly byHours: boolean;
  /** The evidence in words, with its figures. */
  readonly words: string;
}

/** A fact the reader must know about how demand was reached. */
export interface ProvisionNotice {
  readonly code: string;
  readonly text: string;
}

/** A line of a parts list that carries no evidence of failing: not provided for, and said so. */
export interface LineWithoutEvidence {
  readonly model: number;
  readonly part: number;
  readonly items: readonly number[];
  readonly why: string;
}
