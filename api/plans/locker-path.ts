import type { Snapshot } from "../scoring/snapshot/snapshot.ts";

/** Where a locker is, outermost first: "Saloon › Port settee › Box 3". */
export function lockerPath({ lockers }: Snapshot, locker: number): string {
  const names: string[] = [];
  for (let at = locker; at >= 0 && names.length < 50; at = lockers.within[at] ?? -1) {
    names.unshift(lockers.name[at] ?? "");
  }
  return names.join(" › ");
}
