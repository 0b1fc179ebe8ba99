import { relationshipTypes } from "../../../../graph-schema/index.ts";
import type { Snapshot } from "../../../scoring/snapshot/snapshot.ts";
import { codes, days, numbers, texts, yesNos } from "./cells.ts";
import type { GraphRows, NodeRows } from "./graph-rows.ts";

/** Parts and what ties them to each other. */
export function readParts(graph: GraphRows, makers: NodeRows) {
  const parts = graph.nodes("Part", [
    "partNumber",
    "description",
    "massKg",
    "volumeLitres",
    "shelfLifeMonths",
    "serviceLifeMonths",
    "isSafety",
  ]);
  const interchange = graph.pairs("INTERCHANGES_WITH", parts, parts, ["confidence", "source"]);
  const supersession = graph.pairs("SUPERSEDED_BY", parts, parts, ["source"]);
  const contains = graph.pairs("CONTAINS", parts, parts, ["quantity"]);
  const columns: Pick<Snapshot, "parts" | "interchange" | "supersession" | "contains"> = {
    parts: {
      id: parts.id,
      partNumber: texts(parts.rows, 0),
      description: texts(parts.rows, 1),
      maker: graph.reference("MADE_BY", parts, makers),
      massKg: numbers(parts.rows, 2),
      volumeLitres: numbers(parts.rows, 3),
      shelfLifeMonths: numbers(parts.rows, 4),
      serviceLifeMonths: numbers(parts.rows, 5),
      isSafety: yesNos(parts.rows, 6, 0),
    },
    interchange: {
      a: interchange.from,
      b: interchange.to,
      confidence: codes(
        interchange.rows,
        0,
        relationshipTypes.INTERCHANGES_WITH.properties.confidence.choices ?? [],
        1,
        0,
      ),
      source: texts(interchange.rows, 1),
    },
    supersession: {
      older: supersession.from,
      newer: supersession.to,
      source: texts(supersession.rows, 0),
    },
    contains: {
      kit: contains.from,
      part: contains.to,
      quantity: numbers(contains.rows, 0),
    },
  };
  return { parts, columns };
}

/** Suppliers and what they offer. */
export function readOffers(
  graph: GraphRows,
  parts: NodeRows,
): Pick<Snapshot, "suppliers" | "offers"> {
  const suppliers = graph.nodes("Supplier", ["name", "port", "country", "contact"]);
  const offers = graph.adjacency("OFFERS", suppliers, parts, [
    "supplierCode",
    "priceMinor",
    "currency",
    "packSize",
    "minimumOrder",
    "leadTimeDays",
    "asOf",
  ]);
  return {
    suppliers: {
      id: suppliers.id,
      name: texts(suppliers.rows, 0),
      port: texts(suppliers.rows, 1),
      country: texts(suppliers.rows, 2),
      contact: texts(suppliers.rows, 3),
    },
    offers: {
      ...offers.adjacency,
      supplierCode: texts(offers.rows, 0),
      priceMinor: numbers(offers.rows, 1),
      currency: texts(offers.rows, 2),
      packSize: numbers(offers.rows, 3),
      minimumOrder: numbers(offers.rows, 4),
      leadTimeDays: numbers(offers.rows, 5),
      asOfDay: days(offers.rows, 6),
    },
  };
}
