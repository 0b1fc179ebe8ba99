import type { NodeLabel, RelationshipType } from "../../../graph-schema/index.ts";
import type { LinkRecord, NodeRecord } from "../../../importers/change-set.ts";
import { type ExportRow, hasExtra } from "./export-row.ts";
import type { GraphView } from "./graph-view.ts";
import { itemRecords, lockerFields, modelRecords, partFields } from "./row-pieces.ts";

/** What is still to be told of each part: who sells it, what is aboard. */
interface Untold {
  readonly offers: Map<string, LinkRecord[]>;
  readonly lots: Map<string, NodeRecord[]>;
}

function untoldIn(view: GraphView): Untold {
  const offers = new Map<string, LinkRecord[]>();
  const lots = new Map<string, NodeRecord[]>();
  for (const part of view.all("Part")) {
    offers.set(part.id, [...view.to("OFFERS", part.id)]);
    const held = view.to("LOT_OF", part.id).map((link) => view.node(link.from));
    lots.set(
      part.id,
      held.filter((lot) => lot !== undefined),
    );
  }
  return { offers, lots };
}

const offerRecords = (view: GraphView, offer: LinkRecord | undefined): ExportRow["records"] =>
  offer === undefined ? {} : { OFFERS: offer, Supplier: view.node(offer.from) };

const lotFields = (view: GraphView, lot: NodeRecord | undefined) =>
  lot === undefined ? {} : lockerFields(view, view.one("STOWED_IN", lot.id));

/** None in no particular place: beside other things that says no more than an empty cell would. */
const isNoneNowhere = (view: GraphView, lot: NodeRecord): boolean =>
  lot.properties["quantity"] === 0 && lotFields(view, lot)["Locker.name"] === "";

/** Lots that need a row of their own to be told in full. */
const standsAlone = (view: GraphView, lot: NodeRecord): boolean =>
  hasExtra(lot) || isNoneNowhere(view, lot);

/** Takes the first that fits out of a list. */
function takeFirst<T>(list: T[] | undefined, fits: (one: T) => boolean): T | undefined {
  const at = list?.findIndex(fits) ?? -1;
  return at < 0 ? undefined : list?.splice(at, 1)[0];
}

/** A model's line, with a lot aboard the item's own vessel and a supplier beside it where rows of their own need not. */
function lineRow(
  view: GraphView,
  untold: Untold,
  gear: ExportRow["records"],
  uses: LinkRecord,
): ExportRow {
  const part = view.node(uses.to);
  if (part === undefined) return { records: gear };
  const vessel = gear.Vessel?.properties["name"];
  const lot = takeFirst(
    untold.lots.get(part.id),
    (one) => !standsAlone(view, one) && lotFields(view, one)["Vessel.name"] === vessel,
  );
  const offer = takeFirst(untold.offers.get(part.id), (one) => !hasExtra(one));
  return {
    records: { ...gear, Part: part, USES: uses, StockLot: lot, ...offerRecords(view, offer) },
    fields: { ...partFields(view, part), ...lotFields(view, lot) },
  };
}

/** Rows of one item: one per part it takes, as many as it serves functions, one of its own where columns hang on it. */
function itemRows(view: GraphView, untold: Untold, item: NodeRecord): ExportRow[] {
  const gear = itemRecords(view, item);
  const model = view.one("IS_MODEL", item.id);
  const lines = model === undefined ? [] : view.from("USES", model.id);
  const served = view.from("SERVES", item.id).map((link) => view.node(link.to));
  const count = Math.max(lines.length, served.length);
  const rows = Array.from({ length: count }, (_, at): ExportRow => {
    const records = { ...gear, RequiredFunction: served[at % Math.max(1, served.length)] };
    const uses = lines[at % Math.max(1, lines.length)];
    return uses === undefined ? { records } : lineRow(view, untold, records, uses);
  });
  return count === 0 || hasExtra(item) ? [{ records: gear }, ...rows] : rows;
}

/** What no row of gear told: further lots and suppliers of parts. */
function restRows(view: GraphView, untold: Untold): ExportRow[] {
  return view.all("Part").flatMap((part) => {
    const row = (lot: NodeRecord | undefined, offer: LinkRecord | undefined): ExportRow => ({
      records: { Part: part, StockLot: lot, ...offerRecords(view, offer) },
      fields: { ...partFields(view, part), ...lotFields(view, lot) },
    });
    const offers = untold.offers.get(part.id) ?? [];
    const plain = offers.filter((offer) => !hasExtra(offer));
    const untoldLots = untold.lots.get(part.id) ?? [];
    const lots = untoldLots.filter((lot) => !isNoneNowhere(view, lot));
    const nones = untoldLots.filter((lot) => isNoneNowhere(view, lot));
    const paired = Array.from({ length: Math.max(plain.length, lots.length) }, (_, at) =>
      row(lots[at], plain[at]),
    );
    return [
      ...offers.filter(hasExtra).map((offer) => row(undefined, offer)),
      ...paired,
      ...nones.map((lot) => row(lot, undefined)),
    ];
  });
}

/** Models and parts that no row about something else names, or on which columns of their own hang. */
export function looseRows(view: GraphView): ExportRow[] {
  const models = view
    .all("Model")
    .filter(
      (model) =>
        hasExtra(model) ||
        (view.from("USES", model.id).length === 0 &&
          view.to("IS_MODEL", model.id).length === 0 &&
          view.to("SERVICE_OF", model.id).length === 0),
    );
  const parts = view
    .all("Part")
    .filter(
      (part) =>
        hasExtra(part) ||
        (["USES", "OFFERS", "LOT_OF", "CONSUMES"] as const).every(
          (type) => view.to(type, part.id).length === 0,
        ),
    );
  return [
    ...models.map((model): ExportRow => ({ records: modelRecords(view, model) })),
    ...parts.map(
      (part): ExportRow => ({ records: { Part: part }, fields: partFields(view, part) }),
    ),
  ];
}

/**
 * The flat list: a row for a piece of gear, a part it takes, who sells it and what is aboard. Each lot and offer
 * stands in one row only; those no row of gear has room for follow. O(items × parts each).
 */
export function flatRows(view: GraphView): ExportRow[] {
  const untold = untoldIn(view);
  const rows = view.all("FittedItem").flatMap((item) => itemRows(view, untold, item));
  for (const model of view.all("Model")) {
    if (view.to("IS_MODEL", model.id).length > 0) continue;
    const gear = modelRecords(view, model);
    for (const uses of view.from("USES", model.id)) rows.push(lineRow(view, untold, gear, uses));
  }
  return [
    ...rows,
    ...restRows(view, untold),
    ...looseRows(view),
    ...bareFunctions(view),
    ...bareLockers(view),
  ];
}

/** Functions that no gear serves. */
const bareFunctions = (view: GraphView): ExportRow[] =>
  view
    .all("RequiredFunction")
    .filter((need) => view.to("SERVES", need.id).length === 0)
    .map((need) => ({
      records: { RequiredFunction: need, Vessel: view.one("REQUIRED_ON", need.id) },
    }));

/** Lockers with nothing in them, neither stock nor lockers. */
const bareLockers = (view: GraphView): ExportRow[] =>
  view
    .all("Locker")
    .filter(
      (locker) =>
        view.to("STOWED_IN", locker.id).length === 0 &&
        view.to("IS_WITHIN", locker.id).length === 0,
    )
    .map((locker) => ({ records: { Locker: locker }, fields: lockerFields(view, locker) }));

/** What the graph holds that a flat list has no columns for, in words; the other lists hold it. */
export function leftOutOfFlat(view: GraphView): readonly string[] {
  const links = (type: RelationshipType, from: NodeLabel): number =>
    view.all(from).reduce((sum, node) => sum + view.from(type, node.id).length, 0);
  const counts: readonly (readonly [number, string, string])[] = [
    [view.all("ServiceTask").length, "service", "services"],
    [view.all("Crossing").length, "crossing", "crossings"],
    [links("INTERCHANGES_WITH", "Part"), "interchange", "interchange"],
    [links("SUPERSEDED_BY", "Part"), "replaced number", "supersession"],
    [links("CONTAINS", "Part"), "line of a service kit", "kits"],
    [view.all("Order").length, "order", "orders"],
    [
      view
        .all("Locker")
        .filter(
          ({ properties, extra }) =>
            properties["capacityLitres"] !== undefined ||
            properties["access"] !== undefined ||
            Object.keys(extra).length > 0,
        ).length,
      "locker's room or access",
      "lockers",
    ],
    [
      view.all("RequiredFunction").filter(hasExtra).length,
      "function's further columns",
      "functions",
    ],
    [view.all("Supplier").filter(hasExtra).length, "supplier's further columns", "suppliers"],
  ];
  return counts
    .filter(([count]) => count > 0)
    .map(([count, what, list]) => `${count} × ${what} (list ${list})`);
}
