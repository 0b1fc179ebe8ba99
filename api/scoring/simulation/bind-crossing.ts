import { logGamma } from "../demand/log-gamma.ts";
import { rarityClasses, rarityPrior } from "../demand/rarity-classes.ts";
import { daysPerYear, type Passage } from "../provision/passage.ts";
import { ageAtDeparture } from "../provision/piece-age.ts";
import { timesDue } from "../provision/service-lines.ts";
import { itemsByModel } from "../provision/vessel-demand.ts";
import type { VesselKit } from "../provision/vessel-kit.ts";
import type { Snapshot } from "../snapshot/snapshot.ts";
import {
  type CrossingModel,
  type DemandPlace,
  demandKind,
  type Holder,
  type PlannedSource,
  type SteadySource,
  type UncertainSource,
  type WearingSource,
} from "./crossing-model.ts";

const hoursWhenUnknown = 24;
/** Lives in one exposure beyond which renewals are counted as Poisson, as the formulas do. */
const mostLives = 20;
const priorShape = 0.5;

/**
 * Returns one vessel's crossing as the simulation plays it, read from the evidence itself rather than from the
 * demands computed of it; only tiers and credits, the marks it is judged by, come from the kit.
 * Source: METHODS, section 1, the table of evidence; DEVELOPERS for what stands in for what is not known.
 */
export function bindCrossing(
  snapshot: Snapshot,
  vessel: number,
  passage: Passage,
  kit: VesselKit,
  robbing: boolean,
): CrossingModel {
  const { uses, services, consumes } = snapshot;
  const byModel = itemsByModel(snapshot, vessel);
  const rowOf = new Map(kit.rows.map((row, at) => [row.demand.partClass, at]));
  const partRow = (part: number): number => rowOf.get(kit.classes.classOf[part] ?? -1) ?? -1;
  const places = new Places();
  const sources: Sources = { steady: [], uncertain: [], wearing: [], planned: [] };
  for (const [model, items] of byModel) {
    const end = uses.start[model + 1] ?? 0;
    for (let line = uses.start[model] ?? 0; line < end; line++) {
      const effect = uses.failureEffect[line] ?? 0;
      const fittable = uses.fittableAtSea[line] !== 0;
      if (!fittable && effect !== 0) continue;
      const part = fittable ? partRow(uses.target[line] ?? 0) : -1;
      if (fittable && part < 0) continue;
      const pieces = uses.quantity[line] ?? 1;
      const at = items.map((item): DemandPlace => {
        if (!fittable) return { part: -1, item, holder: -1, kind: demandKind.unsparable };
        return effect === 0
          ? places.stopping(part, item, model, pieces)
          : { part, item, holder: -1, kind: demandKind.asks };
      });
      addFailures(sources, snapshot, line, items, at, passage);
    }
    for (let service = 0; service < services.id.length; service++) {
      if (services.model[service] !== model) continue;
      for (const item of items) {
        const due = timesDue(snapshot, item, service, passage);
        const last = consumes.start[service + 1] ?? 0;
        for (const day of due?.dueDays ?? []) {
          for (let entry = consumes.start[service] ?? 0; entry < last; entry++) {
            sources.planned.push({
              part: partRow(consumes.target[entry] ?? 0),
              item,
              holder: -1,
              kind: demandKind.asks,
              day,
              pieces: consumes.quantity[entry] ?? 1,
              lossChance: consumes.lossChance[entry] ?? Number.NaN,
            });
          }
        }
      }
    }
  }
  return {
    days: passage.daysLongest,
    items: snapshot.items.id.length,
    tier: Uint8Array.from(kit.rows, (row) => row.part.tier),
    credit: Int32Array.from(kit.rows, (row) => row.demand.credit),
    isSafety: Uint8Array.from(kit.rows, (row) => (row.demand.isSafety ? 1 : 0)),
    newer: newerRows(kit),
    robbing,
    functions: kit.demand.functions.map((f) => ({
      need: f.tier === 0 ? Math.max(f.need, f.items.length) : f.need,
      isSafety: f.tier === 0,
      items: f.items,
    })),
    holders: places.holders,
    ...sources,
  };
}

/** The row of each row's successor. Rows of a tree stand older before newer. */
function newerRows(kit: VesselKit): Int32Array {
  const newer = new Int32Array(kit.rows.length).fill(-1);
  for (const group of kit.groups) {
    group.rows.forEach((row, place) => {
      newer[row] = group.rows[group.newer[place] ?? -1] ?? -1;
    });
  }
  return newer;
}

interface Sources {
  readonly steady: SteadySource[];
  readonly uncertain: UncertainSource[];
  readonly wearing: WearingSource[];
  readonly planned: PlannedSource[];
}

/** One holder per part and item, however many lines name the part. */
class Places {
  readonly holders: Holder[] = [];
  readonly #at = new Map<string, number>();

  stopping(part: number, item: number, model: number, pieces: number): DemandPlace {
    const key = `${part} ${item}`;
    const known = this.#at.get(key);
    const holder = known ?? this.holders.length;
    this.#at.set(key, holder);
    const before = this.holders[holder]?.pieces ?? 0;
    this.holders[holder] = { part, item, model, pieces: before + pieces };
    return { part, item, holder, kind: demandKind.stops };
  }
}

function addFailures(
  sources: Sources,
  snapshot: Snapshot,
  line: number,
  items: readonly number[],
  places: readonly DemandPlace[],
  passage: Passage,
): void {
  const { uses } = snapshot;
  const days = passage.daysLongest;
  const quantity = uses.quantity[line] ?? 1;
  const hoursOf = (item: number): number => {
    const daily = snapshot.items.hoursPerDay[item] ?? Number.NaN;
    return (Number.isNaN(daily) ? hoursWhenUnknown : daily) * days;
  };
  const exposureOf = (item: number): number => {
    const basis = uses.rateBasis[line] ?? 0;
    if (basis === 1) return hoursOf(item) / 1000;
    if (basis === 2) return days / daysPerYear;
    if (basis === 3) return ((snapshot.items.operationsPerDay[item] ?? Number.NaN) * days) / 1000;
    return Number.NaN;
  };
  const rate = uses.rate[line] ?? Number.NaN;
  const means = items.map((item) => quantity * rate * exposureOf(item));
  const mean = means.reduce((sum, each) => sum + each, 0);
  const pieceYears = (quantity * items.length * days) / daysPerYear;
  const used = uses.usedCount[line] ?? Number.NaN;
  const over = uses.usedOverYears[line] ?? Number.NaN;
  const rarity = rarityClasses[(uses.rarity[line] ?? 0) - 1];
  const isSeen = !Number.isNaN(used) && over > 0;
  if (isSeen || (Number.isNaN(mean) && rarity !== undefined)) {
    const named = rarity ?? rarityClasses[1];
    const stated = rarity === undefined && mean > 0 && pieceYears > 0;
    const prior =
      stated || named === undefined
        ? { shape: priorShape, rate: (priorShape * pieceYears) / mean }
        : rarityPrior(named);
    const shape = prior.shape + (isSeen ? used : 0);
    const scale = pieceYears / (prior.rate + (isSeen ? over : 0));
    if (scale > 0) sources.uncertain.push({ shape, scale, places });
  } else if (!Number.isNaN(mean)) {
    places.forEach((place, at) => {
      sources.steady.push({ ...place, mean: means[at] ?? 0 });
    });
  }
  const life = uses.meanLifeHours[line] ?? Number.NaN;
  if (Number.isNaN(life)) return;
  const stated = uses.weibullShape[line] ?? Number.NaN;
  const shape = Number.isNaN(stated) ? 1 : stated;
  places.forEach((place, at) => {
    const item = items[at] ?? -1;
    const exposure = hoursOf(item);
    if (exposure <= 0) return;
    if (exposure / life > mostLives) {
      sources.steady.push({ ...place, mean: (quantity * exposure) / life });
      return;
    }
    const known = ageAtDeparture(snapshot, item, uses.target[line] ?? 0, life);
    const age = known === "unknown" ? Number.NaN : known;
    const scale = life / Math.exp(logGamma(1 + 1 / shape));
    sources.wearing.push({ ...place, units: quantity, scale, shape, age, exposure });
  });
}
