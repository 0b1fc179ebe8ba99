import type { PartClasses } from "../classes/part-classes.ts";
import type { Content, SaleOffer } from "../packs/sale-problem.ts";
import type { Snapshot } from "../snapshot/snapshot.ts";
import { currencyFactor } from "./class-price.ts";
import type { Inside } from "./kit-contents.ts";
import type { PieceSizes } from "./piece-sizes.ts";

/** Something a supplier sells that gives pieces the vessel asks for, or a service kit aboard that may be opened. */
export interface VesselOffer {
  /**
   * "piece": one part class, one or more to a pack, from a supplier or at the stand-in price. "kit": a service kit,
   * opened. "aboard": a service kit aboard, opened. "tree": a way of buying for parts that supersede one another.
   */
  readonly kind: "piece" | "kit" | "aboard" | "tree";
  /** Row of the part bought or opened. */
  readonly part: number;
  /** -1 where nobody offers it and a price stands in, and for kits aboard. */
  readonly supplier: number;
  /** Pieces (or kits) in one unit bought. */
  readonly pack: number;
  /** Minor units for one unit. */
  readonly priceMinor: number;
  readonly leadTimeDays: number;
  /** Everything one unit gives, what nothing aboard asks for included. */
  readonly inside: readonly Inside[];
  readonly isMassKnown: boolean;
  readonly isVolumeKnown: boolean;
  readonly sale: SaleOffer;
}

/** A part class asked for, as far as buying goes: its place among the parts of the sale problem. */
export interface AskedClass {
  readonly partClass: number;
  readonly place: number;
}

export interface OfferSources {
  readonly snapshot: Snapshot;
  readonly classes: PartClasses;
  readonly sizes: PieceSizes;
  readonly currency: string;
  readonly rates: Readonly<Record<string, number>>;
  /** Minor units that stand in for a class nobody prices. */
  readonly standIn: (partClass: number) => number;
  readonly contents: ReadonlyMap<number, readonly Inside[]>;
}

/**
 * Returns every way to get pieces of the classes asked for: each supplier's offer of a member of the class, by its
 * pack, with the least order rounded up to whole packs; each offer of a service kit that holds such pieces; a single
 * piece at the stand-in price where nobody prices the class.
 *
 * Price of a unit = price of the offer × rate, rounded up to a whole minor unit. Offers without a price, or in a
 * currency without a rate, are left out. A service kit weighs what is stated for it, else what is inside.
 * O(offers + contents).
 */
export function saleOffers(
  sources: OfferSources,
  asked: readonly AskedClass[],
): readonly VesselOffer[] {
  const { snapshot, classes, sizes, contents } = sources;
  const { offers, suppliers, parts } = snapshot;
  const factor = currencyFactor(sources.currency, sources.rates);
  const placeOf = new Map(asked.map(({ partClass, place }) => [partClass, place]));
  const found: VesselOffer[] = [];
  const priced = new Set<number>();
  for (let supplier = 0; supplier < suppliers.id.length; supplier++) {
    const end = offers.start[supplier + 1] ?? 0;
    for (let offer = offers.start[supplier] ?? 0; offer < end; offer++) {
      const part = offers.target[offer] ?? 0;
      const place = placeOf.get(classes.classOf[part] ?? -1);
      const inside = contents.get(part);
      if (place === undefined && inside === undefined) continue;
      const times = factor(offers.currency[offer] ?? "");
      const price = offers.priceMinor[offer] ?? Number.NaN;
      if (!(price > 0) || times === undefined) continue;
      const whole = (column: Float64Array): number => {
        const stated = column[offer] ?? Number.NaN;
        return Number.isNaN(stated) ? 1 : Math.max(1, Math.floor(stated));
      };
      const pack = whole(offers.packSize);
      const least = Math.max(1, Math.ceil(whole(offers.minimumOrder) / pack));
      const common = {
        part,
        supplier,
        pack,
        priceMinor: Math.ceil(price * times - 1e-9),
        leadTimeDays: offers.leadTimeDays[offer] ?? Number.NaN,
      };
      if (place !== undefined) {
        priced.add(place);
        found.push(pieceOffer(common, place, classes.classOf[part] ?? -1, least, sizes));
      }
      if (inside === undefined) continue;
      const gives = wanted(inside, pack, classes, placeOf);
      if (gives.length > 0)
        found.push(kitOffer(common, { inside, gives, least, kit: part, parts, classes, sizes }));
    }
  }
  for (const { partClass, place } of asked) {
    if (priced.has(place)) continue;
    const part = classes.members[partClass]?.[0] ?? 0;
    const common = { part, supplier: -1, pack: 1, priceMinor: sources.standIn(partClass) };
    found.push(pieceOffer({ ...common, leadTimeDays: Number.NaN }, place, partClass, 1, sizes));
  }
  return found;
}

type Common = Pick<VesselOffer, "part" | "supplier" | "pack" | "priceMinor" | "leadTimeDays">;

function pieceOffer(
  common: Common,
  place: number,
  partClass: number,
  least: number,
  sizes: PieceSizes,
): VesselOffer {
  const mass = sizes.mass(partClass);
  const volume = sizes.volume(partClass);
  return {
    ...common,
    kind: "piece",
    inside: [{ part: common.part, pieces: common.pack }],
    isMassKnown: mass.isKnown,
    isVolumeKnown: volume.isKnown,
    sale: {
      contents: [{ part: place, pieces: common.pack }],
      uses: {
        cost: common.priceMinor,
        mass: mass.units * common.pack,
        volume: volume.units * common.pack,
        pieces: common.pack,
      },
      ...(least > 1 ? { least } : {}),
    },
  };
}

interface KitFacts {
  readonly inside: readonly Inside[];
  readonly gives: readonly Content[];
  readonly least: number;
  readonly kit: number;
  readonly parts: Snapshot["parts"];
  readonly classes: PartClasses;
  readonly sizes: PieceSizes;
}

function kitOffer(common: Common, facts: KitFacts): VesselOffer {
  const { inside, gives, least, kit, parts, classes, sizes } = facts;
  const sized = (column: Float64Array, of: PieceSizes["mass"]): [units: number, known: boolean] => {
    const stated = column[kit] ?? Number.NaN;
    if (stated > 0) return [Math.ceil(stated * 1000 - 1e-9), true];
    const each = inside.map(({ part, pieces }) => ({
      pieces,
      ...of(classes.classOf[part] ?? -1),
    }));
    return [
      each.reduce((sum, size) => sum + size.units * size.pieces, 0),
      each.every((size) => size.isKnown),
    ];
  };
  const [mass, isMassKnown] = sized(parts.massKg, sizes.mass);
  const [volume, isVolumeKnown] = sized(parts.volumeLitres, sizes.volume);
  const perUnit = inside.map(({ part, pieces }) => ({ part, pieces: pieces * common.pack }));
  return {
    ...common,
    kind: "kit",
    inside: perUnit,
    isMassKnown,
    isVolumeKnown,
    sale: {
      contents: gives,
      uses: {
        cost: common.priceMinor,
        mass: mass * common.pack,
        volume: volume * common.pack,
        pieces: perUnit.reduce((sum, { pieces }) => sum + pieces, 0),
      },
      ...(least > 1 ? { least } : {}),
    },
  };
}

/** What of a kit's contents the vessel asks for, added up by class. */
export function wanted(
  inside: readonly Inside[],
  kits: number,
  classes: PartClasses,
  placeOf: ReadonlyMap<number, number>,
): readonly Content[] {
  const sum = new Map<number, number>();
  for (const { part, pieces } of inside) {
    const place = placeOf.get(classes.classOf[part] ?? -1);
    if (place !== undefined) sum.set(place, (sum.get(place) ?? 0) + pieces * kits);
  }
  return [...sum].map(([part, pieces]) => ({ part, pieces }));
}
