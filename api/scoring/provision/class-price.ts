import { minorDigits } from "../../../graph-schema/index.ts";
import { type PartClasses, partClasses } from "../classes/part-classes.ts";
import type { GearPicture } from "../snapshot/snapshot.ts";

/** The least price of one piece of a part class, and who asks it. */
export interface ClassPrice {
  /** Minor units of the planning currency, a whole number, rounded up. */
  readonly minor: number;
  readonly assumed: boolean;
  /** Part row the price is of; -1 when assumed. */
  readonly part: number;
  /** Supplier row; -1 when assumed. */
  readonly supplier: number;
  readonly leadTimeDays: number;
  readonly soldInPacks: boolean;
}

export interface PriceList {
  readonly price: (partClass: number) => ClassPrice;
  /** Currencies of offers that could not be counted for want of a rate. */
  readonly withoutRate: readonly string[];
  /** The stand-in price, minor units; 1 when no price at all is known. */
  readonly standIn: number;
  readonly anyKnown: boolean;
}

/** The currency most offers are made in; EUR when there are none. Ties by code. */
export function commonCurrency(snapshot: GearPicture): string {
  if (snapshot.imaginedFrom !== undefined) return commonCurrency(snapshot.imaginedFrom);
  const counts = new Map<string, number>();
  for (const code of snapshot.offers.currency)
    if (code !== "") counts.set(code, (counts.get(code) ?? 0) + 1);
  return [...counts].sort((a, b) => b[1] - a[1] || (a[0] < b[0] ? -1 : 1))[0]?.[0] ?? "EUR";
}

/** Returns the minor units of the planning currency that one minor unit of another is worth; undefined without a rate. */
export function currencyFactor(
  currency: string,
  rates: Readonly<Record<string, number>>,
): (code: string) => number | undefined {
  const known = new Map<string, number>();
  return (code) => {
    const found = known.get(code);
    if (found !== undefined) return found;
    const rate = code === currency ? 1 : rates[code];
    if (rate === undefined) return undefined;
    const value = rate * 10 ** (minorDigits(currency) - minorDigits(code));
    known.set(code, value);
    return value;
  };
}

/**
 * Returns the price list of part classes in one currency.
 *
 * Price of a piece = least over all offers of all members of the class of price / pack, converted by the given
 * rates, rounded up to a whole minor unit. A class nobody prices takes the median of the known prices, marked
 * assumed, so that it is neither free nor left out. Of a graph as imagined, a class that had a price before keeps it,
 * marked assumed: a supplier gone must not make his parts cheap.
 *
 * @param rates value of one major unit of another currency in the planning currency
 */
export function priceList(
  snapshot: GearPicture,
  classes: PartClasses,
  currency: string,
  rates: Readonly<Record<string, number>>,
): PriceList {
  const { offers, suppliers } = snapshot;
  const best = new Map<number, ClassPrice>();
  const withoutRate = new Set<string>();
  const factor = currencyFactor(currency, rates);
  for (let supplier = 0; supplier < suppliers.id.length; supplier++) {
    const end = offers.start[supplier + 1] ?? 0;
    for (let offer = offers.start[supplier] ?? 0; offer < end; offer++) {
      const price = offers.priceMinor[offer] ?? Number.NaN;
      const code = offers.currency[offer] ?? "";
      if (!(price > 0) || code === "") continue;
      const times = factor(code);
      if (times === undefined) {
        withoutRate.add(code);
        continue;
      }
      const part = offers.target[offer] ?? 0;
      const partClass = classes.classOf[part] ?? -1;
      const stated = offers.packSize[offer] ?? Number.NaN;
      const pack = Number.isNaN(stated) ? 1 : Math.max(1, stated);
      const minor = Math.ceil((price * times) / pack - 1e-9);
      const known = best.get(partClass);
      if (known !== undefined && known.minor <= minor) continue;
      best.set(partClass, {
        minor,
        assumed: false,
        part,
        supplier,
        leadTimeDays: offers.leadTimeDays[offer] ?? Number.NaN,
        soldInPacks: pack > 1,
      });
    }
  }
  const known = [...best.values()].map((price) => price.minor).sort((a, b) => a - b);
  const before = snapshot.imaginedFrom;
  const earlier =
    before === undefined
      ? undefined
      : earlierPrices(before, classesBefore(snapshot, before, classes), currency, rates);
  const standIn = earlier?.standIn ?? known[Math.floor(known.length / 2)] ?? 1;
  const assumed: ClassPrice = {
    minor: standIn,
    assumed: true,
    part: -1,
    supplier: -1,
    leadTimeDays: Number.NaN,
    soldInPacks: false,
  };
  return {
    price: (partClass) => {
      const found = best.get(partClass);
      if (found !== undefined || earlier === undefined) return found ?? assumed;
      const last = (classes.members[partClass] ?? [])
        .map((part) => earlier.known(snapshot.parts.id[part]))
        .filter((minor) => minor !== undefined);
      return last.length === 0 ? assumed : { ...assumed, minor: Math.min(...last) };
    },
    withoutRate: [...withoutRate].sort(),
    standIn,
    anyKnown: known.length > 0,
  };
}

/** The classes of the snapshot an imagined one departs from, merged in the same way. */
function classesBefore(
  snapshot: GearPicture,
  before: GearPicture,
  { merging }: PartClasses,
): PartClasses {
  const { vessel, ...rest } = merging;
  const id = snapshot.vessels.id[vessel ?? -1];
  const row = id === undefined ? -1 : before.vessels.id.indexOf(id);
  return partClasses(before, row < 0 ? rest : { ...rest, vessel: row });
}

/** What was asked for a part before anything was imagined, by its id; the stand-in of then. */
function earlierPrices(
  before: GearPicture,
  classes: PartClasses,
  currency: string,
  rates: Readonly<Record<string, number>>,
): { readonly standIn: number; readonly known: (id: string | undefined) => number | undefined } {
  const list = priceList(before, classes, currency, rates);
  let rows: ReadonlyMap<string, number> | undefined;
  return {
    standIn: list.standIn,
    known: (id) => {
      rows ??= new Map(before.parts.id.map((one, row) => [one, row]));
      const row = id === undefined ? undefined : rows.get(id);
      const price = row === undefined ? undefined : list.price(classes.classOf[row] ?? -1);
      return price === undefined || price.assumed ? undefined : price.minor;
    },
  };
}
