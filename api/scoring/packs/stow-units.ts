import type { Room, SaleOffer } from "./sale-problem.ts";

const MOST_TRIES = 200_000;

/**
 * Returns a locker for every unit bought (per offer a list of locker numbers), or undefined where they do not fit.
 *
 * Units go largest first, into the locker they leave least room in; where that fails, every other choice is tried in
 * depth, equal units in order so that no arrangement is tried twice, up to a limit of tries.
 * Units that take neither mass nor volume go to the first locker.
 */
export function stowUnits(
  offers: readonly SaleOffer[],
  units: ArrayLike<number>,
  lockers: readonly Room[],
): readonly (readonly number[])[] | undefined {
  const loose = offers.flatMap((offer, u) =>
    Array.from({ length: units[u] ?? 0 }, () => ({
      offer: u,
      mass: offer.uses.mass,
      volume: offer.uses.volume,
    })),
  );
  const size = (unit: (typeof loose)[number]): number =>
    Math.max(
      ...lockers.map((room) =>
        Math.max(share(unit.mass, room.mass), share(unit.volume, room.volume)),
      ),
      0,
    );
  const order = loose
    .map((unit) => ({ ...unit, size: size(unit) }))
    .sort((a, b) => b.size - a.size || a.offer - b.offer);
  const mass = lockers.map((room) => room.mass ?? Infinity);
  const volume = lockers.map((room) => room.volume ?? Infinity);
  const place = new Int32Array(order.length).fill(-1);
  let tries = 0;
  const left = (l: number): number => Math.min(mass[l] ?? 0, volume[l] ?? 0);
  const fill = (at: number): boolean => {
    const unit = order[at];
    if (unit === undefined) return true;
    if (++tries > MOST_TRIES) return false;
    const choices = lockers
      .map((_, l) => l)
      .filter((l) => (mass[l] ?? 0) >= unit.mass && (volume[l] ?? 0) >= unit.volume)
      .sort((a, b) => left(a) - left(b));
    const seen = new Set<string>();
    for (const l of choices) {
      // Lockers with the same room left are the same choice.
      const name = `${mass[l]} ${volume[l]}`;
      if (seen.has(name)) continue;
      seen.add(name);
      mass[l] = (mass[l] ?? 0) - unit.mass;
      volume[l] = (volume[l] ?? 0) - unit.volume;
      place[at] = l;
      if (fill(at + 1)) return true;
      mass[l] = (mass[l] ?? 0) + unit.mass;
      volume[l] = (volume[l] ?? 0) + unit.volume;
      if (tries > MOST_TRIES) return false;
    }
    return false;
  };
  if (!fill(0)) return undefined;
  const stowed: number[][] = offers.map(() => []);
  order.forEach((unit, at) => {
    stowed[unit.offer]?.push(place[at] ?? 0);
  });
  return stowed.map((list) => list.sort((a, b) => a - b));
}

const share = (of: number, room: number | undefined): number =>
  room === undefined || room === Infinity || of === 0 ? 0 : of / Math.max(room, 1e-9);
