import type { KitAnswer, TierAnswer } from "../kit/kit-problem.ts";
import { judgeSale } from "../packs/judge-sale.ts";
import { type PackOffer, packOffer, partCover } from "../packs/part-cover.ts";
import type { Aim, SaleAnswer, SalePart, SaleProblem } from "../packs/sale-problem.ts";
import { solvePacks } from "../packs/solve-packs.ts";
import type { SaleOutcome } from "../packs/solve-sale.ts";
import type { Snapshot } from "../snapshot/snapshot.ts";
import { type Inside, kitContents } from "./kit-contents.ts";
import type { Passage } from "./passage.ts";
import { type PieceSizes, pieceSizes } from "./piece-sizes.ts";
import { saleOffers, type VesselOffer, wanted } from "./sale-offers.ts";
import {
  type KitRow,
  type KitSettings,
  logSufficiencyFrom,
  type VesselKit,
  vesselKit,
} from "./vessel-kit.ts";

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

/** Returns the kit of one vessel for one crossing as it is really sold: vessel-kit.ts, then `soldKit`. */
export function vesselKitAsSold(
  snapshot: Snapshot,
  vessel: number,
  passage: Passage,
  settings: KitSettings,
): SoldKit {
  return soldKit(snapshot, settings, vesselKit(snapshot, vessel, passage, settings));
}

/**
 * Returns the kit as it is really sold: packs, least orders and service kits weighed against single pieces.
 *
 * Where every class asked for is cheapest by the single piece and no service kit holds any, the kit stands as the
 * fast exact method found it. Else solve-packs.ts sizes it anew. With caps, or where that method gives up, the kit
 * returned is the best known so far and `isSettled` is false: `settledKit` takes a solver's answer.
 */
function soldKit(snapshot: Snapshot, settings: KitSettings, kit: VesselKit): SoldKit {
  const { offers, problem } = saleOf(snapshot, settings, kit);
  if (settings.rule !== "kit") return withPurchases(kit, problem, offers, byPacks(kit, problem));
  const isCapped = Object.keys(problem.caps).length > 0;
  const units = isCapped ? undefined : singleUnits(kit, problem);
  if (units !== undefined) {
    const answer = { units, method: "steps" as const, repaired: false };
    return withPurchases(kit, problem, offers, answer);
  }
  const free = { ...problem, caps: {}, aim: "least" as const };
  const solved = solvePacks(free, settings.shouldStop);
  // Where service kits are too entangled: the same without them stands until a solver has answered.
  const answer =
    solved ?? solvePacks({ ...free, offers: withoutKits(problem) }, settings.shouldStop);
  if (answer === undefined) {
    return withPurchases(kit, problem, offers, byPacks(kit, problem), false);
  }
  const isWhole = kit.groups.every((group) => group.steps?.complete !== false);
  const isProven = solved?.status === "optimal" && isWhole;
  const sold = withAnswer(kit, problem, offers, answer, isProven ? "optimal" : "unproven");
  return isCapped || solved?.status !== "optimal"
    ? { ...sold, sale: { ...sold.sale, isSettled: false } }
    : sold;
}

/** Returns the kit bought as a solver answered. */
export function settledKit(kit: SoldKit, outcome: SaleOutcome): SoldKit {
  const { problem, offers } = kit.sale;
  const { answer } = outcome;
  const sold = withAnswer(kit, problem, offers, answer, answer.status, !outcome.isFallback);
  const isCapped = Object.keys(problem.caps).length > 0;
  return {
    ...sold,
    sale: {
      ...sold.sale,
      isSettled: true,
      ...(isCapped
        ? {
            outcome: {
              isSafe: outcome.isSafe,
              isFallback: outcome.isFallback,
              needs: outcome.needs,
              aim: outcome.isFallback || !outcome.isSafe ? ("most" as const) : problem.aim,
              value: answer.value,
              bound: answer.bound,
            },
          }
        : {}),
    },
  };
}

function saleOf(
  snapshot: Snapshot,
  settings: KitSettings,
  kit: VesselKit,
): { readonly offers: readonly VesselOffer[]; readonly problem: SaleProblem } {
  const { classes, rows, groups, stock } = kit;
  // A part of the sale problem is a group of the kit: a class by itself, or a supersession tree taken whole.
  const asked = groups.flatMap((group, place) => {
    const row = soleRow(kit, place);
    return group.steps !== undefined || row === undefined
      ? []
      : [{ partClass: row.demand.partClass, place }];
  });
  const placeOf = new Map(asked.map(({ partClass, place }) => [partClass, place]));
  const askedClasses = new Set(rows.map((row) => row.demand.partClass));
  const contents = kitContents(snapshot, classes, (partClass) => askedClasses.has(partClass));
  const sizes = pieceSizes(snapshot, classes);
  const offers: VesselOffer[] = [
    ...saleOffers(
      {
        snapshot,
        classes,
        sizes,
        currency: kit.currency,
        rates: settings.rates,
        standIn: kit.prices.standIn,
        contents,
      },
      asked,
    ),
  ];
  const openable = new Set<number>();
  for (const [part, inside] of settings.ignoreAboard === true ? [] : contents) {
    const place = placeOf.get(classes.classOf[part] ?? -1);
    const aboard = stock.usable[part] ?? 0;
    if (place === undefined || aboard <= 0) continue;
    const gives = wanted(inside, 1, classes, placeOf);
    if (gives.length === 0) continue;
    openable.add(place);
    offers.push(openOffer(part, inside, [{ part: place, pieces: -1 }, ...gives], aboard));
  }
  groups.forEach((group, place) => {
    group.steps?.buys.forEach((buys, step) => {
      if (step > 0) offers.push(treeOffer(kit, place, step, buys, sizes));
    });
  });
  const parts = groups.map((group, place): SalePart => {
    const { logCdf, tier } = group.part;
    const row = soleRow(kit, place);
    if (row === undefined || !openable.has(place)) return { logCdf, tier };
    return {
      logCdf: logSufficiencyFrom(row.demand.pmf, row.demand.credit),
      tier,
      held: row.usable,
    };
  });
  // A tier no stock can bring to its target is told as such; the others are provided for.
  const target = (tier: 0 | 1 | 2): number | undefined =>
    kit.answer.tiers[tier].status === "infeasible" ? undefined : settings.targets[tier];
  return {
    offers,
    problem: {
      parts,
      offers: offers.map((offer) => offer.sale),
      targets: [target(0), target(1), target(2)],
      objective: settings.objective,
      caps: settings.caps ?? {},
      aim: settings.aim ?? "least",
      weights: settings.weights ?? defaultWeights,
    },
  };
}

const soleRow = (kit: VesselKit, place: number): KitRow | undefined => {
  const group = kit.groups[place];
  return group?.rows.length === 1 ? kit.rows[group.rows[0] ?? -1] : undefined;
};

/** One undominated way of buying for a supersession tree, every piece at its share of a pack. */
function treeOffer(
  kit: VesselKit,
  place: number,
  step: number,
  buys: Int32Array,
  sizes: PieceSizes,
): VesselOffer {
  const bought = (kit.groups[place]?.rows ?? []).map((row, link) => ({
    partClass: kit.rows[row]?.demand.partClass ?? -1,
    pieces: buys[link] ?? 0,
  }));
  const total = (each: (partClass: number) => number): number =>
    bought.reduce((sum, { partClass, pieces }) => sum + each(partClass) * pieces, 0);
  return {
    kind: "tree",
    part: -1,
    supplier: -1,
    pack: 1,
    priceMinor: total((one) => kit.prices.price(one).minor),
    leadTimeDays: Number.NaN,
    inside: [],
    isMassKnown: bought.every((b) => b.pieces === 0 || sizes.mass(b.partClass).isKnown),
    isVolumeKnown: bought.every((b) => b.pieces === 0 || sizes.volume(b.partClass).isKnown),
    sale: {
      contents: [{ part: place, pieces: step }],
      uses: {
        cost: total((one) => kit.prices.price(one).minor),
        mass: total((one) => sizes.mass(one).units),
        volume: total((one) => sizes.volume(one).units),
        pieces: total(() => 1),
      },
      most: 1,
      oneOf: place,
    },
  };
}

function openOffer(
  part: number,
  inside: readonly Inside[],
  contents: VesselOffer["sale"]["contents"],
  most: number,
): VesselOffer {
  return {
    kind: "aboard",
    part,
    supplier: -1,
    pack: 1,
    priceMinor: 0,
    leadTimeDays: Number.NaN,
    inside,
    isMassKnown: true,
    isVolumeKnown: true,
    sale: { contents, uses: { cost: 0, mass: 0, volume: 0, pieces: 0 }, most },
  };
}

/** The step of a tree that buys what its rows buy; 0 where they buy nothing. */
function stepTaken(kit: VesselKit, place: number): number {
  const group = kit.groups[place];
  const own = group?.rows.map((row) => kit.rows[row]?.buy ?? 0) ?? [];
  const found = group?.steps?.buys.findIndex((buys) => own.every((buy, at) => buys[at] === buy));
  return Math.max(0, found ?? 0);
}

/**
 * Units of single pieces that give the kit as the fast method found it; undefined where something is sold otherwise
 * at a price that might pay: a pack or a service kit, or a least order on what is bought.
 */
function singleUnits(kit: VesselKit, { offers, objective }: SaleProblem): Int32Array | undefined {
  const units = new Int32Array(offers.length);
  const best = new Int32Array(kit.groups.length).fill(-1);
  for (const [u, offer] of offers.entries()) {
    const [only] = offer.contents;
    if (only === undefined || offer.contents.length > 1) return undefined;
    if (offer.oneOf !== undefined) {
      if (only.pieces === stepTaken(kit, only.part)) units[u] = 1;
      continue;
    }
    if (only.pieces !== 1 || (offer.least ?? 1) > 1) return undefined;
    const known = offers[best[only.part] ?? -1];
    if (known === undefined || offer.uses[objective] < known.uses[objective]) best[only.part] = u;
  }
  for (const place of kit.groups.keys()) {
    const row = soleRow(kit, place);
    if (row === undefined) continue;
    const u = best[place] ?? -1;
    if (u < 0 || offers[u]?.uses[objective] !== row.part.unitCost) return undefined;
    units[u] = row.buy;
  }
  return units;
}

const withoutKits = ({ offers }: SaleProblem): SaleProblem["offers"] =>
  offers.map((offer) => (offer.contents.length > 1 ? { ...offer, contents: [], most: 0 } : offer));

/** Buys what the kit asks for by the cheapest packs of each part by itself. */
function byPacks(
  kit: VesselKit,
  { offers, objective }: SaleProblem,
): Pick<SaleAnswer, "units" | "method" | "repaired"> {
  const units = new Int32Array(offers.length);
  const packs = kit.groups.map((): PackOffer[] => []);
  offers.forEach((offer, u) => {
    const [only] = offer.contents;
    if (offer.oneOf !== undefined) {
      if (only !== undefined && only.pieces === stepTaken(kit, only.part)) units[u] = 1;
    } else if (offer.contents.length === 1 && only !== undefined && only.pieces > 0)
      packs[only.part]?.push(packOffer(offer, u, offer.uses[objective]));
  });
  kit.groups.forEach((_, place) => {
    const row = soleRow(kit, place);
    if (row === undefined || row.buy === 0) return;
    for (const [u, count] of partCover(packs[place] ?? [], row.buy).units(row.buy))
      units[u] = (units[u] ?? 0) + count;
  });
  return { units, method: "packs", repaired: false };
}

/** The kit with these purchases: rows, costs and chances reckoned from what the units really give. */
function withPurchases(
  kit: VesselKit,
  problem: SaleProblem,
  offers: readonly VesselOffer[],
  bought: Pick<SaleAnswer, "units" | "method" | "repaired" | "stowed">,
  isSettled = true,
): SoldKit {
  const judged = judgeSale(problem, bought.units);
  const opened = new Int32Array(kit.groups.length);
  const step = new Int32Array(kit.groups.length);
  offers.forEach((offer, u) => {
    const count = bought.units[u] ?? 0;
    if (count === 0) return;
    for (const { part, pieces } of offer.sale.contents) {
      if (offer.kind === "aboard") opened[part] = (opened[part] ?? 0) + pieces * count;
      if (offer.kind === "tree") step[part] = pieces;
    }
  });
  const rows = kit.rows.map((row, at): KitRow => {
    const place = row.group;
    const group = kit.groups[place];
    if (group?.steps !== undefined) {
      const link = group.rows.indexOf(at);
      return { ...row, buy: group.steps.buys[step[place] ?? 0]?.[link] ?? 0 };
    }
    const held = problem.parts[place]?.held ?? 0;
    const moved = opened[place] ?? 0;
    return {
      ...row,
      usable: row.usable + moved,
      buy: (judged.pieces[place] ?? 0) - held - moved,
    };
  });
  const tierCost = [0, 0, 0];
  offers.forEach((offer, u) => {
    const count = bought.units[u] ?? 0;
    if (count === 0) return;
    const tiers = offer.sale.contents.map(({ part }) => problem.parts[part]?.tier ?? 2);
    const tier = Math.min(...tiers);
    tierCost[tier] = (tierCost[tier] ?? 0) + offer.sale.uses[problem.objective] * count;
  });
  const tierOf = (tier: 0 | 1 | 2): TierAnswer => {
    const before = kit.answer.tiers[tier];
    const cost = tierCost[tier] ?? 0;
    return {
      ...before,
      cost,
      lowerBound: before.status === "optimal" ? cost : Math.min(cost, before.lowerBound),
      gap: before.status === "optimal" ? 0 : Math.max(0, cost - before.lowerBound),
      sufficiency: Math.exp(judged.log[tier]),
    };
  };
  const tiers = [tierOf(0), tierOf(1), tierOf(2)] as const;
  const cost = judged.uses[problem.objective];
  const lowerBound = tiers.reduce((sum, tier) => sum + tier.lowerBound, 0);
  const purchases = offers.flatMap((offer, u): Purchase[] => {
    const units = bought.units[u] ?? 0;
    if (units === 0) return [];
    const lockers = bought.stowed?.[u] ?? [];
    if (offer.kind === "tree") return treePurchases(kit, offer, lockers);
    const given = offer.sale.contents.map(({ part, pieces }) => ({
      row: kit.groups[part]?.rows[0] ?? -1,
      pieces,
    }));
    return [{ offer, units, rows: given, lockers }];
  });
  const answer: KitAnswer = {
    ...kit.answer,
    buys: Int32Array.from(rows, (row) => row.buy),
    cost,
    lowerBound,
    gap: cost - lowerBound,
    sufficiency: [tiers[0].sufficiency, tiers[1].sufficiency, tiers[2].sufficiency],
    tiers,
  };
  const { method, repaired } = bought;
  const sale = { problem, offers, purchases, method, isSettled, repaired, uses: judged.uses };
  return { ...kit, rows, answer, sale };
}

/** A way of buying for a supersession tree, told part by part; sizes of a piece are the mean over the tree's pieces. */
function treePurchases(kit: VesselKit, tree: VesselOffer, lockers: readonly number[]): Purchase[] {
  const [content] = tree.sale.contents;
  const group = kit.groups[content?.part ?? -1];
  const buys = group?.steps?.buys[content?.pieces ?? 0];
  return (group?.rows ?? []).flatMap((row, link): Purchase[] => {
    const units = buys?.[link] ?? 0;
    if (units === 0) return [];
    const partClass = kit.rows[row]?.demand.partClass ?? -1;
    const price = kit.prices.price(partClass);
    const part = price.part >= 0 ? price.part : (kit.classes.members[partClass]?.[0] ?? 0);
    const share = (of: "mass" | "volume"): number =>
      Math.round(tree.sale.uses[of] / Math.max(1, tree.sale.uses.pieces));
    const offer: VesselOffer = {
      ...tree,
      kind: "piece",
      part,
      supplier: price.supplier,
      priceMinor: price.minor,
      leadTimeDays: price.leadTimeDays,
      inside: [{ part, pieces: 1 }],
      sale: {
        contents: tree.sale.contents,
        uses: { cost: price.minor, mass: share("mass"), volume: share("volume"), pieces: 1 },
      },
    };
    const places = Array.from({ length: lockers.length === 0 ? 0 : units }, () => lockers[0] ?? 0);
    return [{ offer, units, rows: [{ row, pieces: 1 }], lockers: places }];
  });
}

/** The kit as the solver of packs, or a mixed-integer solver, answered: its status and bound stand for the whole. */
function withAnswer(
  kit: VesselKit,
  problem: SaleProblem,
  offers: readonly VesselOffer[],
  answer: SaleAnswer,
  status: SaleAnswer["status"],
  isLeast = true,
): SoldKit {
  const sold = withPurchases(kit, problem, offers, answer);
  const isInfeasible = status === "infeasible" || kit.answer.status === "infeasible";
  const overall = isInfeasible ? "infeasible" : status === "unproven" ? "time-limited" : "optimal";
  const lowerBound = isLeast && problem.aim === "least" ? answer.bound : sold.answer.cost;
  const tiers = sold.answer.tiers.map((tier): TierAnswer => {
    if (tier.status === "infeasible") return tier;
    return {
      ...tier,
      status: status === "unproven" ? "time-limited" : "optimal",
      lowerBound: status === "unproven" ? 0 : tier.cost,
      gap: status === "unproven" ? tier.cost : 0,
    };
  });
  const [safety, passage, comfort] = tiers;
  if (safety === undefined || passage === undefined || comfort === undefined) return sold;
  return {
    ...sold,
    answer: {
      ...sold.answer,
      status: overall,
      tiers: [safety, passage, comfort],
      lowerBound,
      gap: Math.max(0, sold.answer.cost - lowerBound),
    },
  };
}
