/**
 * What a rule counts by. ship: once for the vessel; unit: for each fitted item; kind: once for identical items (one
 * model); number: for every `per` items or part of it; per cent: of the pieces fitted.
 */
export type MinimumBasis = "ship" | "unit" | "kind" | "number" | "per cent";

/** One line of a published minimum list. */
export interface MinimumRule {
  /** Where the text says it, such as "s. 121(5)". */
  readonly place: string;
  /** Phrases any of which names the gear the rule speaks of; none where it speaks of the ship alone. */
  readonly gear: readonly string[];
  /** Phrases any of which leaves an item out of the rule. */
  readonly notWhen: readonly string[];
  /** Phrases any of which names the spare, in a part's description or number. */
  readonly spare: readonly string[];
  /** Only parts on the gear's own parts list count (or parts that interchange with them). */
  readonly mustFit: boolean;
  readonly basis: MinimumBasis;
  /** Pieces per ship, unit, kind or `per` units, or per cent; undefined where the text leaves it open. */
  readonly quantity: number | undefined;
  /** Units that ask for `quantity` once; 1 unless the basis is number. */
  readonly per: number;
  /** The least in any case. */
  readonly atLeast: number;
  /** The count holds for each matching part apart, not for all together. */
  readonly ofEach: boolean;
  /** Most units the text speaks of; beyond that it must not be extrapolated. */
  readonly coversUnits: number | undefined;
  readonly words: string;
  readonly source: string;
  readonly dated: string;
}

/** A fitted item a rule may speak of. */
export interface FittedUnit {
  readonly name: string;
  /** Items of one model have the same kind; an item of unknown model has a kind of its own. */
  readonly kind: string;
  readonly kindName: string;
  /** Its category; empty where none is known (its name is looked at then). */
  readonly category: string;
  /** Everything that is said of the item and its model. */
  readonly words: string;
}

/** A part class that may serve as a spare. */
export interface SpareClass {
  readonly name: string;
  readonly words: string;
  /** Usable pieces aboard, >= 0. */
  readonly aboard: number;
  /** Pieces aboard that do not count (out of date, undated, poor). */
  readonly notUsable: number;
  /** Pieces the kit buys. */
  readonly bought: number;
  /** Pieces fitted, by index of the unit that takes them. */
  readonly fitted: ReadonlyMap<number, number>;
}
