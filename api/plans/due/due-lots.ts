import type { DueAnswer } from "../../contract/stock.contract.ts";
import { isoOfDay } from "../../scoring/aboard/calendar.ts";
import { lotLastDay, lotState } from "../../scoring/aboard/usable-stock.ts";
import type { Snapshot } from "../../scoring/snapshot/snapshot.ts";
import { lockerPath } from "../locker-path.ts";
import { plural } from "../words.ts";

type DueLot = DueAnswer["lots"][number];

/** Lots that fall out of date until a day, or do not count already; undated and unfit first, then soonest first. */
export function dueLots(
  snapshot: Snapshot,
  vessel: number | undefined,
  today: number,
  until: number,
): DueLot[] {
  const { lots } = snapshot;
  const found: { readonly lot: DueLot; readonly order: number }[] = [];
  for (let row = 0; row < lots.id.length; row++) {
    if (vessel !== undefined && lots.vessel[row] !== vessel) continue;
    if ((lots.quantity[row] ?? 0) <= 0) continue;
    const ends = lotState(snapshot, row, until);
    if (ends === "usable") continue;
    const lastDay = lotLastDay(snapshot, row);
    const isLater = ends === "out of date" && lotState(snapshot, row, today) === "usable";
    const state = isLater ? "falls due" : ends;
    found.push({
      lot: describe(snapshot, row, state, lastDay),
      order: ends === "out of date" ? (lastDay ?? 0) : Number.NEGATIVE_INFINITY,
    });
  }
  return found
    .sort((a, b) => a.order - b.order || (a.lot.lot.id < b.lot.lot.id ? -1 : 1))
    .map(({ lot }) => lot);
}

function describe(
  snapshot: Snapshot,
  row: number,
  state: DueLot["state"],
  lastDay: number | undefined,
): DueLot {
  const { lots, parts, makers, vessels } = snapshot;
  const part = lots.part[row] ?? -1;
  const quantity = lots.quantity[row] ?? 0;
  const day = lastDay === undefined ? null : isoOfDay(lastDay);
  const partNumber = parts.partNumber[part] ?? "";
  const place = lockerPath(snapshot, lots.locker[row] ?? -1) || "no locker stated";
  const why = {
    "out of date": `out of date since ${day}`,
    "falls due": `in date until ${day}`,
    "date unknown": "perishes but carries no date: counts as out of date",
    "not serviceable": "condition doubtful or worse",
  }[state];
  return {
    lot: { id: String(lots.id[row] ?? ""), label: "StockLot", name: plural(quantity, "piece") },
    part: { id: String(parts.id[part] ?? ""), label: "Part", name: partNumber },
    maker: makers.name[parts.maker[part] ?? -1] ?? "",
    description: parts.description[part] ?? "",
    vessel: vessels.name[lots.vessel[row] ?? -1] ?? "vessel not stated",
    place,
    quantity,
    lastDay: day,
    state,
    safety: parts.isSafety[part] === 1,
    words: `${plural(quantity, "piece")} of ${partNumber} in ${place}: ${why}`,
  };
}
