import type { Snapshot } from "../snapshot/snapshot.ts";

/** Parts merged by interchange: `classOf[part]` is the class, `members[class]` its part rows, ascending. */
export interface PartClasses {
  readonly classOf: Int32Array;
  readonly members: readonly (readonly number[])[];
  /** Pairs left apart because nobody has confirmed that they interchange. */
  readonly unproven: number;
  /** Pairs stated without being confirmed, left apart because only confirmed ones were wanted. */
  readonly unconfirmed: number;
}

const confirmedCode = 1;
const unprovenCode = 3;

/**
 * Merges parts that INTERCHANGE (two-way) into classes, numbered by their lowest part row. Pairs marked
 * `unproven` stay apart: nothing is merged on likeness. Union-find, O((parts + pairs) α).
 *
 * @param confirmedOnly merge only pairs marked `confirmed`; else also those `likely` and those stated without a mark
 */
export function partClasses(snapshot: Snapshot, confirmedOnly = false): PartClasses {
  const count = snapshot.parts.id.length;
  const parent = Int32Array.from({ length: count }, (_, part) => part);
  const root = (part: number): number => {
    let at = part;
    while (parent[at] !== at) {
      const above = parent[at] ?? at;
      parent[at] = parent[above] ?? above;
      at = parent[at] ?? at;
    }
    return at;
  };
  const { a, b, confidence } = snapshot.interchange;
  let unproven = 0;
  let unconfirmed = 0;
  for (let pair = 0; pair < a.length; pair++) {
    if (confidence[pair] === unprovenCode) {
      unproven++;
      continue;
    }
    if (confirmedOnly && confidence[pair] !== confirmedCode) {
      unconfirmed++;
      continue;
    }
    const ra = root(a[pair] ?? 0);
    const rb = root(b[pair] ?? 0);
    if (ra !== rb) parent[Math.max(ra, rb)] = Math.min(ra, rb);
  }
  const classOf = new Int32Array(count);
  const members: number[][] = [];
  const classOfRoot = new Map<number, number>();
  for (let part = 0; part < count; part++) {
    const top = root(part);
    let found = classOfRoot.get(top);
    if (found === undefined) {
      found = members.length;
      classOfRoot.set(top, found);
      members.push([]);
    }
    classOf[part] = found;
    members[found]?.push(part);
  }
  return { classOf, members, unproven, unconfirmed };
}
