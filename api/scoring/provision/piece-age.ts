import type { Snapshot } from "../snapshot/snapshot.ts";

/**
 * Returns the age of a wearing piece at departure, in running hours, or "unknown" (then its first life is
 * drawn from equilibrium).
 *
 * Age = hours run now less hours run when a service last put in a new piece; without such a record the item's
 * own hours, unless they exceed the mean life: then the piece has surely been renewed, nobody wrote when.
 *
 * @param meanLifeHours mean life of the piece, hours
 */
export function ageAtDeparture(
  snapshot: Snapshot,
  item: number,
  part: number,
  meanLifeHours: number,
): number | "unknown" {
  const run = snapshot.items.hoursRun[item] ?? Number.NaN;
  if (Number.isNaN(run)) return "unknown";
  const { serviced, consumes } = snapshot;
  let renewedAt = Number.NaN;
  const first = serviced.start[item] ?? 0;
  const last = serviced.start[item + 1] ?? first;
  for (let entry = first; entry < last; entry++) {
    const service = serviced.target[entry] ?? 0;
    const at = serviced.lastDoneHours[entry] ?? Number.NaN;
    if (Number.isNaN(at) || !putsIn(consumes, service, part)) continue;
    renewedAt = Number.isNaN(renewedAt) ? at : Math.max(renewedAt, at);
  }
  if (!Number.isNaN(renewedAt)) return Math.max(0, run - renewedAt);
  return run <= meanLifeHours ? run : "unknown";
}

function putsIn(consumes: Snapshot["consumes"], service: number, part: number): boolean {
  const end = consumes.start[service + 1] ?? 0;
  for (let entry = consumes.start[service] ?? 0; entry < end; entry++) {
    const handledOnly = !Number.isNaN(consumes.lossChance[entry] ?? Number.NaN);
    if (consumes.target[entry] === part && !handledOnly) return true;
  }
  return false;
}
