import type { KitRequest } from "../../contract/kit.contract.ts";
import { Problem } from "../../errors/problem.ts";
import { partClasses } from "../../scoring/classes/part-classes.ts";
import type { Aim, Room, SaleCaps } from "../../scoring/packs/sale-problem.ts";
import { commonCurrency, currencyFactor } from "../../scoring/provision/class-price.ts";
import { defaultWeights } from "../../scoring/provision/kit-sale.ts";
import { pieceSizes } from "../../scoring/provision/piece-sizes.ts";
import type { Snapshot } from "../../scoring/snapshot/snapshot.ts";

/** The caps of a request in whole units, with the names of the lockers. */
export interface KitLimits {
  readonly caps: SaleCaps;
  readonly aim: Aim;
  readonly weights: readonly [number, number, number];
  readonly lockerNames: readonly string[];
}

/**
 * Returns what a request allows: money in minor units of the planning currency (rounded down), grams, millilitres, and
 * the room in each locker named.
 *
 * Errors: `currency-mixed` (a cap in a currency without a rate), `not-found` (a locker), `input-invalid` (a locker
 * named twice or in two ways, without litres stated or asked, caps with the rule "each part", the most without a cap).
 */
export function kitLimits(snapshot: Snapshot, vessel: number, request: KitRequest): KitLimits {
  const { caps = {} } = request;
  const names = (caps.lockers ?? []).map(({ locker }) => findLocker(snapshot, vessel, locker));
  const twice = names.find((row, at) => names.indexOf(row) !== at);
  if (twice !== undefined) {
    throw new Problem(
      "input-invalid",
      `A locker may be named once; received ${lockerName(snapshot, twice)} twice. Give one cap for it.`,
    );
  }
  for (const [at, row] of names.entries()) {
    const within = names.find((other) => other !== row && isWithin(snapshot, row, other));
    if (within !== undefined) {
      throw new Problem(
        "input-invalid",
        `A locker and one inside it cannot both be named, for their room is the same; received ${lockerName(snapshot, within)} and ${lockerName(snapshot, names[at] ?? row)}. Name one of them.`,
      );
    }
  }
  const lockers = (caps.lockers ?? []).map((asked, at): Room => {
    const litres = asked.volumeLitres ?? freeLitres(snapshot, names[at] ?? -1);
    if (litres === undefined && asked.massKg === undefined) {
      throw new Problem(
        "input-invalid",
        `A locker to stow in needs its litres or kilograms; received "${asked.locker}", whose capacity is not stated. Write "${asked.locker}=40l" or state its capacity.`,
      );
    }
    return {
      ...(litres === undefined ? {} : { volume: Math.floor(litres * 1000 + 1e-6) }),
      ...(asked.massKg === undefined ? {} : { mass: Math.floor(asked.massKg * 1000 + 1e-6) }),
    };
  });
  const limits: SaleCaps = {
    ...(caps.cost === undefined ? {} : { cost: capMinor(snapshot, request, caps.cost) }),
    ...(caps.massKg === undefined ? {} : { mass: Math.floor(caps.massKg * 1000 + 1e-6) }),
    ...(caps.volumeLitres === undefined
      ? {}
      : { volume: Math.floor(caps.volumeLitres * 1000 + 1e-6) }),
    ...(caps.lockers === undefined ? {} : { lockers }),
  };
  const isCapped = Object.keys(limits).length > 0;
  if (isCapped && request.rule === "each part") {
    throw new Problem(
      "input-invalid",
      'Caps weigh one part against another, which the rule "each part" does not; received both. Drop the caps, or use the rule "kit".',
    );
  }
  if (!isCapped && request.aim === "most") {
    throw new Problem(
      "input-invalid",
      "The most can be asked for only within a cap; received none. Give a cap on money, kilograms or litres.",
    );
  }
  const { weights = {} } = request;
  return {
    caps: limits,
    aim: request.aim ?? (isCapped && request.objective === undefined ? "most" : "least"),
    weights: [
      weights.safety ?? defaultWeights[0],
      weights.passage ?? defaultWeights[1],
      weights.comfort ?? defaultWeights[2],
    ],
    lockerNames: names.map((row) => lockerName(snapshot, row)),
  };
}

function capMinor(
  snapshot: Snapshot,
  request: KitRequest,
  cost: { readonly minor: number; readonly currency: string },
): number {
  const currency = request.currency ?? commonCurrency(snapshot);
  const times = currencyFactor(currency, request.rates ?? {})(cost.currency);
  if (times === undefined) {
    throw new Problem(
      "currency-mixed",
      `The cap must be in ${currency}, in which the kit is reckoned, or have a rate; received ${cost.currency}. Give the rate ${cost.currency}=..., or reckon in ${cost.currency}.`,
    );
  }
  return Math.floor(cost.minor * times + 1e-9);
}

const chain = (snapshot: Snapshot, locker: number): readonly number[] => {
  const found: number[] = [];
  for (let at = locker; at >= 0 && !found.includes(at); at = snapshot.lockers.within[at] ?? -1)
    found.unshift(at);
  return found;
};

/** A locker by its path, outermost first. */
export const lockerName = (snapshot: Snapshot, locker: number): string =>
  chain(snapshot, locker)
    .map((row) => snapshot.lockers.name[row] ?? "")
    .join(" › ");

const isWithin = (snapshot: Snapshot, inner: number, outer: number): boolean =>
  chain(snapshot, inner).includes(outer);

/** The locker meant by an id, a name, or a path written with > or ›. */
function findLocker(snapshot: Snapshot, vessel: number, asked: string): number {
  const { lockers } = snapshot;
  const plain = (text: string): string => text.trim().toLowerCase().replace(/\s+/g, " ");
  const path = asked.split(/[>›]/).map(plain).join(" › ");
  const own = [...lockers.id.keys()].filter((row) => lockers.vessel[row] === vessel);
  const byId = own.filter((row) => lockers.id[row] === asked);
  const byPath = own.filter((row) => plain(lockerName(snapshot, row)) === path);
  const byName = own.filter((row) => plain(lockers.name[row] ?? "") === path);
  const found = [byId, byPath, byName].find((rows) => rows.length > 0) ?? [];
  const [first, second] = found;
  if (first === undefined) {
    const some = own.slice(0, 6).map((row) => `"${lockerName(snapshot, row)}"`);
    throw new Problem(
      "not-found",
      `A locker to stow in must be aboard; there is none called "${asked}". ${some.length === 0 ? "No locker is known aboard." : `There are: ${some.join(", ")}${own.length > some.length ? ", …" : ""}.`}`,
      { facts: { subject: asked } },
    );
  }
  if (second !== undefined) {
    throw new Problem(
      "input-invalid",
      `A locker must be named so that one only is meant; received "${asked}", which is ${found.map((row) => `"${lockerName(snapshot, row)}"`).join(" and ")}. Write the whole path.`,
    );
  }
  return first;
}

/** Litres free in a locker of stated capacity: what lies in it and in lockers within it takes its room. */
function freeLitres(snapshot: Snapshot, locker: number): number | undefined {
  const capacity = snapshot.lockers.capacityLitres[locker] ?? Number.NaN;
  if (Number.isNaN(capacity)) return undefined;
  const { lots } = snapshot;
  const classes = partClasses(snapshot);
  const sizes = pieceSizes(snapshot, classes);
  let taken = 0;
  for (let lot = 0; lot < lots.id.length; lot++) {
    const at = lots.locker[lot] ?? -1;
    if (at < 0 || !isWithin(snapshot, at, locker)) continue;
    const partClass = classes.classOf[lots.part[lot] ?? -1] ?? -1;
    taken += ((lots.quantity[lot] ?? 0) * sizes.volume(partClass).units) / 1000;
  }
  return Math.max(0, capacity - taken);
}
