import { rarityClasses } from "../demand/rarity-classes.ts";
import { keepRows } from "./keep-rows.ts";
import type { Snapshot } from "./snapshot.ts";

/** A change of the failure evidence of one parts-list line. */
export type RateChange =
  | { readonly kind: "times"; readonly line: number; readonly factor: number }
  /** `basis` as in snapshot.uses: 1 per 1000 hours, 2 per year, 3 per 1000 operations. */
  | {
      readonly kind: "rate";
      readonly line: number;
      readonly rate: number;
      readonly basis: 1 | 2 | 3;
    };

/** Changes to imagine, by rows of the snapshot they are made on. */
export interface Imagined {
  readonly replace?: readonly Replaced[];
  readonly removeItems?: readonly number[];
  readonly loseSuppliers?: readonly number[];
  readonly rates?: readonly RateChange[];
  /** The day new gear is fitted, where it says no other: its hours run from nothing and its services count as done then. */
  readonly fittedOnDay: number;
}

interface Replaced {
  readonly item: number;
  readonly model: number;
  readonly fittedOnDay?: number;
}

/**
 * Returns the snapshot as it would be after some changes; nothing is written anywhere, and what does not change is
 * shared. Replaced gear is new: no hours run, its services done on the day it is fitted. A rate times a factor scales
 * what the line has: its rate, one over its mean life, its own history (the same uses in less time), or the mean of
 * its rarity class, which becomes a stated guess. O(size).
 */
export function imagine(snapshot: Snapshot, changes: Imagined): Snapshot {
  const removed = new Set(changes.removeItems ?? []);
  const lost = new Set(changes.loseSuppliers ?? []);
  const changed = withRates(withModels(snapshot, changes), changes.rates ?? []);
  return {
    ...keepRows(changed, {
      ...(removed.size === 0 ? {} : { items: (row: number) => !removed.has(row) }),
      ...(lost.size === 0 ? {} : { suppliers: (row: number) => !lost.has(row) }),
    }),
    imaginedFrom: snapshot.imaginedFrom ?? snapshot,
  };
}

function withModels(snapshot: Snapshot, { replace = [], fittedOnDay }: Imagined): Snapshot {
  if (replace.length === 0) return snapshot;
  const { items } = snapshot;
  const model = items.model.slice();
  const hoursRun = items.hoursRun.slice();
  const fitted = items.fittedOnDay.slice();
  const fresh = new Map<number, number>();
  for (const one of replace) {
    const day = one.fittedOnDay ?? fittedOnDay;
    model[one.item] = one.model;
    hoursRun[one.item] = 0;
    fitted[one.item] = day;
    fresh.set(one.item, day);
  }
  return {
    ...snapshot,
    items: { ...items, model, hoursRun, fittedOnDay: fitted },
    serviced: servicedWhenFitted(snapshot, model, fresh),
  };
}

/** The services of new gear, done on the day it is fitted; those of other gear as they were. */
function servicedWhenFitted(
  snapshot: Snapshot,
  model: Int32Array,
  fresh: ReadonlyMap<number, number>,
): Snapshot["serviced"] {
  const { serviced, services } = snapshot;
  const servicesOf = new Map<number, number[]>();
  services.model.forEach((of, service) => {
    servicesOf.set(of, [...(servicesOf.get(of) ?? []), service]);
  });
  const start = new Int32Array(model.length + 1);
  const target: number[] = [];
  const lastDoneDay: number[] = [];
  const lastDoneHours: number[] = [];
  for (let item = 0; item < model.length; item++) {
    const day = fresh.get(item);
    if (day !== undefined) {
      for (const service of servicesOf.get(model[item] ?? -1) ?? []) {
        target.push(service);
        lastDoneDay.push(day);
        lastDoneHours.push(0);
      }
    } else {
      for (let e = serviced.start[item] ?? 0; e < (serviced.start[item + 1] ?? 0); e++) {
        target.push(serviced.target[e] ?? -1);
        lastDoneDay.push(serviced.lastDoneDay[e] ?? Number.NaN);
        lastDoneHours.push(serviced.lastDoneHours[e] ?? Number.NaN);
      }
    }
    start[item + 1] = target.length;
  }
  return {
    start,
    target: Int32Array.from(target),
    lastDoneDay: Float64Array.from(lastDoneDay),
    lastDoneHours: Float64Array.from(lastDoneHours),
  };
}

function withRates(snapshot: Snapshot, changes: readonly RateChange[]): Snapshot {
  if (changes.length === 0) return snapshot;
  const { uses } = snapshot;
  const rate = uses.rate.slice();
  const rateBasis = uses.rateBasis.slice();
  const meanLifeHours = uses.meanLifeHours.slice();
  const usedCount = uses.usedCount.slice();
  const usedOverYears = uses.usedOverYears.slice();
  const rarity = uses.rarity.slice();
  const rateSource = uses.rateSource.slice();
  const classAssumption = 4;
  for (const change of changes) {
    const { line } = change;
    if (change.kind === "rate") {
      rate[line] = change.rate;
      rateBasis[line] = change.basis;
      rateSource[line] = classAssumption;
      meanLifeHours[line] = Number.NaN;
      usedCount[line] = Number.NaN;
      usedOverYears[line] = Number.NaN;
      rarity[line] = 0;
      continue;
    }
    const { factor } = change;
    const hasOther =
      (rateBasis[line] ?? 0) > 0 || (usedOverYears[line] ?? Number.NaN) > 0 || factor === 1;
    const years = rarityClasses[(rarity[line] ?? 0) - 1]?.meanYearsBetween ?? Number.NaN;
    rate[line] = (rate[line] ?? Number.NaN) * factor;
    meanLifeHours[line] = (meanLifeHours[line] ?? Number.NaN) / factor;
    usedOverYears[line] = (usedOverYears[line] ?? Number.NaN) / factor;
    if (!Number.isNaN(years) && !hasOther) {
      rate[line] = factor / years;
      rateBasis[line] = 2;
      rateSource[line] = classAssumption;
      rarity[line] = 0;
    }
  }
  return {
    ...snapshot,
    uses: {
      ...uses,
      rate,
      rateBasis,
      meanLifeHours,
      usedCount,
      usedOverYears,
      rarity,
      rateSource,
    },
  };
}
