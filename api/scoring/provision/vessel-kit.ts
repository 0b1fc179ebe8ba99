import { type StockAboard, stockAboard } from "../aboard/usable-stock.ts";
import { type PartClasses, partClasses } from "../classes/part-classes.ts";
import { type Pmf, survival } from "../demand/pmf.ts";
import type { KitAnswer, KitPart, TierTargets } from "../kit/kit-problem.ts";
import { minimumKit } from "../kit/minimum-kit.ts";
import type { Snapshot } from "../snapshot/snapshot.ts";
import { logSufficiency } from "../sufficiency/log-sufficiency.ts";
import type { ClassDemand } from "./class-demand.ts";
import { commonCurrency, type PriceList, priceList } from "./class-price.ts";
import { eachPartKit } from "./each-part-kit.ts";
import { type Passage, usableUntilDay } from "./passage.ts";
import { type VesselDemand, vesselDemand } from "./vessel-demand.ts";

export type Objective = "cost" | "mass" | "volume" | "pieces";

export interface KitSettings {
  readonly targets: TierTargets;
  readonly objective: Objective;
  /** "kit": the product over a tier reaches its target. "each part": every part alone does. */
  readonly rule: "kit" | "each part";
  readonly robbing: boolean;
  readonly currency?: string;
  readonly rates: Readonly<Record<string, number>>;
  /** Size the kit as if the lockers were empty. */
  readonly ignoreAboard?: boolean;
  readonly shouldStop?: () => boolean;
}

/** One part class of the kit, with what it is measured by. */
export interface KitRow {
  readonly demand: ClassDemand;
  readonly usable: number;
  readonly notUsable: number;
  readonly buy: number;
  /** Pr(D > x) for x = 0, 1, ...: chance of running short with x pieces. Beyond the array: the left-out tail. */
  readonly short: Float64Array;
  readonly part: KitPart;
}

export interface VesselKit {
  readonly classes: PartClasses;
  readonly demand: VesselDemand;
  readonly stock: StockAboard;
  readonly prices: PriceList;
  readonly currency: string;
  readonly rows: readonly KitRow[];
  readonly answer: KitAnswer;
}

/** Chance of running short with `pieces` good pieces. */
export const shortWith = (row: Pick<KitRow, "short" | "demand">, pieces: number): number =>
  row.short[pieces] ?? row.demand.pmf.tail;

/**
 * Returns the minimum kit of one vessel for one crossing, proven least.
 *
 * Per class p: base_p = usable stock + redundancy credit V_p; ln F_p(base_p + x) goes to the kit solver with the
 * unit cost under the objective. Source: METHODS sections 1, 2, 3 and 7; see minimum-kit.ts for the proof.
 */
export function vesselKit(
  snapshot: Snapshot,
  vessel: number,
  passage: Passage,
  settings: KitSettings,
): VesselKit {
  const classes = partClasses(snapshot);
  const demand = vesselDemand(snapshot, classes, vessel, passage, settings.robbing);
  const stock = stockAboard(snapshot, vessel, usableUntilDay(passage));
  const currency = settings.currency ?? commonCurrency(snapshot);
  const prices = priceList(snapshot, classes, currency, settings.rates);
  const unit = unitCosts(snapshot, classes, prices, settings.objective);
  const drafts = demand.classes.map((need) => {
    const members = classes.members[need.partClass] ?? [];
    const total = (of: Float64Array): number => members.reduce((sum, p) => sum + (of[p] ?? 0), 0);
    const usable = settings.ignoreAboard === true ? 0 : total(stock.usable);
    const short = survival(need.pmf);
    const logCdf = logSufficiencyFrom(need.pmf, usable + need.credit);
    const part: KitPart = { logCdf, unitCost: unit(need.partClass), tier: need.tier };
    return { demand: need, usable, notUsable: total(stock.notUsable), short, part };
  });
  const parts = drafts.map((draft) => draft.part);
  const answer =
    settings.rule === "kit"
      ? minimumKit(
          { parts, targets: settings.targets },
          settings.shouldStop === undefined ? {} : { shouldStop: settings.shouldStop },
        )
      : eachPartKit(parts, settings.targets);
  const rows = drafts.map((draft, index) => ({ ...draft, buy: answer.buys[index] ?? 0 }));
  return { classes, demand, stock, prices, currency, rows, answer };
}

/** ln Pr(D <= base + x) for x = 0, 1, ... as far as the demand's array goes. */
export function logSufficiencyFrom(pmf: Pmf, base: number): Float64Array {
  const log = logSufficiency(pmf);
  return base < log.length ? log.slice(base) : Float64Array.of(Math.log1p(-pmf.tail));
}

/** Whole units of the objective per piece: minor units, grams, millilitres, pieces. Unknown = the median known. */
function unitCosts(
  snapshot: Snapshot,
  classes: PartClasses,
  prices: PriceList,
  objective: Objective,
): (partClass: number) => number {
  if (objective === "pieces") return () => 1;
  if (objective === "cost") return (partClass) => prices.price(partClass).minor;
  const column = objective === "mass" ? snapshot.parts.massKg : snapshot.parts.volumeLitres;
  const known = [...column].filter((value) => value > 0).sort((a, b) => a - b);
  const median = known[Math.floor(known.length / 2)] ?? 0.001;
  return (partClass) => {
    const own = (classes.members[partClass] ?? [])
      .map((p) => column[p] ?? Number.NaN)
      .find((v) => v > 0);
    return Math.max(1, Math.ceil((own ?? median) * 1000 - 1e-9));
  };
}
