import type { RecordDocument } from "../../../api/contract/records.contract.ts";
import { ownerOf } from "../records/record-columns.ts";

/** A vessel or a locker with what lies within it. */
export interface Place {
  readonly id: string;
  readonly name: string;
  /** From the vessel down: "Ysolvane › Engine room › Shelf A". */
  readonly path: string;
  readonly depth: number;
  readonly isVessel: boolean;
  /** Its own id and those of every place within it. */
  readonly within: ReadonlySet<string>;
}

/** Vessels and lockers as a walk through the ship: each place before those within it, by name. */
export function placesOf(
  vessels: readonly { readonly id: string; readonly name: string }[],
  lockers: readonly RecordDocument[],
): readonly Place[] {
  const inside = new Map<string, RecordDocument[]>();
  for (const locker of lockers) {
    const outer = ownerOf(locker, "IS_WITHIN")?.id ?? "";
    inside.set(outer, [...(inside.get(outer) ?? []), locker]);
  }
  const places: Place[] = [];
  const seen = new Set<string>();
  const walk = (id: string, name: string, path: string, depth: number): ReadonlySet<string> => {
    seen.add(id);
    const at = places.length;
    const within = new Set([id]);
    places.push({ id, name, path, depth, isVessel: depth === 0, within });
    const inner = (inside.get(id) ?? [])
      .filter((locker) => !seen.has(locker.id))
      .sort((a, b) => a.name.localeCompare(b.name, "en", { numeric: true }));
    for (const locker of inner)
      for (const deeper of walk(locker.id, locker.name, `${path} › ${locker.name}`, depth + 1))
        within.add(deeper);
    return places[at]?.within ?? within;
  };
  for (const vessel of [...vessels].sort((a, b) => a.name.localeCompare(b.name, "en")))
    walk(vessel.id, vessel.name, vessel.name, 0);
  // Lockers nothing leads to stand by themselves rather than vanish.
  for (const locker of lockers)
    if (!seen.has(locker.id))
      walk(locker.id, locker.name, locker.title.replaceAll(" / ", " › "), 1);
  return places;
}
