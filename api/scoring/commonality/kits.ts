import { type Incidence, incidenceOf, inverseOf, requireIncidence } from "./incidence.ts";

/** The different spares kits of a set of models, numbered by the first model that has each. */
export interface DistinctKits {
  readonly kitCount: number;
  /** Kit of each model; -1 for a model without sparable parts, which needs none. */
  readonly kitOfModel: Int32Array;
  /** Models sharing each kit, rising. */
  readonly modelsOfKit: readonly (readonly number[])[];
  /** Part classes of each kit, rising. */
  readonly partsOfKit: readonly Int32Array[];
  /** Other kits that hold everything a kit holds and more, rising; none for a maximal kit. */
  readonly containedIn: readonly (readonly number[])[];
  /** Kits contained in no other: only these need a box of their own. */
  readonly maximalKits: readonly number[];
}

/**
 * The distinct spares kits, which of them are maximal and which contains which. The incidence must
 * hold sparable part classes only.
 *
 * Models are grouped by a hash of the sorted set, equal hashes compared in full. A kit can only be
 * contained in kits that hold its rarest part, so only those, and only the larger ones, are compared,
 * after a 32-bit signature has ruled most of them out. O(uses log + Σ rarest postings).
 * Throws `input-invalid` for a malformed incidence. Source: own derivation; oracle: all pairs.
 */
export function distinctKits(incidence: Incidence): DistinctKits {
  requireIncidence(incidence);
  const { modelCount, partCount, start, parts } = incidence;
  const kitOfModel = new Int32Array(modelCount).fill(-1);
  const modelsOfKit: number[][] = [];
  const partsOfKit: Int32Array[] = [];
  const byHash = new Map<number, number[]>();
  for (let m = 0; m < modelCount; m += 1) {
    const set = parts.slice(start[m] ?? 0, start[m + 1] ?? 0).sort();
    if (set.length === 0) continue;
    const hash = hashOf(set);
    const alike = byHash.get(hash) ?? [];
    let kit = alike.find((other) => isSame(partsOfKit[other], set));
    if (kit === undefined) {
      kit = partsOfKit.length;
      partsOfKit.push(set);
      modelsOfKit.push([]);
      alike.push(kit);
      byHash.set(hash, alike);
    }
    kitOfModel[m] = kit;
    modelsOfKit[kit]?.push(m);
  }
  const containedIn = findContainers(partsOfKit, partCount);
  const maximalKits = containedIn.flatMap((kits, kit) => (kits.length === 0 ? [kit] : []));
  const kitCount = partsOfKit.length;
  return { kitCount, kitOfModel, modelsOfKit, partsOfKit, containedIn, maximalKits };
}

function findContainers(kits: readonly Int32Array[], partCount: number): number[][] {
  // Numbered by falling size, so that a posting list can be left at the first kit not larger.
  const order = kits.map((_, kit) => kit);
  order.sort((a, b) => (kits[b]?.length ?? 0) - (kits[a]?.length ?? 0) || a - b);
  const postings = inverseOf(kitIncidence(kits, order, partCount));
  const signatures = Int32Array.from(order, (kit) => signatureOf(kits[kit]));
  const sizes = Int32Array.from(order, (kit) => kits[kit]?.length ?? 0);
  const containers: number[][] = kits.map(() => []);
  order.forEach((kit, rank) => {
    const set = kits[kit] ?? new Int32Array(0);
    const rarest = rarestOf(set, postings);
    const signature = signatures[rank] ?? 0;
    for (let i = postings.start[rarest] ?? 0; i < (postings.start[rarest + 1] ?? 0); i += 1) {
      const other = postings.parts[i] ?? 0;
      if ((sizes[other] ?? 0) <= set.length) break;
      if ((signature & ~(signatures[other] ?? 0)) !== 0) continue;
      const larger = order[other] ?? 0;
      if (isWithin(set, kits[larger])) containers[kit]?.push(larger);
    }
  });
  for (const list of containers) list.sort((a, b) => a - b);
  return containers;
}

function kitIncidence(
  kits: readonly Int32Array[],
  order: readonly number[],
  partCount: number,
): Incidence {
  return incidenceOf(
    order.map((kit) => Array.from(kits[kit] ?? [])),
    partCount,
  );
}

function rarestOf(set: Int32Array, postings: Incidence): number {
  const users = (part: number) => (postings.start[part + 1] ?? 0) - (postings.start[part] ?? 0);
  return set.reduce((best, part) => (users(part) < users(best) ? part : best), set[0] ?? 0);
}

function hashOf(set: Int32Array): number {
  let hash = set.length;
  for (const part of set) hash = Math.imul(hash ^ part, 0x9e3779b1) ^ (hash >>> 15);
  return hash;
}

function signatureOf(set: Int32Array | undefined): number {
  let bits = 0;
  for (const part of set ?? []) bits |= 1 << (Math.imul(part, 0x9e3779b1) >>> 27);
  return bits;
}

function isSame(a: Int32Array | undefined, b: Int32Array): boolean {
  return a !== undefined && a.length === b.length && a.every((part, i) => part === b[i]);
}

/** Whether every part of a rising set is in another rising set. */
function isWithin(set: Int32Array, larger: Int32Array | undefined): boolean {
  if (larger === undefined) return false;
  let at = 0;
  for (const part of set) {
    while (at < larger.length && (larger[at] ?? 0) < part) at += 1;
    if (larger[at] !== part) return false;
    at += 1;
  }
  return true;
}
