import type { NodeRecord } from "../../../importers/change-set.ts";
import type { ExportRow } from "./export-row.ts";
import type { GraphView } from "./graph-view.ts";

type Records = ExportRow["records"];
type Fields = NonNullable<ExportRow["fields"]>;

/** How a locker's place is written in one cell, outermost first; importers part it again. */
const within = " > ";

/** A model with its maker. */
export const modelRecords = (view: GraphView, model: NodeRecord | undefined): Records => ({
  Model: model,
  Maker: view.one("MADE_BY", model?.id),
});

/** A fitted item with its vessel, model and the model's maker. */
export const itemRecords = (view: GraphView, item: NodeRecord): Records => ({
  FittedItem: item,
  Vessel: view.one("FITTED_ON", item.id),
  ...modelRecords(view, view.one("IS_MODEL", item.id)),
});

/** A part with its maker in the list's one column for makers. */
export const partRecords = (view: GraphView, part: NodeRecord | undefined): Records => ({
  Part: part,
  Maker: view.one("MADE_BY", part?.id),
});

/** The maker of a part where another column names the maker of the gear. */
export function partFields(view: GraphView, part: NodeRecord | undefined): Fields {
  const name = view.one("MADE_BY", part?.id)?.properties["name"];
  return { "Part.maker": typeof name === "string" ? name : "" };
}

const placesOf = new WeakMap<GraphView, Map<NodeRecord, Fields>>();

/** Vessel and nested locker of a place that is a locker or the vessel itself; worked out once per place. */
export function lockerFields(view: GraphView, place: NodeRecord | undefined): Fields {
  if (place === undefined) return { "Vessel.name": "", "Locker.name": "" };
  const places = placesOf.get(view) ?? new Map<NodeRecord, Fields>();
  placesOf.set(view, places);
  const known = places.get(place) ?? pathTo(view, place);
  places.set(place, known);
  return known;
}

function pathTo(view: GraphView, place: NodeRecord): Fields {
  const names: string[] = [];
  let at: NodeRecord | undefined = place;
  while (at !== undefined && at.label === "Locker" && names.length < 50) {
    names.unshift(String(at.properties["name"] ?? ""));
    at = view.one("IS_WITHIN", at.id);
  }
  const vessel = at?.label === "Vessel" ? String(at.properties["name"] ?? "") : "";
  return { "Vessel.name": vessel, "Locker.name": names.join(within) };
}
