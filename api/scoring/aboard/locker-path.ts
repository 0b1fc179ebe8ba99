import type { Snapshot } from "../snapshot/snapshot.ts";

/** Where a lot is, outermost locker first: "Saloon › Port settee › Box 3"; the vessel's name where no locker is known. */
export function lockerPath(snapshot: Snapshot, lot: number): string {
  const { lots, lockers, vessels } = snapshot;
  const names: string[] = [];
  const seen = new Set<number>();
  let at = lots.locker[lot] ?? -1;
  while (at >= 0 && !seen.has(at)) {
    seen.add(at);
    names.unshift(lockers.name[at] ?? "");
    at = lockers.within[at] ?? -1;
  }
  return names.length > 0
    ? names.join(" › ")
    : `${vessels.name[lots.vessel[lot] ?? -1] ?? "aboard"}, no locker named`;
}
