import { type StockAboard, stockAboard } from "../aboard/usable-stock.ts";
import { type Merging, type PartClasses, partClasses } from "../classes/part-classes.ts";
import { type Supersession, supersessionOf } from "../classes/supersession.ts";
import { type Pmf, pointMass, survival } from "../demand/pmf.ts";
import type { KitAnswer, KitPart, TierAnswer, TierTargets } from "../kit/kit-problem.ts";
import { minimumKit } from "../kit/minimum-kit.ts";
import type { Aim, SaleCaps } from "../packs/sale-problem.ts";
import type { Snapshot } from "../snapshot/snapshot.ts";
import { logSufficiency } from "../sufficiency/log-sufficiency.ts";
import type { ClassDemand } from "./class-demand.ts";
import { commonCurrency, type PriceList, priceList } from "./class-price.ts";
import { eachPartKit } from "./each-part-kit.ts";
import { insideKitsAboard } from "./kit-contents.ts";
import { type Passage, usableUntilDay } from "./passage.ts";
import {
  answerByRow,
  classGroups,
  groupLogSufficiency,
  type ProvisionGroup,
  treeAsPart,
} from "./provision-groups.ts";
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
  /** Merge only parts whose interchange is confirmed; else likely and unmarked pairs that touch no safety gear too. */
  readonly confirmedOnly?: boolean;
  readonly shouldStop?: () => boolean;
  /** Caps on what is bought, in whole minor units, grams and millilitres. */
  readonly caps?: SaleCaps;
  /** What the caps are for; the least kit at the targets when absent. */
  readonly aim?: Aim;
  /** Weight of ln sufficiency per tier where the most is sought. */
  readonly weights?: readonly [number, number, number];
}

/** One part class of the kit, with what it is measured by. */
export interface KitRow {
  readonly demand: ClassDemand;
  readonly usable: number;
  readonly notUsable: number;
  readonly buy: number;
  /** Pr(D > x) for x = 0, 1, ...: chance of running short with x pieces. Beyond the array: the left-out tail. */
  readonly short: Float64Array;
  /** The class by itself; where it stands in a supersession tree, its group's part is what was solved. */
  readonly part: KitPart;
  /** Place of its group. */
  readonly group: number;
}

export interface VesselKit {
  readonly classes: PartClasses;
  readonly supersession: Supersession;
  readonly demand: VesselDemand;
  readonly stock: StockAboard;
  readonly prices: PriceList;
  readonly currency: string;
  readonly rows: readonly KitRow[];
  /** Rows judged together, in the order the solver saw them. */
  readonly groups: readonly ProvisionGroup[];
  readonly answer: KitAnswer;
}

/** Chance of running short of a class by itself with `pieces` good pieces. */
export const shortWith = (row: Pick<KitRow, "short" | "demand">, pieces: number): number =>
  row.short[pieces] ?? row.demand.pmf.tail;

/**
 * Chance of running short of a row's class with `pieces(row)` spares of each row, credit added; where the class
 * stands in a supersession tree, of any class in that tree, since they share their pieces.
 */
export function shortOfRow(
  kit: Pick<VesselKit, "rows" | "groups">,
  at: number,
  pieces: (row: number) => number,
): number {
  const row = kit.rows[at];
  const group = kit.groups[row?.group ?? -1];
  if (row === undefined || group === undefined) return 0;
  if (group.rows.length === 1) return shortWith(row, pieces(at) + row.demand.credit);
  return -Math.expm1(groupLogSufficiency(group, kit.rows, pieces));
}

/** ln of the chance that a tier runs short of nothing with `pieces(row)` spares of each row, credit added. */
export function tierLogSufficiency(
  kit: Pick<VesselKit, "rows" | "groups">,
  tier: 0 | 1 | 2,
  pieces: (row: number) => number,
): number {
  const logs = kit.groups
    .filter((group) => group.part.tier === tier)
    .map((group) => groupLogSufficiency(group, kit.rows, pieces));
  // Smallest losses first: the sum is then the same whatever order the groups come in.
  return logs.sort((a, b) => b - a).reduce((sum, log) => sum + log, 0);
}

/** What several kits of one vessel have in common, worked out before; the demand is each kit's own. */
export interface KnownPieces
  extends Pick<VesselKit, "classes" | "supersession" | "stock" | "prices" | "currency" | "demand"> {
  /** Part classes anyone offers. */
  readonly offered: ReadonlySet<number>;
}

/** Part classes anyone offers. */
export function offeredClasses(snapshot: Snapshot, classes: PartClasses): ReadonlySet<number> {
  const offered = new Set<number>();
  for (const part of snapshot.offers.target) offered.add(classes.classOf[part] ?? -1);
  return offered;
}

/**
 * Returns the minimum kit of one vessel for one crossing, proven least, every piece bought singly at its share of a
 * pack; see sold-kit.ts for the kit as it is really sold.
 *
 * Per class p: base_p = usable stock + redundancy credit V_p; ln F_p(base_p + x) goes to the kit solver with the
 * unit cost under the objective. Source: METHODS sections 1, 2, 3 and 7; see minimum-kit.ts for the proof.
 *
 * @param known spares the work that several kits have in common
 */
export function vesselKit(
  snapshot: Snapshot,
  vessel: number,
  passage: Passage,
  settings: KitSettings,
  known: KnownPieces = kitPieces(snapshot, vessel, passage, settings),
): VesselKit {
  const { classes, supersession, demand, stock, prices, currency, offered } = known;
  const unit = unitCosts(snapshot, classes, prices, settings.objective);
  const needOf = new Map(demand.classes.map((need) => [need.partClass, need]));
  const inKits = insideKitsAboard(snapshot, classes, stock, (one) => needOf.has(one));
  const drafts: Omit<KitRow, "buy">[] = [];
  const groups: ProvisionGroup[] = [];
  for (const tree of classGroups([...needOf.keys()], supersession)) {
    const needs = settleTree(tree.map((one) => needOf.get(one) ?? noDemand(one)));
    const own = needs.map((need): Omit<KitRow, "buy"> => {
      const members = classes.members[need.partClass] ?? [];
      const total = (of: Float64Array): number => members.reduce((sum, p) => sum + (of[p] ?? 0), 0);
      const usable =
        settings.ignoreAboard === true
          ? 0
          : total(stock.usable) + (inKits.get(need.partClass) ?? 0);
      const logCdf = logSufficiencyFrom(need.pmf, usable + need.credit);
      return {
        demand: need,
        usable,
        notUsable: total(stock.notUsable),
        short: shortOf(need.pmf),
        part: { logCdf, unitCost: unit(need.partClass), tier: need.tier },
        group: groups.length,
      };
    });
    const rows = own.map((_, at) => drafts.length + at);
    drafts.push(...own);
    const newer = tree.map((one) => tree.indexOf(supersession.newer[one] ?? -1));
    const [only] = own;
    if (own.length === 1 && only !== undefined) {
      groups.push({ rows, newer, part: only.part });
      continue;
    }
    const olderOffered = tree.slice(0, -1).some((one) => offered.has(one));
    const links = own.map((row, at) => ({
      demand: row.demand.pmf,
      newer: newer[at] ?? -1,
      base: row.usable + row.demand.credit,
      unitCost: row.part.unitCost,
      buyable:
        offered.has(row.demand.partClass) ||
        (newer[at] === -1 && (row.demand.lines.length > 0 || !olderOffered)),
    }));
    groups.push({ rows, newer, ...treeAsPart(links, needs[0]?.tier ?? 1) });
  }
  const solved = solveGroups(groups, settings);
  const answer = answerByRow(solved, groups, drafts.length);
  const rows = drafts.map((draft, index) => ({ ...draft, buy: answer.buys[index] ?? 0 }));
  return { classes, supersession, demand, stock, prices, currency, rows, groups, answer };
}

/** What the kits of one vessel have in common, with the demand of one passage. */
export function kitPieces(
  snapshot: Snapshot,
  vessel: number,
  passage: Passage,
  settings: KitSettings,
): KnownPieces {
  const classes = partClasses(snapshot, mergingOf(settings, vessel));
  const currency = settings.currency ?? commonCurrency(snapshot);
  return {
    classes,
    supersession: supersessionOf(snapshot, classes),
    demand: vesselDemand(snapshot, classes, vessel, passage, settings.robbing),
    stock: stockAboard(snapshot, vessel, usableUntilDay(passage)),
    currency,
    prices: priceList(snapshot, classes, currency, settings.rates),
    offered: offeredClasses(snapshot, classes),
  };
}

/** How parts merge under these settings, for one vessel or for all of the picture. */
export const mergingOf = (
  { confirmedOnly }: Pick<KitSettings, "confirmedOnly">,
  vessel: number | undefined,
): Merging => ({
  ...(vessel === undefined ? {} : { vessel }),
  ...(confirmedOnly === undefined ? {} : { confirmedOnly }),
});

/** The least kit over groups, every piece bought singly, under the settings' rule and targets. */
export function solveGroups(groups: readonly ProvisionGroup[], settings: KitSettings): KitAnswer {
  const parts = groups.map((group) => group.part);
  const { targets } = settings;
  if (settings.rule !== "kit") return eachPartKit(parts, targets);
  const options = settings.shouldStop === undefined ? {} : { shouldStop: settings.shouldStop };
  const answer = minimumKit({ parts, targets }, options);
  if (groups.every((group) => group.steps?.complete !== false)) return answer;
  const bound = minimumKit(
    {
      parts: groups.map(({ part, steps }) =>
        steps === undefined
          ? part
          : { ...part, logCdf: steps.relaxed.logSufficiency, stepCost: steps.relaxed.cost },
      ),
      targets,
    },
    options,
  );
  return withLowerBounds(answer, bound);
}

/** Costs of one answer with the bounds of a problem that asks no more. */
function withLowerBounds(answer: KitAnswer, bound: KitAnswer): KitAnswer {
  const bounded = (tier: 0 | 1 | 2): TierAnswer => {
    const own = answer.tiers[tier];
    if (own.status === "infeasible") return own;
    const lowerBound = Math.min(own.cost, bound.tiers[tier].lowerBound);
    const status = own.cost > lowerBound ? "time-limited" : own.status;
    return { ...own, lowerBound, gap: own.cost - lowerBound, status };
  };
  const tiers = [bounded(0), bounded(1), bounded(2)] as const;
  const lowerBound = tiers.reduce((sum, tier) => sum + tier.lowerBound, 0);
  const isLimited = tiers.some((tier) => tier.status === "time-limited");
  const status = answer.status === "optimal" && isLimited ? "time-limited" : answer.status;
  return { ...answer, tiers, lowerBound, gap: answer.cost - lowerBound, status };
}

/** A class nothing fitted asks for, there to serve what it superseded. */
const noDemand = (partClass: number): ClassDemand => ({
  partClass,
  lines: [],
  pmf: pointMass(0),
  mean: 0,
  assumedMean: 0,
  evidence: "scheduled",
  tier: 2,
  isSafety: false,
  credit: 0,
});

/**
 * One tree stands in the strictest tier of its classes. Where any of them is safety gear, none takes credit: a piece
 * that a newer part saves so would thin out what safety draws on.
 */
function settleTree(needs: readonly ClassDemand[]): readonly ClassDemand[] {
  if (needs.length === 1) return needs;
  const tier = Math.min(...needs.map((need) => need.tier)) as 0 | 1 | 2;
  const isSafety = needs.some((need) => need.isSafety);
  return needs.map((need) => ({ ...need, tier, credit: isSafety ? 0 : need.credit }));
}

/** Kits solved again and again share most demands, so what is read off a demand is kept with it. */
const shorts = new WeakMap<Pmf, Float64Array>();
const logs = new WeakMap<Pmf, Float64Array>();

function kept<V>(memory: WeakMap<Pmf, V>, pmf: Pmf, make: (pmf: Pmf) => V): V {
  const known = memory.get(pmf);
  if (known !== undefined) return known;
  const fresh = make(pmf);
  memory.set(pmf, fresh);
  return fresh;
}

const shortOf = (pmf: Pmf): Float64Array => kept(shorts, pmf, survival);

/** ln Pr(D <= base + x) for x = 0, 1, ... as far as the demand's array goes. */
export function logSufficiencyFrom(pmf: Pmf, base: number): Float64Array {
  const log = kept(logs, pmf, logSufficiency);
  return base < log.length ? log.subarray(base) : Float64Array.of(Math.log1p(-pmf.tail));
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
  const { parts } = snapshot.imaginedFrom ?? snapshot;
  const known = [...(objective === "mass" ? parts.massKg : parts.volumeLitres)]
    .filter((value) => value > 0)
    .sort((a, b) => a - b);
  const median = known[Math.floor(known.length / 2)] ?? 0.001;
  return (partClass) => {
    const own = (classes.members[partClass] ?? [])
      .map((p) => column[p] ?? Number.NaN)
      .find((v) => v > 0);
    return Math.max(1, Math.ceil((own ?? median) * 1000 - 1e-9));
  };
}
