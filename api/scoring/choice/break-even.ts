import { Problem } from "../../errors/problem.ts";

/** What one choice costs: minor units, whole numbers. */
export interface BoatCost {
  /** Price of one unit; undefined where it is not known. */
  readonly priceEach: number | undefined;
  /** Kit of the whole boat at the same protection with this choice fitted. */
  readonly kit: number;
}

/**
 * Returns the price of one unit at which the boat with `own` costs as much as the boat with `rival`.
 *
 * With n units, price p and kit cost k: n p + k_own = n p_rival + k_rival, so p = p_rival + (k_rival - k_own) / n. The
 * greatest whole minor unit not above it is given: at that price, or any lower, `own` is not the dearer boat. May be
 * negative: then even a gift would be dearer. Undefined where the rival's price is unknown.
 * Errors: `input-invalid` unless n is a whole number above 0 and all costs are safe whole numbers.
 * Source: METHODS, break-even price; own derivation above, worked by hand in the tests.
 */
export function breakEvenEach(own: BoatCost, rival: BoatCost, units: number): number | undefined {
  const figures = [units, own.kit, rival.kit, rival.priceEach ?? 0];
  if (!figures.every(Number.isSafeInteger) || units < 1) {
    throw new Problem(
      "input-invalid",
      `A break-even price needs whole minor units and at least one unit; received ${figures.join(", ")}. Round the money first.`,
    );
  }
  if (rival.priceEach === undefined) return undefined;
  return rival.priceEach + Math.floor((rival.kit - own.kit) / units);
}
