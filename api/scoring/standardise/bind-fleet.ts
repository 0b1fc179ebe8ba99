import { misfits, positionNeeds } from "../choice/meets-needs.ts";
import type { PartClasses } from "../classes/part-classes.ts";
import type { Passage } from "../provision/passage.ts";
import type { VesselKit } from "../provision/vessel-kit.ts";
import { imagine } from "../snapshot/imagine.ts";
import type { Snapshot } from "../snapshot/snapshot.ts";
import { type ItemLoad, itemLoads } from "./item-loads.ts";
import { pricesOfProtection } from "./price-of-protection.ts";
import type { PartStock, PositionOption, StandardProblem } from "./standard-problem.ts";

/** One vessel whose gear may change. */
export interface StandardVessel {
  readonly row: number;
  readonly passage: Passage;
  /** Its kit with the gear fitted now. */
  readonly kit: VesselKit;
  readonly targets: readonly [number | undefined, number | undefined, number | undefined];
}

export interface BoundFleet {
  readonly problem: StandardProblem;
  /** Items of each group, in the order in which they change. */
  readonly items: readonly (readonly number[])[];
  /** Why items stay as they are. */
  readonly held: ReadonlyMap<number, HeldReason>;
}

export type HeldReason = "safety" | "unknown model" | "no list" | "no other" | "not asked";

export interface BindSettings {
  /** Price of one new item of a model in minor units; undefined where none is known. */
  readonly priceOf: (model: number) => number | undefined;
  readonly fittingCost: number;
  readonly mayChange: (category: string) => boolean;
  readonly supplierCharge: number;
  readonly kitCharge: number;
  readonly budget: number;
}

/**
 * Binds the gear of some vessels to a standardising problem.
 *
 * A position may change if its model has a category and a parts list, it serves no function of the safety tier, and its
 * list holds no safety part; its options are the models of the category that are priced, have a parts list and meet its
 * needs. Items alike in all figures form one group. Demands enter by their means (taken as Poisson), robbing is left
 * aside; kits and suppliers are counted over all the vessels given. O(positions × options × parts list).
 */
export function bindFleet(
  snapshot: Snapshot,
  classes: PartClasses,
  vessels: readonly StandardVessel[],
  settings: BindSettings,
): BoundFleet {
  const held = new Map<number, HeldReason>();
  const kits = new KitTable(snapshot, classes);
  const stocks = new StockTable();
  const groups = new Map<string, { items: number[]; options: PositionOption[] }>();
  const rivals = rivalsByCategory(snapshot, settings);
  for (const vessel of vessels) {
    const fixed = new Map<number, number>();
    const loadsOf = loadReader(snapshot, classes, vessel.passage);
    const prices = pricesOfProtection(vessel.kit, vessel.targets);
    const today = new Map(vessel.kit.rows.map((row) => [row.demand.partClass, row]));
    for (const [partClass, row] of today) fixed.set(partClass, row.demand.mean);
    const stockOf = (load: ItemLoad, tier: 0 | 1 | 2): number => {
      const own = tierOf(load, tier);
      const row = today.get(load.partClass);
      const strictest = Math.min(own, row?.demand.tier ?? 2) as 0 | 1 | 2;
      return stocks.index(`${vessel.row} ${load.partClass}`, strictest, () => ({
        unitCost: vessel.kit.prices.price(load.partClass).minor,
        usable: row?.usable ?? usableOf(vessel.kit, classes, load.partClass),
        prices,
        vessel: vessel.row,
        partClass: load.partClass,
      }));
    };
    const changing: { item: number; tier: 0 | 1 | 2; models: readonly number[] }[] = [];
    for (let item = 0; item < snapshot.items.id.length; item++) {
      if (snapshot.items.vessel[item] !== vessel.row) continue;
      const model = snapshot.items.model[item] ?? -1;
      const found = optionsFor(snapshot, item, rivals, settings);
      if (typeof found === "string") {
        held.set(item, found);
        kits.hold(model);
      } else changing.push({ item, ...found });
    }
    for (const { item, tier, models } of changing) {
      const model = snapshot.items.model[item] ?? -1;
      const now = loadsOf(item, undefined);
      for (const { partClass, mean } of now) {
        fixed.set(partClass, Math.max(0, (fixed.get(partClass) ?? 0) - mean));
      }
      const option = (of: number, cost: number, loads: readonly ItemLoad[]): PositionOption => ({
        model: of,
        cost,
        kit: kits.of(of),
        loads: loads.map((load) => [stockOf(load, tier), load.mean] as const),
      });
      const options = [
        option(model, 0, now),
        ...models.flatMap((of) => {
          const loads = loadsOf(item, of);
          // A list without evidence of failing says nothing: its kit is unknown, not nothing.
          if (loads.length === 0) return [];
          return [option(of, (settings.priceOf(of) ?? 0) + settings.fittingCost, loads)];
        }),
      ];
      const name = `${vessel.row}|${options.map(({ model: m, loads }) => `${m}:${loads.map(([s, mean]) => `${s} ${mean.toPrecision(12)}`).join(",")}`).join("|")}`;
      const group = groups.get(name);
      if (group === undefined) groups.set(name, { items: [item], options });
      else group.items.push(item);
    }
    stocks.settle(vessel.row, (partClass) => fixed.get(partClass) ?? 0);
  }
  return {
    problem: {
      groups: [...groups.values()].map(({ items, options }) => ({ count: items.length, options })),
      stocks: stocks.all(),
      kits: kits.all(),
      suppliers: snapshot.suppliers.id.length,
      kitCharge: settings.kitCharge,
      supplierCharge: settings.supplierCharge,
      budget: settings.budget,
    },
    items: [...groups.values()].map(({ items }) => items),
    held,
  };
}

function usableOf(kit: VesselKit, classes: PartClasses, partClass: number): number {
  return (classes.members[partClass] ?? []).reduce(
    (sum, part) => sum + (kit.stock.usable[part] ?? 0),
    0,
  );
}

/** The tier of one part of an item whose functions are of a tier: looser where a failure does not stop it. */
function tierOf({ stops, degrades }: ItemLoad, tier: 0 | 1 | 2): 0 | 1 | 2 {
  if (stops) return tier;
  return degrades && tier === 0 ? 1 : 2;
}

/** What an item asks for as it is, or as new gear of another model; items alike in duty are worked out once. */
function loadReader(snapshot: Snapshot, classes: PartClasses, passage: Passage) {
  const known = new Map<string, readonly ItemLoad[]>();
  return (item: number, model: number | undefined): readonly ItemLoad[] => {
    if (model === undefined) return itemLoads(snapshot, classes, item, passage);
    const { hoursPerDay, operationsPerDay } = snapshot.items;
    const name = `${model} ${hoursPerDay[item]} ${operationsPerDay[item]}`;
    const before = known.get(name);
    if (before !== undefined) return before;
    const fitted = imagine(snapshot, {
      replace: [{ item, model }],
      fittedOnDay: passage.departsDay,
    });
    const fresh = itemLoads(fitted, classes, item, passage);
    known.set(name, fresh);
    return fresh;
  };
}

/** Models of each category that may be fitted new: priced, with a parts list, none of it safety gear. */
function rivalsByCategory(
  snapshot: Snapshot,
  { priceOf }: BindSettings,
): ReadonlyMap<string, readonly number[]> {
  const found = new Map<string, number[]>();
  snapshot.models.category.forEach((category, model) => {
    if (category === "" || priceOf(model) === undefined) return;
    if (!hasList(snapshot, model) || takesSafetyParts(snapshot, model)) return;
    const name = category.trim().toLowerCase();
    found.set(name, [...(found.get(name) ?? []), model]);
  });
  return found;
}

const hasList = ({ uses }: Snapshot, model: number): boolean =>
  (uses.start[model + 1] ?? 0) > (uses.start[model] ?? 0);

function takesSafetyParts({ uses, parts }: Snapshot, model: number): boolean {
  return uses.target
    .subarray(uses.start[model] ?? 0, uses.start[model + 1] ?? 0)
    .some((part) => parts.isSafety[part] === 1);
}

function optionsFor(
  snapshot: Snapshot,
  item: number,
  rivals: ReadonlyMap<string, readonly number[]>,
  settings: BindSettings,
): HeldReason | { readonly tier: 0 | 1 | 2; readonly models: readonly number[] } {
  const { items, models, serves, functions } = snapshot;
  const model = items.model[item] ?? -1;
  if (model < 0) return "unknown model";
  const category = models.category[model] ?? "";
  const served = [...serves.target.subarray(serves.start[item], serves.start[item + 1])];
  const tiers = served.map((row) => functions.tier[row] ?? 1);
  const tier = tiers.length === 0 ? 1 : (Math.min(...tiers) as 0 | 1 | 2);
  if (tier === 0 || takesSafetyParts(snapshot, model)) return "safety";
  if (!hasList(snapshot, model)) return "no list";
  if (category === "" || !settings.mayChange(category)) return "not asked";
  const needs = positionNeeds(snapshot, [item], {});
  const others = (rivals.get(category.trim().toLowerCase()) ?? []).filter(
    (other) => other !== model && misfits(snapshot, other, category, needs).length === 0,
  );
  return others.length === 0 ? "no other" : { tier, models: others };
}

/** The distinct spares kits of models, and who sells their parts. */
class KitTable {
  readonly #snapshot: Snapshot;
  readonly #classes: PartClasses;
  readonly #sellers: ReadonlyMap<number, ReadonlySet<number>>;
  readonly #kitOfModel = new Map<number, number>();
  readonly #kitByName = new Map<string, number>();
  readonly #kits: { held: boolean; sellers: readonly (readonly number[])[] }[] = [];

  constructor(snapshot: Snapshot, classes: PartClasses) {
    this.#snapshot = snapshot;
    this.#classes = classes;
    const sellers = new Map<number, Set<number>>();
    const { offers, suppliers } = snapshot;
    for (let supplier = 0; supplier < suppliers.id.length; supplier++) {
      for (let o = offers.start[supplier] ?? 0; o < (offers.start[supplier + 1] ?? 0); o++) {
        const partClass = classes.classOf[offers.target[o] ?? 0] ?? -1;
        sellers.set(partClass, (sellers.get(partClass) ?? new Set()).add(supplier));
      }
    }
    this.#sellers = sellers;
  }

  /** Kit of a model; -1 where none of its parts can be replaced at sea. */
  of(model: number): number {
    const known = this.#kitOfModel.get(model);
    if (known !== undefined) return known;
    const { uses } = this.#snapshot;
    const wanted = new Set<number>();
    for (let line = uses.start[model] ?? 0; line < (uses.start[model + 1] ?? 0); line++) {
      if (uses.fittableAtSea[line] !== 0)
        wanted.add(this.#classes.classOf[uses.target[line] ?? 0] ?? -1);
    }
    const name = [...wanted].sort((a, b) => a - b).join(" ");
    const kit = wanted.size === 0 ? -1 : (this.#kitByName.get(name) ?? this.#kits.length);
    if (kit === this.#kits.length) {
      this.#kitByName.set(name, kit);
      const sets = [...wanted].flatMap((one) => {
        const set = this.#sellers.get(one);
        return set === undefined ? [] : [[...set].sort((a, b) => a - b)];
      });
      this.#kits.push({ held: false, sellers: smallest(sets) });
    }
    this.#kitOfModel.set(model, kit);
    return kit;
  }

  hold(model: number): void {
    const kit = model < 0 ? undefined : this.#kits[this.of(model)];
    if (kit !== undefined) kit.held = true;
  }

  all(): StandardProblem["kits"] {
    return this.#kits;
  }
}

/** Sets that hold no other: whoever has a supplier in each of these has one in all. */
function smallest(sets: readonly (readonly number[])[]): readonly (readonly number[])[] {
  const unique = [...new Map(sets.map((set) => [set.join(" "), set])).values()];
  return unique.filter(
    (set) =>
      !unique.some(
        (other) =>
          other !== set && other.length < set.length && other.every((s) => set.includes(s)),
      ),
  );
}

interface DraftStock {
  readonly unitCost: number;
  readonly usable: number;
  readonly prices: readonly [number, number, number];
  readonly vessel: number;
  readonly partClass: number;
}

/** Stocks as they are first named; a stock takes the strictest tier anything asks it in. */
class StockTable {
  readonly #places = new Map<string, number>();
  readonly #drafts: (DraftStock & { tier: 0 | 1 | 2; fixedMean: number })[] = [];

  index(name: string, tier: 0 | 1 | 2, make: () => DraftStock): number {
    const known = this.#places.get(name);
    const draft = known === undefined ? undefined : this.#drafts[known];
    if (known !== undefined && draft !== undefined) {
      draft.tier = Math.min(draft.tier, tier) as 0 | 1 | 2;
      return known;
    }
    this.#places.set(name, this.#drafts.length);
    return this.#drafts.push({ ...make(), tier, fixedMean: 0 }) - 1;
  }

  settle(vessel: number, fixedMean: (partClass: number) => number): void {
    for (const draft of this.#drafts) {
      if (draft.vessel === vessel) draft.fixedMean = fixedMean(draft.partClass);
    }
  }

  all(): PartStock[] {
    return this.#drafts.map(({ unitCost, usable, prices, tier, fixedMean }) => ({
      unitCost,
      usable,
      // A sum of means leaves a hair where all of them were taken away again.
      fixedMean: fixedMean < 1e-12 ? 0 : fixedMean,
      ratio: Math.max(1e-9, unitCost / prices[tier]),
    }));
  }
}
