import { stockAboard } from "../aboard/usable-stock.ts";
import { type PartClasses, partClasses } from "../classes/part-classes.ts";
import { type Pmf, survival } from "../demand/pmf.ts";
import type { KitPart, TierTargets } from "../kit/kit-problem.ts";
import { minimumKit } from "../kit/minimum-kit.ts";
import { commonCurrency, type PriceList, priceList } from "../provision/class-price.ts";
import { type Passage, usableUntilDay } from "../provision/passage.ts";
import { type VesselDemand, vesselDemand } from "../provision/vessel-demand.ts";
import type { VesselKit } from "../provision/vessel-kit.ts";
import type { Snapshot } from "../snapshot/snapshot.ts";
import { logSufficiency } from "../sufficiency/log-sufficiency.ts";

export interface FittedKitSettings {
  readonly robbing: boolean;
  readonly ignoreAboard: boolean;
  readonly currency?: string;
  readonly rates: Readonly<Record<string, number>>;
}

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
  const classes = partClasses(snapshot);
  const currency = settings.currency ?? commonCurrency(snapshot);
  const prices = priceList(snapshot, classes, currency, settings.rates);
  const bases = new Map<string, Base>();
  const measures = new WeakMap<Pmf, Measure>();
  const measured = (pmf: Pmf): Measure => {
    const known = measures.get(pmf);
    if (known !== undefined) return known;
    const log = logSufficiency(pmf);
    const byBase = new Map<number, Float64Array>();
    const fresh: Measure = {
      short: survival(pmf),
      from: (base) => {
        const held = byBase.get(base);
        if (held !== undefined) return held;
        const cut = base < log.length ? log.slice(base) : Float64Array.of(Math.log1p(-pmf.tail));
        byBase.set(base, cut);
        return cut;
      },
    };
    measures.set(pmf, fresh);
    return fresh;
  };
  const baseOf = (passage: Passage): Base => {
    const name = [passage.departsDay, passage.daysLongest, passage.marginDays].join(" ");
    const known = bases.get(name);
    if (known !== undefined) return known;
    const demand = vesselDemand(snapshot, classes, vessel, passage, settings.robbing);
    const stock = stockAboard(snapshot, vessel, usableUntilDay(passage));
    const fresh = { demand, stock };
    bases.set(name, fresh);
    return fresh;
  };
  return {
    classes,
    prices,
    currency,
    kitOf: (fitted, items, passage, targets, proof = "proven") => {
      const { demand: known, stock } = baseOf(passage);
      const changed = new Set(
        items.flatMap((item) => [snapshot.items.model[item] ?? -1, fitted.items.model[item] ?? -1]),
      );
      const demand = vesselDemand(fitted, classes, vessel, passage, settings.robbing, {
        demand: known,
        changed,
      });
      const drafts = demand.classes.map((need) => {
        const members = classes.members[need.partClass] ?? [];
        const total = (of: Float64Array): number =>
          members.reduce((sum, part) => sum + (of[part] ?? 0), 0);
        const usable = settings.ignoreAboard ? 0 : total(stock.usable);
        const { short, from } = measured(need.pmf);
        const part: KitPart = {
          logCdf: from(usable + need.credit),
          unitCost: prices.price(need.partClass).minor,
          tier: need.tier,
        };
        return { demand: need, usable, notUsable: total(stock.notUsable), short, part };
      });
      const answer = minimumKit(
        { parts: drafts.map(({ part }) => part), targets },
        proof === "proven" ? {} : { shouldStop: () => true },
      );
      const rows = drafts.map((draft, at) => ({ ...draft, buy: answer.buys[at] ?? 0 }));
      return { classes, demand, stock, prices, currency, rows, answer };
    },
  };
}

interface Base {
  readonly demand: VesselDemand;
  readonly stock: ReturnType<typeof stockAboard>;
}

interface Measure {
  readonly short: Float64Array;
  /** ln Pr(D <= base + x) for x = 0, 1, ... */
  readonly from: (base: number) => Float64Array;
}
