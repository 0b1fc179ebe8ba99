import type { NodeId } from "../../../graph-schema/index.ts";
import type { NodeRecord } from "../../../importers/change-set.ts";
import type { LotMovement } from "../../contract/stock.contract.ts";
import { Problem } from "../../errors/problem.ts";
import { isoOfDay } from "../../scoring/aboard/calendar.ts";
import type { LotState } from "../../scoring/aboard/lot-state.ts";
import { lotLastDay, lotState } from "../../scoring/aboard/usable-stock.ts";
import type { Snapshot } from "../../scoring/snapshot/snapshot.ts";
import type { GraphStore } from "../../store/graph-store.ts";
import { lockerPath } from "../locker-path.ts";
import { recordById } from "../records/find-record.ts";
import { ownName } from "../records/record-names.ts";
import { plural } from "../words.ts";
import type { Place } from "./find-place.ts";

/** A lot of one part with pieces in it. */
export interface LotAboard {
  readonly row: number;
  readonly id: NodeId;
  readonly quantity: number;
  readonly vessel: number;
  readonly place: string;
  readonly lastDay: number | undefined;
  readonly state: LotState;
}

/** A lot of which pieces are taken. */
export interface Taking {
  readonly lot: LotAboard;
  readonly pieces: number;
}

const placeWords = (snapshot: Snapshot, lot: number): string =>
  [
    snapshot.vessels.name[snapshot.lots.vessel[lot] ?? -1] ?? "vessel not stated",
    lockerPath(snapshot, snapshot.lots.locker[lot] ?? -1),
  ]
    .filter((word) => word !== "")
    .join(" › ");

/**
 * The lots of a part that hold pieces, in picking order: usable before not, first out of date first, undated last.
 * Source: METHODS section 7 (first expired, first out).
 */
export function lotsOfPart(snapshot: Snapshot, part: number, today: number): readonly LotAboard[] {
  const { lots } = snapshot;
  const found: LotAboard[] = [];
  for (let row = 0; row < lots.id.length; row++) {
    const quantity = lots.quantity[row] ?? 0;
    const id = lots.id[row];
    if (lots.part[row] !== part || quantity <= 0 || id === undefined) continue;
    found.push({
      row,
      id,
      quantity,
      vessel: lots.vessel[row] ?? -1,
      place: placeWords(snapshot, row),
      lastDay: lotLastDay(snapshot, row),
      state: lotState(snapshot, row, today),
    });
  }
  const last = (lot: LotAboard): number => lot.lastDay ?? Number.MAX_SAFE_INTEGER;
  const rank = (lot: LotAboard): number => (lot.state === "usable" ? 0 : 1);
  return found.sort((a, b) => rank(a) - rank(b) || last(a) - last(b) || (a.id < b.id ? -1 : 1));
}

/** Whether a lot is in a place, or in something within it. */
export function isIn(snapshot: Snapshot, lot: LotAboard, place: Place): boolean {
  const { lots, lockers, vessels } = snapshot;
  if (place.label === "Vessel") return vessels.id[lot.vessel] === place.id;
  let at = lots.locker[lot.row] ?? -1;
  for (let steps = 0; at >= 0 && steps < 100; steps++) {
    if (lockers.id[at] === place.id) return true;
    at = lockers.within[at] ?? -1;
  }
  return false;
}

/** Takes `wanted` pieces from lots in the order given; what is missing is left to the caller. */
export function takePieces(lots: readonly LotAboard[], wanted: number): readonly Taking[] {
  const taken: Taking[] = [];
  let left = wanted;
  for (const lot of lots) {
    if (left <= 0) break;
    const pieces = Math.min(left, lot.quantity);
    taken.push({ lot, pieces });
    left -= pieces;
  }
  return taken;
}

export function movementOf({ lot, pieces }: Taking, left: number, verb: string): LotMovement {
  const expires = lot.lastDay === undefined ? null : isoOfDay(lot.lastDay);
  const dated = expires === null ? "" : `, good to ${expires}`;
  const counts = lot.state === "usable" ? "" : ` (${lot.state}: does not count as aboard)`;
  return {
    lot: { id: lot.id, label: "StockLot", name: plural(left, "piece") },
    place: lot.place,
    pieces,
    left,
    expires,
    state: lot.state,
    words: `${pieces} ${verb} ${lot.place}${dated}${counts}; ${left} left there`,
  };
}

/** The row of a part in a snapshot. Errors: `unexpected` where the snapshot lacks it. */
export function partRow(snapshot: Snapshot, part: NodeRecord): number {
  const row = snapshot.parts.id.indexOf(part.id);
  if (row < 0) throw new Problem("unexpected", `The snapshot lacks ${part.id}.`);
  return row;
}

/** The lot records behind some takings, with their versions as they are now. */
export const lotRecord = (store: GraphStore, lot: LotAboard): Promise<NodeRecord> =>
  recordById(store, lot.id);

export const partWords = (part: NodeRecord): string => {
  const description = part.properties["description"];
  return typeof description === "string" ? `${ownName(part)} (${description})` : ownName(part);
};
