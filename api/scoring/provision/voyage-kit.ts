import { cutTail, type Pmf } from "../demand/pmf.ts";
import type { Snapshot } from "../snapshot/snapshot.ts";
import { afterLeg } from "./after-leg.ts";
import type { ClassDemand } from "./class-demand.ts";
import { horizonChances } from "./leg-horizons.ts";
import type { Passage } from "./passage.ts";
import { type PortCall, type PortSupply, portSupply } from "./port-supply.ts";
import { classGroups } from "./provision-groups.ts";
import { type VesselDemand, vesselDemand } from "./vessel-demand.ts";
import { type KitSettings, kitPieces, type VesselKit, vesselKit } from "./vessel-kit.ts";

export interface VoyageLeg {
  readonly daysExpected: number;
  readonly daysLongest: number;
  /** The call at its end; of the last leg it supplies nothing. */
  readonly call: PortCall;
}

/** What must be aboard when one leg begins. */
export interface Departure {
  /** The kit: rows of the parts that can be had here (all of them at the first departure), each for as long as it must last. */
  readonly kit: VesselKit;
  /** Per row of the kit: chances that it must last exactly 1, 2, ... legs. */
  readonly lasts: readonly (readonly number[])[];
  readonly departsDay: number;
  /** What the port it leaves supplied; nothing at the first, where all may be bought. */
  readonly supply: PortSupply | undefined;
}

export interface VoyageSettings extends KitSettings {
  /** Chance that what was asked for at a port of call has come when the vessel sails. */
  readonly reliability: number;
  readonly fromAbroad: boolean;
}

/**
 * Returns the kit at each departure of a voyage of legs, given what can be had at the ports of call.
 *
 * At the first departure every part may be bought, and what is aboard counts. What a port of call supplies is topped up
 * there to a level of its own; so from each departure a part must last until the next port that supplies it and delivers
 * in time: legs 1 .. k with chance w_k (leg-horizons.ts). Its demand is the mixture
 *
 *   Pr(D = d) = Σ_k w_k Pr(D_(legs 1..k) = d)
 *
 * and the kit at that departure is the least that reaches each tier's target with these demands: exact for the assumptions. Parts
 * a port does not supply do not appear at its departure: an earlier one carried them past it. A supersession tree counts
 * as supplied where its newest part is, or every one that gear asks for.
 *
 * Assumed: gear runs under way only; services are done when due; what is topped up is topped up to its level; a port's deliveries
 * of different parts succeed or fail independently; an uncertain rate is not learnt from on the way. Where a delivery fails the
 * earlier level must last on, which is counted there, while the later level is counted as if it had come: the
 * product over departures is therefore no higher than the voyage's own chance by that term.
 * Source: METHODS, section 3, resupply legs; own derivation.
 * Cost: a demand computation per departure and later leg.
 */
export function voyageKits(
  snapshot: Snapshot,
  vessel: number,
  passage: Passage,
  legs: readonly VoyageLeg[],
  settings: VoyageSettings,
): readonly Departure[] {
  const wholeDays = legs.reduce(
    (sum, leg, at) => sum + leg.daysLongest + (at < legs.length - 1 ? leg.call.stayDays : 0),
    0,
  );
  // What is aboard must be in date to the end of the voyage, stays included.
  const pieces = kitPieces(snapshot, vessel, { ...passage, daysLongest: wholeDays }, settings);
  const { classes, supersession } = pieces;
  const supplies = legs.map(({ call }) => portSupply(snapshot, classes, call, settings.fromAbroad));
  const departures: Departure[] = [];
  let gear = snapshot;
  let departsDay = passage.departsDay;
  legs.forEach((leg, at) => {
    const ahead = legs.slice(at);
    let days = 0;
    const demands = ahead.map((one): VesselDemand => {
      days += one.daysLongest;
      const upTo = { ...passage, departsDay, daysExpected: days, daysLongest: days };
      return vesselDemand(gear, classes, vessel, upTo, settings.robbing);
    });
    const whole = demands.at(-1);
    if (whole === undefined) return;
    const groups = classGroups(
      whole.classes.map((need) => need.partClass),
      supersession,
    );
    const asked = new Set(whole.classes.map((need) => need.partClass));
    const groupOf = new Map(groups.flatMap((group) => group.map((one) => [one, group] as const)));
    const isSupplied = (partClass: number, by: PortSupply | undefined): boolean => {
      const group = groupOf.get(partClass) ?? [partClass];
      const has = (one: number): boolean => by?.classes.has(one) === true;
      return (
        group.some((one) => (supersession.newer[one] ?? -1) < 0 && has(one)) ||
        group.filter((one) => asked.has(one)).every(has)
      );
    };
    const here = at === 0 ? undefined : supplies[at - 1];
    const chancesOf = (partClass: number): readonly number[] =>
      horizonChances(
        ahead.slice(0, -1).map((_, k) => isSupplied(partClass, supplies[at + k])),
        settings.reliability,
      );
    const mixed = whole.classes
      .filter((need) => at === 0 || isSupplied(need.partClass, here))
      .map((need) => mixedDemand(need, demands, chancesOf(need.partClass)));
    const kit = vesselKit(
      gear,
      vessel,
      { ...passage, departsDay, daysExpected: days, daysLongest: days },
      { ...settings, ignoreAboard: at > 0 || settings.ignoreAboard === true },
      { ...pieces, demand: { ...whole, classes: mixed } },
    );
    departures.push({
      kit,
      lasts: kit.rows.map((row) => chancesOf(row.demand.partClass)),
      departsDay,
      supply: here,
    });
    gear = afterLeg(gear, vessel, departsDay, leg.daysLongest);
    departsDay += Math.ceil(leg.daysLongest + leg.call.stayDays);
  });
  return departures;
}

/** One class's demand over as many legs as it must last: tier, credit and reasons are those of the whole way. */
function mixedDemand(
  need: ClassDemand,
  demands: readonly VesselDemand[],
  chances: readonly number[],
): ClassDemand {
  const terms = demands.flatMap((demand, k) => {
    const weight = chances[k] ?? 0;
    if (weight === 0) return [];
    const own = demand.classes.find((one) => one.partClass === need.partClass);
    return [{ weight, own }];
  });
  const length = terms.reduce((most, { own }) => Math.max(most, own?.pmf.mass.length ?? 1), 1);
  const mass = new Float64Array(length);
  let tail = 0;
  let mean = 0;
  let assumedMean = 0;
  for (const { weight, own } of terms) {
    // A class a shorter way does not ask for at all needs nothing on it.
    const pmf: Pmf = own?.pmf ?? { mass: Float64Array.of(1), tail: 0 };
    for (let k = 0; k < pmf.mass.length; k++)
      mass[k] = (mass[k] ?? 0) + weight * (pmf.mass[k] ?? 0);
    tail += weight * pmf.tail;
    mean += weight * (own?.mean ?? 0);
    assumedMean += weight * (own?.assumedMean ?? 0);
  }
  return { ...need, pmf: cutTail(mass, tail), mean, assumedMean };
}
