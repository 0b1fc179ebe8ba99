import type { LinkRecord, NodeRecord } from "../../../importers/change-set.ts";
import type { ExportRow } from "./export-row.ts";
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

/** The first lot of the part still to be told that is aboard the row's own vessel. */
function takeLot(
  view: GraphView,
  untold: Untold,
  part: NodeRecord,
  vessel: string,
): NodeRecord | undefined {
  const lots = untold.lots.get(part.id) ?? [];
  const at = lots.findIndex(
    (lot) => lockerFields(view, view.one("STOWED_IN", lot.id))["Vessel.name"] === vessel,
  );
  return at < 0 ? undefined : lots.splice(at, 1)[0];
}

function lineRow(
  view: GraphView,
  untold: Untold,
  gear: ExportRow["records"],
  uses: LinkRecord,
): ExportRow {
  const part = view.node(uses.to);
  if (part === undefined) return { records: gear };
  const vessel = String(gear.Vessel?.properties["name"] ?? "");
  const lot = vessel === "" ? undefined : takeLot(view, untold, part, vessel);
  const place = lot === undefined ? {} : lockerFields(view, view.one("STOWED_IN", lot.id));
  const offer = untold.offers.get(part.id)?.shift();
  return {
    records: { ...gear, Part: part, USES: uses, StockLot: lot, ...offerRecords(view, offer) },
    fields: { ...partFields(view, part), ...place },
  };
}

/** Rows of one item: one per part it takes, and as many as it serves functions. */
function itemRows(view: GraphView, untold: Untold, item: NodeRecord): ExportRow[] {
  const gear = itemRecords(view, item);
  const model = view.one("IS_MODEL", item.id);
  const lines = model === undefined ? [] : view.from("USES", model.id);
  const served = view.from("SERVES", item.id).map((link) => view.node(link.to));
  const count = Math.max(1, lines.length, served.length);
  return Array.from({ length: count }, (_, at) => {
    const records = { ...gear, RequiredFunction: served[at % Math.max(1, served.length)] };
    const uses = lines[at % Math.max(1, lines.length)];
    return uses === undefined ? { records } : lineRow(view, untold, records, uses);
  });
}

/** What no row of gear told: further lots and suppliers of parts, and parts nothing takes. */
function restRows(view: GraphView, untold: Untold, told: ReadonlySet<string>): ExportRow[] {
  return view.all("Part").flatMap((part) => {
    const offers = untold.offers.get(part.id) ?? [];
    const lots = untold.lots.get(part.id) ?? [];
    const least = told.has(part.id) ? 0 : 1;
    return Array.from(
      { length: Math.max(least, offers.length, lots.length) },
      (_, at): ExportRow => {
        const lot = lots[at];
        return {
          records: { Part: part, StockLot: lot, ...offerRecords(view, offers[at]) },
          fields: {
            ...partFields(view, part),
            ...(lot === undefined ? {} : lockerFields(view, view.one("STOWED_IN", lot.id))),
          },
        };
      },
    );
  });
}

/**
 * The flat list: a row for a piece of gear, a part it takes, who sells it and what is aboard. Each lot and offer
 * stands in one row only; those no row of gear has room for follow at the end. O(items × parts each).
 */
export function flatRows(view: GraphView): ExportRow[] {
  const untold = untoldIn(view);
  const rows = view.all("FittedItem").flatMap((item) => itemRows(view, untold, item));
  const fitted = new Set(view.all("FittedItem").map((item) => view.one("IS_MODEL", item.id)?.id));
  for (const model of view.all("Model")) {
    if (fitted.has(model.id)) continue;
    const gear = modelRecords(view, model);
    for (const uses of view.from("USES", model.id)) rows.push(lineRow(view, untold, gear, uses));
  }
  const told = new Set(
    view.all("Model").flatMap((model) => view.from("USES", model.id).map(({ to }) => to)),
  );
  return [...rows, ...restRows(view, untold, told)];
}
