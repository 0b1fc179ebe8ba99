import type { SalePart, SaleProblem } from "../packs/sale-problem.ts";
import type { Snapshot } from "../snapshot/snapshot.ts";
import { type Inside, kitContents } from "./kit-contents.ts";
import { defaultWeights } from "./kit-sale.ts";
import { type PieceSizes, pieceSizes } from "./piece-sizes.ts";
import { saleOffers, type VesselOffer, wanted } from "./sale-offers.ts";
import { type KitRow, type KitSettings, logSufficiencyFrom, type VesselKit } from "./vessel-kit.ts";

/**
 * Returns a vessel's kit as a problem of packs and service kits: what is asked for, group by group, and every way on sale,
 * or aboard, to get it. A tier that no stock brings to its target gets none: it is told as such, the others are provided for.
 */
export function saleOf(
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
        standIn: (partClass) => kit.prices.price(partClass).minor,
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

/** The one class of a group; undefined where the group is a supersession tree. */
export const soleRow = (kit: VesselKit, place: number): KitRow | undefined => {
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
