import { stockAboard } from "../aboard/usable-stock.ts";
import { type PartClasses, partClasses } from "../classes/part-classes.ts";
import { supersessionOf } from "../classes/supersession.ts";
import type { TierTargets } from "../kit/kit-problem.ts";
import { commonCurrency, type PriceList, priceList } from "../provision/class-price.ts";
import { type Passage, usableUntilDay } from "../provision/passage.ts";
import { type VesselDemand, vesselDemand } from "../provision/vessel-demand.ts";
import {
  type KitSettings,
  offeredClasses,
  type VesselKit,
  vesselKit,
} from "../provision/vessel-kit.ts";
import type { Snapshot } from "../snapshot/snapshot.ts";

export type FittedKitSettings = Omit<KitSettings, "targets" | "objective" | "rule" | "shouldStop">;

/** Solves the kit of one vessel with other gear fitted, again and again, at one price list. */
export interface FittedKits {
  readonly classes: PartClasses;
  readonly prices: PriceList;
  readonly currency: string;
  /**
   * The least-cost kit of the vessel in `fitted`, a snapshot that differs from the one these kits are of only in the
   * gear at `items`: other models, new ones, or items added at the end. `bounded` stops before the proof: a kit that
   * reaches the targets, and a bound no kit goes below.
   */
  readonly kitOf: (
    fitted: Snapshot,
    items: readonly number[],
    passage: Passage,
    targets: TierTargets,
    proof?: "proven" | "bounded",
  ) => VesselKit;
}

/**
 * Returns a solver of kits at equal protection for one vessel with different gear. Each kit equals `vesselKit` by cost
 * with rule "kit"; what does not change between two calls (price list, stock, the demand of other gear) is computed
 * once, which is what makes trying many makes, lengths and targets quick.
 * Source: METHODS, choosing gear; oracle: vesselKit.
 */
export function fittedKits(
  snapshot: Snapshot,
  vessel: number,
  settings: FittedKitSettings,
): FittedKits {
  const classes = partClasses(snapshot, settings.confirmedOnly === true);
  const currency = settings.currency ?? commonCurrency(snapshot);
  const prices = priceList(snapshot, classes, currency, settings.rates);
  const supersession = supersessionOf(snapshot, classes);
  const offered = offeredClasses(snapshot, classes);
  const bases = new Map<string, Base>();
  const baseOf = (passage: Passage): Base => {
    const name = [passage.departsDay, passage.daysLongest, passage.marginDays].join(" ");
    const known = bases.get(name);
    if (known !== undefined) return known;
    const demand = vesselDemand(snapshot, classes, vessel, passage, settings.robbing);
    const fresh = { demand, stock: stockAboard(snapshot, vessel, usableUntilDay(passage)) };
    bases.set(name, fresh);
    return fresh;
  };
  return {
    classes,
    prices,
    currency,
    kitOf: (fitted, items, passage, targets, proof = "proven") => {
      const base = baseOf(passage);
      const changed = new Set(
        items.flatMap((item) => [snapshot.items.model[item] ?? -1, fitted.items.model[item] ?? -1]),
      );
      const demand =
        items.length === 0
          ? base.demand
          : vesselDemand(fitted, classes, vessel, passage, settings.robbing, {
              demand: base.demand,
              changed,
            });
      return vesselKit(
        fitted,
        vessel,
        passage,
        {
          ...settings,
          targets,
          objective: "cost",
          rule: "kit",
          ...(proof === "proven" ? {} : { shouldStop: () => true }),
        },
        { classes, supersession, stock: base.stock, prices, currency, demand, offered },
      );
    },
  };
}

interface Base {
  readonly demand: VesselDemand;
  readonly stock: ReturnType<typeof stockAboard>;
}
