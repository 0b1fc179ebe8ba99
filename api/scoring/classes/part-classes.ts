import type { GearPicture } from "../snapshot/snapshot.ts";
import { DisjointSets } from "./disjoint-sets.ts";
import { tiedToSafety } from "./tied-to-safety.ts";

/** Which pairs merge, and whose gear says what is safety gear. */
export interface Merging {
  /** Merge only pairs marked `confirmed`, whatever they touch. */
  readonly confirmedOnly?: boolean;
  /** Row of the vessel whose gear says which parts are safety parts; all vessels of the picture when absent. */
  readonly vessel?: number;
}

/** Parts merged by interchange: `classOf[part]` is the class, `members[class]` its part rows, ascending. */
export interface PartClasses {
  readonly classOf: Int32Array;
  readonly members: readonly (readonly number[])[];
  /** Pairs left apart because nobody has confirmed that they interchange. */
  readonly unproven: number;
  /** Pairs stated without being confirmed, left apart because only confirmed ones were wanted. */
  readonly unconfirmed: number;
  /** Rows of `snapshot.interchange` stated without being confirmed, left apart because they touch safety gear. */
  readonly safetyApart: readonly number[];
  /** How these classes were made. */
  readonly merging: Merging;
}

const confirmedCode = 1;
const unprovenCode = 3;

/**
 * Merges parts that INTERCHANGE (two-way) into classes, numbered by their lowest part row.
 *
 * Pairs marked `confirmed` merge; `unproven` ones never do: nothing is merged on likeness. Pairs marked `likely` or not
 * marked merge too, unless they touch safety gear: a class that confirmed pairs, or a supersession (whose members share
 * their pieces), tie to a safety part takes nobody in through an unconfirmed pair, so the classes of safety parts are
 * those of confirmed pairs alone. Pairs between classes that touch none can't bring a safety part in, in whatever order
 * they come. Source: METHODS 6 and own derivation (METHOD.md beside this); commonality never thins out safety gear. Union-find, O((parts + pairs) α).
 */
export function partClasses(snapshot: GearPicture, merging: Merging = {}): PartClasses {
  const count = snapshot.parts.id.length;
  const sets = new DisjointSets(count);
  const { a, b, confidence } = snapshot.interchange;
  const stated: number[] = [];
  let unproven = 0;
  confidence.forEach((sure, pair) => {
    if (sure === confirmedCode) sets.join(a[pair] ?? 0, b[pair] ?? 0);
    else if (sure === unprovenCode) unproven++;
    else stated.push(pair);
  });
  const { safetyApart, joined } =
    merging.confirmedOnly === true || stated.length === 0
      ? { safetyApart: [], joined: [] }
      : apartForSafety(snapshot, sets, stated, merging.vessel);
  for (const pair of joined) sets.join(a[pair] ?? 0, b[pair] ?? 0);
  const classOf = new Int32Array(count);
  const members: number[][] = [];
  const classOfRoot = new Map<number, number>();
  for (let part = 0; part < count; part++) {
    const top = sets.rootOf(part);
    let found = classOfRoot.get(top);
    if (found === undefined) {
      found = members.length;
      classOfRoot.set(top, found);
      members.push([]);
    }
    classOf[part] = found;
    members[found]?.push(part);
  }
  const unconfirmed = merging.confirmedOnly === true ? stated.length : 0;
  return { classOf, members, unproven, unconfirmed, safetyApart, merging };
}

/**
 * Splits the pairs stated without being confirmed into those that merge and those kept apart for safety's sake.
 *
 * @param confirmed sets of parts that confirmed pairs merge; a pair within one is of neither kind
 */
function apartForSafety(
  snapshot: GearPicture,
  confirmed: DisjointSets,
  stated: readonly number[],
  vessel: number | undefined,
): { readonly safetyApart: readonly number[]; readonly joined: readonly number[] } {
  const { interchange } = snapshot;
  const touches = tiedToSafety(snapshot, vessel);
  const safetyApart: number[] = [];
  const joined: number[] = [];
  for (const pair of stated) {
    const one = interchange.a[pair] ?? 0;
    const other = interchange.b[pair] ?? 0;
    if (confirmed.rootOf(one) === confirmed.rootOf(other)) continue;
    if (touches(one) || touches(other)) safetyApart.push(pair);
    else joined.push(pair);
  }
  return { safetyApart, joined };
}
