import type { NodeId } from "../../../graph-schema/index.ts";
import type { NodeRecord, ProposedChange } from "../../../importers/change-set.ts";
import type { UseAnswer, UseRequest } from "../../contract/stock.contract.ts";
import { Problem } from "../../errors/problem.ts";
import { dayOfIso } from "../../scoring/aboard/calendar.ts";
import { partClasses } from "../../scoring/classes/part-classes.ts";
import type { Snapshot } from "../../scoring/snapshot/snapshot.ts";
import type { GraphStore } from "../../store/graph-store.ts";
import { cautions } from "../cautions.ts";
import { nodeByWord } from "../choose-scope.ts";
import { recordByWord } from "../records/find-record.ts";
import { ownName, referenceTo } from "../records/record-names.ts";
import { type Writer, writeChange } from "../records/write-record.ts";
import { plural } from "../words.ts";
import { findPlace } from "./find-place.ts";
import {
  isIn,
  type LotAboard,
  lotRecord,
  lotsOfPart,
  movementOf,
  partRow,
  partWords,
  takePieces,
} from "./lots-aboard.ts";
import { historyStep } from "./own-history.ts";
import { serviceDone } from "./service-done.ts";
import { lineOfUse, reasonOf } from "./use-line.ts";

/** Why a use that is no failure teaches demand nothing. */
const noLesson: Readonly<Record<NonNullable<UseRequest["why"]>, string>> = {
  failure: "",
  wear: "Worn out: the wear-out life foresees it, so it does not count as a failure in the line's own history.",
  service: "Used in a planned service, which demand counts by its interval: it is no failure.",
  lost: "Lost, not failed: it does not count in the line's own history.",
  other: "No failure: it does not count in the line's own history.",
};

/**
 * Takes pieces of a part from what is aboard, first out of date first, and writes the use down as own history of the
 * parts-list line, as one change that can be undone. Errors: `not-found`; `input-invalid` where fewer usable pieces
 * are aboard (facts: what is there), or the vessel cannot be told.
 */
export async function usePieces(
  store: GraphStore,
  request: UseRequest,
  today: string,
  writer: Writer,
): Promise<UseAnswer> {
  const part = await recordByWord(store, request.part, ["Part"]);
  const item =
    request.for === undefined ? undefined : await recordByWord(store, request.for, ["FittedItem"]);
  const snapshot = await store.snapshot();
  const row = partRow(snapshot, part);
  const day = dayOfIso(today);
  const all = lotsOfPart(snapshot, row, day);
  const vessel = await vesselOf(store, snapshot, request, item, all, part);
  const aboard = all.filter((lot) => lot.vessel === vessel);
  const picked = await picking(store, snapshot, request, aboard, part, vessel, day);
  const found = await lineOfUse(store, snapshot, { record: part, row }, item, vessel);
  const why = reasonOf(request, found);
  const changes: ProposedChange[] = [];
  for (const { lot, pieces } of picked) {
    const record = await lotRecord(store, lot);
    const quantity = lot.quantity - pieces;
    changes.push({
      kind: "update-node",
      id: record.id,
      basedOn: record.version,
      set: { quantity },
    });
  }
  const counts = why === "failure" && found.kind === "found";
  const step = counts
    ? await historyStep(store, found.line, found, today, request.quantity, request.since)
    : undefined;
  if (step !== undefined) changes.push(step.change);
  const service = await serviceDone(store, request, item, today);
  changes.push(...service.changes);
  const forWhat = item === undefined ? "" : ` for ${ownName(item)}`;
  const note = request.note === undefined ? "" : ` (${request.note})`;
  const what = `${request.quantity} of ${partWords(part)} used${forWhat}: ${why}${note}`;
  const { receipt } = await writeChange(store, changes, writer, what);
  const taken = picked.map((taking) =>
    movementOf(taking, taking.lot.quantity - taking.pieces, "from"),
  );
  const usable = (lots: readonly LotAboard[]): number =>
    lots.reduce((sum, lot) => sum + (lot.state === "usable" ? lot.quantity : 0), 0);
  const usableTaken = taken.reduce((sum, t) => sum + (t.state === "usable" ? t.pieces : 0), 0);
  const usableLeft = usable(aboard) - usableTaken;
  return {
    sentence: `${what}. ${plural(usableLeft, "usable piece")} left aboard ${snapshot.vessels.name[vessel] ?? "the vessel"}.`,
    sequence: receipt.sequence,
    part: referenceTo(part),
    vessel: {
      id: String(snapshot.vessels.id[vessel] ?? ""),
      name: snapshot.vessels.name[vessel] ?? "",
    },
    why,
    item: item === undefined ? null : referenceTo(item),
    taken,
    usableLeft,
    history: step?.told ?? null,
    historyWords:
      why !== "failure"
        ? noLesson[why]
        : found.kind === "none"
          ? found.words
          : lessonWords(step?.told.words ?? "", step?.told.years ?? 0),
    service: service.task === undefined ? null : referenceTo(service.task),
    notices: taken.some(({ state }) => state !== "usable")
      ? [
          {
            code: "not-usable-taken",
            text: "Pieces were taken that are out of date, undated or unfit. They did not count as aboard; safety gear must not rest on them.",
          },
        ]
      : [],
    cautions: [...cautions],
  };
}

const lessonWords = (words: string, years: number): string =>
  years > 0
    ? `Own history of the line: ${words}. Kits are reckoned with it from now on.`
    : `Own history of the line: ${words}. It counts once time in service has passed; reckoning the histories brings it forward.`;

/** The vessel pieces are used on: the item's, the one named, the one of the place, the only one that has any. */
async function vesselOf(
  store: GraphStore,
  snapshot: Snapshot,
  request: UseRequest,
  item: NodeRecord | undefined,
  lots: readonly LotAboard[],
  part: NodeRecord,
): Promise<number> {
  const rowOf = (id: NodeId | undefined): number =>
    id === undefined ? -1 : snapshot.vessels.id.indexOf(id);
  if (item !== undefined) {
    const row = rowOf((await store.linksFrom(item.id, "FITTED_ON"))[0]?.to);
    if (row >= 0) return row;
  }
  if (request.vessel !== undefined)
    return rowOf((await nodeByWord(store, "Vessel", request.vessel)).id);
  const byLot = lots.find(({ id }) => id === request.from?.trim());
  if (byLot !== undefined) return byLot.vessel;
  const vessels = [...new Set(lots.map((lot) => lot.vessel))];
  const [only] = vessels;
  if (only !== undefined && vessels.length === 1) return only;
  const names = vessels.map((row) => snapshot.vessels.name[row] ?? "vessel not stated");
  if (only === undefined) {
    throw new Problem(
      "input-invalid",
      `Only what is aboard can be used; of ${partWords(part)} nothing is aboard any vessel. Stow it first if it is there.`,
      { places: [{ pointer: "/quantity", detail: "at most 0" }] },
    );
  }
  throw new Problem(
    "input-invalid",
    `Pieces are used on one vessel; ${partWords(part)} is aboard ${names.join(", ")}, and none was named. Name the vessel, or the item it was for.`,
    { places: [{ pointer: "/vessel", detail: "which vessel" }] },
  );
}

/** Which pieces are taken. Errors: `input-invalid` where they do not suffice, with what there is. */
async function picking(
  store: GraphStore,
  snapshot: Snapshot,
  request: UseRequest,
  aboard: readonly LotAboard[],
  part: NodeRecord,
  vessel: number,
  today: number,
) {
  const { from, quantity } = request;
  const byId = from === undefined ? [] : aboard.filter(({ id }) => id === from.trim());
  const place =
    from === undefined || byId.length > 0
      ? undefined
      : await findPlace(store, from, request.vessel);
  const there =
    byId.length > 0
      ? byId
      : place === undefined
        ? aboard
        : aboard.filter((lot) => isIn(snapshot, lot, place));
  const takesAll = request.outOfDate === true || byId.length > 0;
  const lots = there.filter(({ state }) => takesAll || state === "usable");
  const sum = (some: readonly LotAboard[]) => some.reduce((total, lot) => total + lot.quantity, 0);
  if (sum(lots) >= quantity) return takePieces(lots, quantity);
  const rest = sum(there) - sum(lots);
  const where = place === undefined ? "aboard" : `in ${place.title}`;
  const list = there
    .slice(0, 6)
    .map(
      (lot) => `${lot.quantity} in ${lot.place}${lot.state === "usable" ? "" : ` (${lot.state})`}`,
    );
  throw new Problem(
    "input-invalid",
    `No more pieces can be used than are there; ${plural(quantity, "piece")} of ${partWords(part)} were asked for, ${sum(lots)} usable ${sum(lots) === 1 ? "is" : "are"} ${where}${rest > 0 ? ` and ${rest} that do not count as aboard` : ""}${list.length === 0 ? "" : `: ${list.join("; ")}`}. Correct the number${rest > 0 ? ", or take those too" : ""}${standIns(snapshot, part, vessel, today)}.`,
    {
      places: [{ pointer: "/quantity", detail: `at most ${sum(lots)}` }],
      facts: { usable: sum(lots), others: rest },
    },
  );
}

/** ", or take 2 of X-1, which stands in for it" where usable pieces of a part that interchanges are aboard; else nothing. */
function standIns(snapshot: Snapshot, part: NodeRecord, vessel: number, today: number): string {
  const classes = partClasses(snapshot);
  const row = partRow(snapshot, part);
  const others = (classes.members[classes.classOf[row] ?? -1] ?? []).flatMap((member) => {
    const pieces = lotsOfPart(snapshot, member, today)
      .filter((lot) => lot.vessel === vessel && lot.state === "usable")
      .reduce((sum, lot) => sum + lot.quantity, 0);
    return member === row || pieces === 0
      ? []
      : [`${snapshot.parts.partNumber[member] ?? ""} (${pieces} usable aboard)`];
  });
  return others.length === 0 ? "" : `, or use what interchanges with it: ${others.join(", ")}`;
}
