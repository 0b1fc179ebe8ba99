import { stockAboard } from "../aboard/usable-stock.ts";
import { type PartClasses, partClasses } from "../classes/part-classes.ts";
import { supersessionOf } from "../classes/supersession.ts";
import type { TierTargets } from "../kit/kit-problem.ts";
import { commonCurrency, type PriceList, priceList } from "../provision/class-price.ts";
import type { SoldKit } from "../provision/kit-sale.ts";
import { type Passage, usableUntilDay } from "../provision/passage.ts";
import { soldKit } from "../provision/sold-kit.ts";
import { type VesselDemand, vesselDemand } from "../provision/vessel-demand.ts";
import {
  type KitSettings,
  type KnownPieces,
  mergingOf,
  offeredClasses,
  type VesselKit,
  vesselKit,
} from "../provision/vessel-kit.ts";
import type { Snapshot } from "../snapshot/snapshot.ts";

export interface FittedKitSettings
  extends Omit<KitSettings, "targets" | "objective" | "rule" | "shouldStop"> {
  /** The safety gear of every vessel in the picture says which parts merge, so that vessels can be set side by side. */
  readonly fleetClasses?: boolean;
}

/** Solves the kit of one vessel with other gear fitted, again and again, at one price list. */
export interface FittedKits {
  readonly classes: PartClasses;
  readonly prices: PriceList;
  readonly currency: string;
  /**
   * The least-cost kit, as it is sold, of the vessel in `fitted`, a snapshot that differs from the one these kits are of only in the
   * gear at `items`: other models, new ones, or items added at the end. Where service kits are too entangled for the
   * fast methods `sale.isSettled` is false, and the kit one that reaches the targets.
   */
  readonly kitOf: (
    fitted: Snapshot,
    items: readonly number[],
    passage: Passage,
    targets: TierTargets,
  ) => SoldKit;
  /** The same, from the kit by the piece that `pieceKit` returned, `bounded`, for the same gear, passage and targets. */
  readonly soldFrom: (fitted: Snapshot, targets: TierTargets, pieces: VesselKit) => SoldKit;
  /**
   * The same with every piece bought singly at its share of a pack. `bounded` stops before the proof: a kit that reaches
   * the targets, and a bound no such kit goes below.
   */
  readonly pieceKit: (
    fitted: Snapshot,
    items: readonly number[],
    passage: Passage,
    targets: TierTargets,
    proof?: "proven" | "bounded",
  ) => VesselKit;
}

/**
 * Returns a solver of kits at equal protection for one vessel with different gear. Each kit equals `vesselKitAsSold` by
 * cost with rule "kit"; what does not change between two calls (price list, stock, the demand of other gear) is computed
 * once, which is what makes trying many makes, lengths and targets quick.
 * Source: METHODS, choosing gear; oracle: vesselKitAsSold.
 */
export function fittedKits(
  snapshot: Snapshot,
  vessel: number,
  settings: FittedKitSettings,
): FittedKits {
  const currency = settings.currency ?? commonCurrency(snapshot);
  const merge = (fitted: Snapshot): Merged => {
    const gearOf = settings.fleetClasses === true ? undefined : vessel;
    const classes = partClasses(fitted, mergingOf(settings, gearOf));
    return {
      classes,
      prices: priceList(fitted, classes, currency, settings.rates),
      supersession: supersessionOf(fitted, classes),
      offered: offeredClasses(fitted, classes),
    };
  };
  const merged = merge(snapshot);
  const { classes, prices } = merged;
  const anew = new Map<string, Merged>();
  /** Other gear where safety rests on it makes other parts safety parts, which merge by confirmed pairs only. */
  const mergedFor = (fitted: Snapshot, items: readonly number[]): Merged => {
    if (!hasUnconfirmed(snapshot) || !items.some((item) => servesSafety(fitted, item)))
      return merged;
    const name = items.map((item) => `${item}:${fitted.items.model[item]}`).join(" ");
    const known = anew.get(name) ?? merge(fitted);
    anew.set(name, known);
    return known;
  };
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
  const settingsFor = (targets: TierTargets): KitSettings => ({
    ...settings,
    targets,
    objective: "cost",
    rule: "kit",
  });
  const byPiece = (
    fitted: Snapshot,
    items: readonly number[],
    passage: Passage,
    asked: KitSettings,
  ): VesselKit => {
    const base = baseOf(passage);
    const own = mergedFor(fitted, items);
    const changed = new Set(
      items.flatMap((item) => [snapshot.items.model[item] ?? -1, fitted.items.model[item] ?? -1]),
    );
    const demand =
      items.length === 0
        ? base.demand
        : vesselDemand(fitted, own.classes, vessel, passage, settings.robbing, {
            demand: base.demand,
            changed,
          });
    const known = { ...own, stock: base.stock, currency, demand };
    return vesselKit(fitted, vessel, passage, asked, known);
  };
  return {
    classes,
    prices,
    currency,
    kitOf: (fitted, items, passage, targets) => {
      const asked = settingsFor(targets);
      // Packs and service kits are proven anew, so the kit by the piece need not be, unless it stands.
      const unproven = { ...asked, shouldStop: () => true };
      return soldKit(fitted, asked, byPiece(fitted, items, passage, unproven));
    },
    soldFrom: (fitted, targets, pieces) => soldKit(fitted, settingsFor(targets), pieces),
    pieceKit: (fitted, items, passage, targets, proof = "proven") =>
      byPiece(fitted, items, passage, {
        ...settingsFor(targets),
        ...(proof === "proven" ? {} : { shouldStop: () => true }),
      }),
  };
}

/** What follows from which parts merge. */
type Merged = Pick<KnownPieces, "classes" | "prices" | "supersession" | "offered">;

const hasUnconfirmed = ({ interchange }: Snapshot): boolean =>
  interchange.confidence.some((sure) => sure === 0 || sure === 2);

const servesSafety = ({ serves, functions }: Snapshot, item: number): boolean =>
  serves.target
    .subarray(serves.start[item], serves.start[item + 1])
    .some((row) => functions.tier[row] === 0);

interface Base {
  readonly demand: VesselDemand;
  readonly stock: ReturnType<typeof stockAboard>;
}
