import type { FindAnswer } from "../contract/find.contract.ts";
import { isoOfDay } from "../scoring/aboard/calendar.ts";
import { lotLastDay, lotState } from "../scoring/aboard/usable-stock.ts";
import type { Snapshot } from "../scoring/snapshot/snapshot.ts";

type LotAboard = NonNullable<FindAnswer["hits"][number]["aboard"]>[number];

/** Where a locker is, outermost first: "Saloon › Port settee › Box 3". */
export function lockerPath({ lockers }: Snapshot, locker: number): string {
  const names: string[] = [];
  for (let at = locker; at >= 0 && names.length < 50; at = lockers.within[at] ?? -1) {
    names.unshift(lockers.name[at] ?? "");
  }
  return names.join(" › ");
}

function stateWords(snapshot: Snapshot, lot: number, today: number): string {
  const lastDay = lotLastDay(snapshot, lot);
  const date = lastDay === undefined ? "" : isoOfDay(lastDay);
  switch (lotState(snapshot, lot, today)) {
    case "usable":
      return date === "" ? "usable; nothing on it runs out" : `usable, in date until ${date}`;
    case "out of date":
      return `out of date since ${date}: counts as not aboard`;
    case "date unknown":
      return "perishes but carries no date: counts as out of date";
    case "not serviceable":
      return "condition doubtful or worse: counts as not aboard";
  }
}

/** A lot as a person looks for it: vessel, place, pieces, last day, and whether it counts today. */
export function describeLot(snapshot: Snapshot, lot: number, today: number): LotAboard {
  const { lots, vessels } = snapshot;
  const pieces = lots.quantity[lot] ?? 0;
  const vessel = vessels.name[lots.vessel[lot] ?? -1] ?? "vessel not stated";
  const place = lockerPath(snapshot, lots.locker[lot] ?? -1) || "no locker stated";
  const lastDay = lotLastDay(snapshot, lot);
  return {
    vessel,
    place,
    quantity: pieces,
    expires: lastDay === undefined ? null : isoOfDay(lastDay),
    usable: lotState(snapshot, lot, today) === "usable",
    words: `${pieces} aboard ${vessel}, ${place}; ${stateWords(snapshot, lot, today)}`,
  };
}
