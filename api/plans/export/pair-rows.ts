import type { NodeId, RelationshipType } from "../../../graph-schema/index.ts";
import type { NodeRecord } from "../../../importers/change-set.ts";
import type { ExportRow } from "./export-row.ts";
import type { Facts, GraphView } from "./graph-view.ts";
import { partRecords } from "./row-pieces.ts";

type Fields = NonNullable<ExportRow["fields"]>;

/** The second part of a row that names two: its maker, number and description under the fields given. */
function otherPart(
  view: GraphView,
  part: NodeRecord | undefined,
  [maker, number, words]: readonly [string, string, string],
): Fields {
  const said = (of: NodeRecord | undefined, property: string): string =>
    String(of?.properties[property] ?? "");
  return {
    [maker]: said(view.one("MADE_BY", part?.id), "name"),
    [number]: said(part, "partNumber"),
    [words]: said(part, "description"),
  };
}

/** A row for each relationship of a type between two parts; `first` tells which end has the plain columns. */
function pairRows(
  view: GraphView,
  type: RelationshipType,
  first: "from" | "to",
  fields: readonly [string, string, string],
): ExportRow[] {
  const second = first === "from" ? "to" : "from";
  return view.all("Part").flatMap((part) =>
    view.from(type, part.id).map((link): ExportRow => {
      const records = { ...partRecords(view, view.node(link[first])), [type]: link };
      return { records, fields: otherPart(view, view.node(link[second]), fields) };
    }),
  );
}

export const interchangeRows = (view: GraphView): ExportRow[] =>
  pairRows(view, "INTERCHANGES_WITH", "from", [
    "INTERCHANGES_WITH.otherMaker",
    "INTERCHANGES_WITH.otherPart",
    "INTERCHANGES_WITH.otherDescription",
  ]);

export const supersessionRows = (view: GraphView): ExportRow[] =>
  pairRows(view, "SUPERSEDED_BY", "from", [
    "SUPERSEDED_BY.newMaker",
    "SUPERSEDED_BY.newPart",
    "SUPERSEDED_BY.newDescription",
  ]);

export const kitRows = (view: GraphView): ExportRow[] =>
  pairRows(view, "CONTAINS", "to", [
    "CONTAINS.kitMaker",
    "CONTAINS.kit",
    "CONTAINS.kitDescription",
  ]);

/** The entries of a property that is a document of entries. */
const entriesOf = (node: NodeRecord, property: string): readonly Record<string, unknown>[] => {
  const document = node.properties[property];
  return Array.isArray(document) ? document : [];
};

const shown = (value: unknown): string => (value === undefined ? "" : String(value));

/** A row for each line of an order, its supplier and the order's own state repeated. */
export function orderRows(view: GraphView): ExportRow[] {
  return view.all("Order").flatMap((order) =>
    entriesOf(order, "lines").map((line): ExportRow => {
      const { part, quantity, priceMinor, currency, expected } = line;
      const offer: Facts | undefined =
        typeof priceMinor === "number"
          ? { properties: { priceMinor, currency: shown(currency) }, extra: {} }
          : undefined;
      return {
        records: {
          Order: order,
          Supplier: view.one("ORDERED_FROM", order.id),
          ...partRecords(view, view.node(shown(part) as NodeId)),
          OFFERS: offer,
        },
        fields: {
          "Order.quantity": shown(quantity),
          ...(expected === undefined ? {} : { "Order.expected": shown(expected) }),
        },
      };
    }),
  );
}

/** A row for each leg of a crossing, numbered in their order. */
export function legRows(view: GraphView): ExportRow[] {
  return view.all("Crossing").flatMap((crossing) =>
    entriesOf(crossing, "legs").map(
      (leg, at): ExportRow => ({
        records: { Crossing: crossing },
        fields: {
          "Crossing.legNumber": String(at + 1),
          "Crossing.legFrom": shown(leg["from"]),
          "Crossing.legTo": shown(leg["to"]),
          "Crossing.legDays": shown(leg["days"]),
          "Crossing.legLongest": shown(leg["longestDays"]),
        },
      }),
    ),
  );
}
