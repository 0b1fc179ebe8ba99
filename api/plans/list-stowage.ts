import type { NodeId } from "../../graph-schema/index.ts";
import type {
  StowageAnswer,
  StowageLot,
  StowagePlace,
  StowageRequest,
} from "../contract/stowage.contract.ts";
import { dayOfIso, isoOfDay } from "../scoring/aboard/calendar.ts";
import { lotLastDay } from "../scoring/aboard/usable-stock.ts";
import type { Snapshot } from "../scoring/snapshot/snapshot.ts";
import type { GraphStore } from "../store/graph-store.ts";
import { cautions } from "./cautions.ts";
import { dueLots } from "./due/due-lots.ts";
import { dueSpan } from "./due/due-span.ts";
import { findPlace } from "./stock/find-place.ts";
import { shipWalk } from "./stock/ship-walk.ts";
import { plural } from "./words.ts";

const usualLimit = 500;
const mostVessels = 1_000;
/** With more lockers than this, those of other vessels stay behind their vessel's name. */
const fewLockers = 200;

/** Lots of one vessel, first to use first, each with the row of its locker (-1: on the vessel itself). */
function lotsInOrder(snapshot: Snapshot, vessel: number): readonly number[] {
  const { lots, parts } = snapshot;
  const rows = [...lots.id.keys()].filter((row) => lots.vessel[row] === vessel);
  const lastDay = new Map(rows.map((row) => [row, lotLastDay(snapshot, row) ?? Infinity]));
  const numberOf = (row: number) => parts.partNumber[lots.part[row] ?? -1] ?? "";
  return rows.sort((a, b) => {
    const first = lastDay.get(a) ?? 0;
    const second = lastDay.get(b) ?? 0;
    return first === second ? collator.compare(numberOf(a), numberOf(b)) : first - second;
  });
}

const collator = new Intl.Collator("en", { numeric: true });

/**
 * What lies in a place and in what is within it, a page at a time, first to use first, each lot with whether it is good for the
 * vessel's next crossing; and the places beside it with how many lots lie in each. Reads one vessel's part of the graph
 * only. Errors: `not-found` (place), `input-invalid` where several places are meant.
 */
export async function listStowage(
  store: GraphStore,
  request: StowageRequest,
  today: string,
): Promise<StowageAnswer> {
  const { offset = 0, limit = usualLimit } = request;
  const vessels = (await store.list("Vessel", 0, mostVessels)).map(({ id, properties }) => ({
    id,
    name: String(properties["name"] ?? ""),
  }));
  const asked =
    request.place === undefined ? undefined : await findPlace(store, request.place, undefined);
  const home =
    asked === undefined
      ? [...vessels].sort((a, b) => collator.compare(a.name, b.name))[0]?.id
      : await vesselOf(store, asked.id);
  const day = dayOfIso(today);
  const { until, notices } = await dueSpan(store, home === undefined ? {} : { vessel: home }, day);
  const isFew = (await store.count("Locker")) <= fewLockers;
  const walk = await shipWalk(
    store,
    vessels.filter(({ id }) => isFew || id === home),
  );
  const others = vessels
    .filter(({ id }) => !isFew && id !== home)
    .map(
      ({ id, name }): StowagePlace => ({
        id,
        name,
        path: name,
        depth: 0,
        vessel: id,
        lots: null,
        attention: null,
      }),
    );
  const open = walk.find(({ id }) => id === (asked?.id ?? home));
  if (home === undefined || open === undefined)
    return {
      sentence: "No vessel is on file yet, so nothing is stowed.",
      today,
      until: isoOfDay(until),
      place: null,
      places: [],
      total: 0,
      pieces: 0,
      attention: 0,
      offset,
      lots: [],
      notices,
      cautions: [...cautions],
    };
  const snapshot = await store.snapshot(home);
  const vessel = snapshot.vessels.id.indexOf(home);
  const due = new Map(
    dueLots(snapshot, vessel, day, until).map((lot) => [lot.lot.id, lot] as const),
  );
  const { lots, lockers, parts, makers } = snapshot;
  const placeIdOf = (row: number): string => lockers.id[lots.locker[row] ?? -1] ?? home;
  const rows = lotsInOrder(snapshot, vessel);
  const counted = countPlaces(
    walk,
    rows.map((row) => ({
      placeId: placeIdOf(row),
      isBad: due.has(String(lots.id[row])),
    })),
    home,
  );
  const within = idsWithin(walk, open);
  const inside = rows.filter((row) => within.has(placeIdOf(row)));
  const pieces = inside.reduce((sum, row) => sum + (lots.quantity[row] ?? 0), 0);
  const attention = inside.filter((row) => due.has(String(lots.id[row]))).length;
  return {
    sentence:
      inside.length === 0
        ? `Nothing is stowed in ${open.name}.`
        : `${plural(pieces, "piece")} in ${plural(inside.length, "lot")} ${pieces === 1 ? "lies" : "lie"} in ${open.path}${attention === 0 ? "" : `; ${plural(attention, "lot needs", "lots need")} a look before ${isoOfDay(until)}`}.`,
    today,
    until: isoOfDay(until),
    place: counted.find(({ id }) => id === open.id) ?? open,
    places: [...counted, ...others],
    total: inside.length,
    pieces,
    attention,
    offset,
    lots: inside.slice(offset, offset + limit).map((row): StowageLot => {
      const part = lots.part[row] ?? -1;
      const found = due.get(String(lots.id[row]));
      const lastDay = lotLastDay(snapshot, row);
      return {
        id: String(lots.id[row] ?? ""),
        part: {
          id: String(parts.id[part] ?? ""),
          label: "Part",
          name: parts.partNumber[part] ?? "",
        },
        maker: makers.name[parts.maker[part] ?? -1] ?? "",
        description: parts.description[part] ?? "",
        placeId: placeIdOf(row),
        pieces: lots.quantity[row] ?? 0,
        lastDay: lastDay === undefined ? null : isoOfDay(lastDay),
        state: found?.state ?? "usable",
        words: found?.words ?? "",
      };
    }),
    notices,
    cautions: [...cautions],
  };
}

const deepest = 50;

/** The vessel a place is on: itself, or that of the locker round it. */
async function vesselOf(store: GraphStore, place: NodeId): Promise<NodeId | undefined> {
  let at: NodeId | undefined = place;
  for (let depth = 0; at?.startsWith("Locker:") === true && depth < deepest; depth++)
    at = (await store.linksFrom(at, "IS_WITHIN"))[0]?.to;
  return at?.startsWith("Vessel:") === true ? at : undefined;
}

/** Ids of a place and of all within it: those that follow it in the walk and lie deeper. */
function idsWithin(walk: readonly StowagePlace[], open: StowagePlace): ReadonlySet<string> {
  const from = walk.indexOf(open);
  const after = walk.slice(from + 1).findIndex(({ depth }) => depth <= open.depth);
  const end = after < 0 ? walk.length : from + 1 + after;
  return new Set(walk.slice(from, end).map(({ id }) => id));
}

/** The walk with counts for the places of one vessel, each with what lies deeper counted in. */
function countPlaces(
  walk: readonly StowagePlace[],
  lots: readonly { readonly placeId: string; readonly isBad: boolean }[],
  vessel: string,
): readonly StowagePlace[] {
  const own = new Map<string, { lots: number; bad: number }>();
  for (const { placeId, isBad } of lots) {
    const tally = own.get(placeId) ?? { lots: 0, bad: 0 };
    own.set(placeId, { lots: tally.lots + 1, bad: tally.bad + Number(isBad) });
  }
  return walk.map((place) => {
    if (place.vessel !== vessel) return place;
    let sum = 0;
    let bad = 0;
    for (const id of idsWithin(walk, place)) {
      sum += own.get(id)?.lots ?? 0;
      bad += own.get(id)?.bad ?? 0;
    }
    return { ...place, lots: sum, attention: bad };
  });
}
