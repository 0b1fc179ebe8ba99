import {
  type NodeId,
  type NodeKey,
  nodeKey,
  type Properties,
} from "../../../graph-schema/index.ts";
import type { NodeRecord, ProposedChange } from "../../../importers/change-set.ts";
import type { GivenValues } from "../../contract/records.contract.ts";
import type { StowAnswer, StowRequest } from "../../contract/stock.contract.ts";
import { Problem } from "../../errors/problem.ts";
import { dayOfIso } from "../../scoring/aboard/calendar.ts";
import type { Snapshot } from "../../scoring/snapshot/snapshot.ts";
import type { GraphStore } from "../../store/graph-store.ts";
import { cautions } from "../cautions.ts";
import { recordByWord } from "../records/find-record.ts";
import { freeId } from "../records/free-id.ts";
import { readValues } from "../records/read-values.ts";
import { referenceTo } from "../records/record-names.ts";
import { type Writer, writeChange } from "../records/write-record.ts";
import { plural } from "../words.ts";
import { findPlace, type Place } from "./find-place.ts";
import {
  isIn,
  lotRecord,
  lotsOfPart,
  movementOf,
  partRow,
  partWords,
  type Taking,
  takePieces,
} from "./lots-aboard.ts";

const lotMembers = ["made", "expires", "condition", "lotCode"] as const;

/** Changes, and the lots the pieces come to be in with how many of them each gets. */
interface Stowing {
  readonly changes: readonly ProposedChange[];
  readonly into: ReadonlyMap<NodeId, number>;
}

/**
 * Puts pieces of a part away in a place, or moves them there from another, as one change that can be undone. Pieces of
 * another date, condition or batch stay a lot of their own; like comes to like. Dates are read as the importer reads
 * them. Errors: `not-found`, `input-invalid` (also where fewer pieces are there to be moved).
 */
export async function stowPieces(
  store: GraphStore,
  request: StowRequest,
  today: string,
  writer: Writer,
): Promise<StowAnswer> {
  const part = await recordByWord(store, request.part, ["Part"]);
  const place = await findPlace(store, request.place, request.vessel, request.newPlace);
  const given: GivenValues = {};
  for (const member of lotMembers) {
    const value = request[member];
    if (value !== undefined) given[member] = value;
  }
  const { set, notes } = readValues("StockLot", given);
  const moving = request.from !== undefined;
  if (moving && Object.keys(set).length > 0) {
    throw new Problem(
      "input-invalid",
      `Pieces that are moved keep their dates and condition; received ${Object.keys(set).join(", ")}. Edit the lot instead, or leave out where they come from.`,
      { places: [{ pointer: "/from", detail: "with dates or a condition" }] },
    );
  }
  const takings = moving ? await takingsFrom(store, part, request, place, today) : [];
  const stowing = moving
    ? await moved(store, part, place, takings)
    : await added(store, part, place, { quantity: request.quantity, ...set });
  const what = `${request.quantity} of ${partWords(part)} ${moving ? "moved to" : "stowed in"} ${place.title}`;
  const { receipt } = await writeChange(store, [...place.making, ...stowing.changes], writer, what);
  const now = lotsOfPart(...(await rowsOf(store, part)), dayOfIso(today));
  const lots = now.flatMap((lot) => {
    const pieces = stowing.into.get(lot.id);
    return pieces === undefined ? [] : [movementOf({ lot, pieces }, lot.quantity, "in")];
  });
  return {
    sentence: `${what}.`,
    sequence: receipt.sequence,
    part: referenceTo(part),
    place: { id: place.id, label: place.label, name: place.name, title: place.title },
    lots,
    taken: takings.map((taking) =>
      movementOf(taking, taking.lot.quantity - taking.pieces, "taken from"),
    ),
    notices: [
      ...notes.map((text) => ({ code: "value-read", text })),
      ...lots
        .filter(({ state }) => state !== "usable")
        .map(({ state }) => ({
          code: "stock-not-usable",
          text:
            state === "date unknown"
              ? "This part perishes and no date was given: it counts as out of date. Give the date on the packet."
              : `These pieces are ${state} and do not count as aboard.`,
        })),
    ],
    cautions: [...cautions],
  };
}

async function rowsOf(store: GraphStore, part: NodeRecord): Promise<[Snapshot, number]> {
  const snapshot = await store.snapshot();
  return [snapshot, partRow(snapshot, part)];
}

/** The lots pieces are moved from: one by id, or those in a place, first out of date first. */
async function takingsFrom(
  store: GraphStore,
  part: NodeRecord,
  { from = "", vessel, quantity }: StowRequest,
  to: Place,
  today: string,
): Promise<readonly Taking[]> {
  const [snapshot, row] = await rowsOf(store, part);
  const all = lotsOfPart(snapshot, row, dayOfIso(today));
  const byId = all.filter(({ id }) => id === from.trim());
  const source = byId.length > 0 ? undefined : await findPlace(store, from, vessel);
  const lots =
    source === undefined
      ? byId
      : all.filter((lot) => isIn(snapshot, lot, source) && !isIn(snapshot, lot, to));
  const there = lots.reduce((sum, lot) => sum + lot.quantity, 0);
  if (there < quantity) {
    throw new Problem(
      "input-invalid",
      `No more pieces can be moved than are there; ${plural(quantity, "piece")} of ${partWords(part)} were asked of ${source?.title ?? "that lot"}, which holds ${there}. Correct the number, or the place.`,
      { places: [{ pointer: "/quantity", detail: `at most ${there}` }] },
    );
  }
  return takePieces(lots, quantity);
}

const keyIn = (place: Place, part: NodeRecord, properties: Properties): NodeKey =>
  nodeKey("StockLot", properties, (type) => (type === "STOWED_IN" ? place.key : part.key));

function newLot(
  id: NodeId,
  key: NodeKey,
  properties: Properties,
  part: NodeRecord,
  place: Place,
): readonly ProposedChange[] {
  return [
    { kind: "create-node", label: "StockLot", id, key, properties },
    { kind: "create-link", type: "LOT_OF", from: id, to: part.id, properties: {} },
    { kind: "create-link", type: "STOWED_IN", from: id, to: place.id, properties: {} },
  ];
}

async function added(
  store: GraphStore,
  part: NodeRecord,
  place: Place,
  properties: Properties & { readonly quantity: number },
): Promise<Stowing> {
  const key = keyIn(place, part, properties);
  const { quantity } = properties;
  const known = await store.nodeByKey("StockLot", key);
  if (known === undefined) {
    const id = await freeId(store, "StockLot", key);
    return { changes: newLot(id, key, properties, part, place), into: new Map([[id, quantity]]) };
  }
  const had = Number(known.properties["quantity"] ?? 0);
  return {
    changes: [
      {
        kind: "update-node",
        id: known.id,
        basedOn: known.version,
        set: { quantity: had + quantity },
      },
    ],
    into: new Map([[known.id, quantity]]),
  };
}

/** Like comes to like: what is taken joins a lot of the same date there, or goes as a lot of its own. */
async function moved(
  store: GraphStore,
  part: NodeRecord,
  place: Place,
  takings: readonly Taking[],
): Promise<Stowing> {
  const changes: ProposedChange[] = [];
  const into = new Map<NodeId, number>();
  const groups = new Map<NodeKey, { readonly lot: NodeRecord; readonly pieces: number }[]>();
  for (const { lot, pieces } of takings) {
    const record = await lotRecord(store, lot);
    const key = keyIn(place, part, record.properties);
    groups.set(key, [...(groups.get(key) ?? []), { lot: record, pieces }]);
  }
  for (const [key, group] of groups) {
    const known = await store.nodeByKey("StockLot", key);
    const sum = group.reduce((total, { pieces }) => total + pieces, 0);
    const had = Number(known?.properties["quantity"] ?? 0);
    const isEmptied = ({ lot, pieces }: (typeof group)[number]): boolean =>
      Number(lot.properties["quantity"] ?? 0) === pieces;
    // A lot that goes whole keeps its identity and what was kept beside it.
    const carrier = known === undefined ? group.find(isEmptied)?.lot : undefined;
    for (const { lot, pieces } of group) {
      if (lot === carrier) continue;
      const left = Number(lot.properties["quantity"] ?? 0) - pieces;
      changes.push(
        left > 0
          ? { kind: "update-node", id: lot.id, basedOn: lot.version, set: { quantity: left } }
          : { kind: "delete-node", id: lot.id, basedOn: lot.version },
      );
    }
    let id = known?.id ?? carrier?.id;
    if (known !== undefined) {
      const set = { quantity: had + sum };
      changes.push({ kind: "update-node", id: known.id, basedOn: known.version, set });
    } else if (carrier !== undefined) {
      changes.push(...(await carriedTo(store, carrier, place, key, sum)));
    } else {
      id = await freeId(store, "StockLot", key);
      const properties = { ...group[0]?.lot.properties, quantity: sum };
      changes.push(...newLot(id, key, properties, part, place));
    }
    if (id === undefined) continue;
    into.set(id, sum);
  }
  return { changes, into };
}

async function carriedTo(
  store: GraphStore,
  lot: NodeRecord,
  place: Place,
  key: NodeKey,
  quantity: number,
): Promise<readonly ProposedChange[]> {
  const { id, version } = lot;
  const gone = (await store.linksFrom(id, "STOWED_IN")).map(
    ({ type, from, to, version: basedOn }): ProposedChange => ({
      kind: "delete-link",
      type,
      from,
      to,
      basedOn,
    }),
  );
  return [
    { kind: "update-node", id, basedOn: version, set: { quantity }, key },
    ...gone,
    { kind: "create-link", type: "STOWED_IN", from: id, to: place.id, properties: {} },
  ];
}
