import type { GearPicture } from "../snapshot/snapshot.ts";
import { DisjointSets } from "./disjoint-sets.ts";
import { fittedModels, partsTaken, safetyParts } from "./safety-parts.ts";

/**
 * Returns whether confirmed interchanges and supersessions tie a part to safety gear, over however many steps.
 *
 * Parts of one supersession tree share their pieces, so a piece too many counted for one is a piece too few for the
 * others, whichever is the older. A supersession counts where gear in scope takes the older part, or one that leads to it
 * by interchange or supersession: no other stands in a tree (provision-groups.ts), and so that one vessel's picture
 * and the whole fleet's say the same. O(items + uses + pairs + links).
 */
export function tiedToSafety(
  snapshot: GearPicture,
  vessel: number | undefined,
): (part: number) => boolean {
  const { parts, interchange, supersession } = snapshot;
  const sets = new DisjointSets(parts.id.length);
  interchange.confidence.forEach((sure, pair) => {
    if (sure === 1) sets.join(interchange.a[pair] ?? 0, interchange.b[pair] ?? 0);
  });
  if (supersession.older.length > 0) {
    const leads = ledTo(snapshot, vessel);
    supersession.older.forEach((older, link) => {
      if (leads(older)) sets.join(older, supersession.newer[link] ?? older);
    });
  }
  const safety = new Set<number>();
  safetyParts(snapshot, vessel).forEach((mark, part) => {
    if (mark === 1) safety.add(sets.rootOf(part));
  });
  return (part) => safety.has(sets.rootOf(part));
}

/** Whether gear in scope takes a part, or one that leads to it by interchange, unproven or not, or supersession. */
function ledTo(snapshot: GearPicture, vessel: number | undefined): (part: number) => boolean {
  const { interchange, supersession, parts } = snapshot;
  const next = new Map<number, number[]>();
  const lead = (from: number, to: number): void => {
    const known = next.get(from);
    if (known === undefined) next.set(from, [to]);
    else known.push(to);
  };
  interchange.a.forEach((a, pair) => {
    const b = interchange.b[pair] ?? a;
    lead(a, b);
    lead(b, a);
  });
  supersession.older.forEach((older, link) => {
    lead(older, supersession.newer[link] ?? older);
  });
  const reached = new Uint8Array(parts.id.length);
  const open = [
    ...partsTaken(
      snapshot,
      fittedModels(snapshot, vessel, () => true),
      () => true,
    ),
  ];
  for (let at = open.pop(); at !== undefined; at = open.pop()) {
    if (reached[at] === 1) continue;
    reached[at] = 1;
    open.push(...(next.get(at) ?? []));
  }
  return (part) => reached[part] === 1;
}
