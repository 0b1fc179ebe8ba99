import type { Aim, SaleAnswer, SaleProblem } from "../packs/sale-problem.ts";
import type { SaleOutcome } from "../packs/solve-sale.ts";
import type { VesselOffer } from "./sale-offers.ts";
import type { VesselKit } from "./vessel-kit.ts";

/** What is bought: so many units of an offer. */
export interface Purchase {
  readonly offer: VesselOffer;
  readonly units: number;
  /** What one unit gives to rows of the kit. */
  readonly rows: readonly { readonly row: number; readonly pieces: number }[];
  /** Locker of each unit, by number in the caps asked for; empty where no lockers were. */
  readonly lockers: readonly number[];
}

/** How the kit is bought, and how well that is known to be the best. */
export interface KitSale {
  readonly problem: SaleProblem;
  readonly offers: readonly VesselOffer[];
  readonly purchases: readonly Purchase[];
  readonly method: SaleAnswer["method"];
  /** False where the caller may ask a mixed-integer solver for a better or proven kit: caps, or too many service kits. */
  readonly isSettled: boolean;
  readonly repaired: boolean;
  /** Money, grams, millilitres, pieces bought. */
  readonly uses: SaleAnswer["uses"];
  /** Present once caps were asked for and weighed. */
  readonly outcome?: Pick<SaleOutcome, "isSafe" | "isFallback" | "needs"> & {
    readonly aim: Aim;
    readonly value: number;
    readonly bound: number;
  };
}

export const defaultWeights = [1, 1, 0.25] as const;

/** A vessel's kit with what is bought for it. */
export interface SoldKit extends VesselKit {
  readonly sale: KitSale;
}
