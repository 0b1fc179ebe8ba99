import type { GearPicture, Snapshot } from "../../../scoring/snapshot/snapshot.ts";
import { days, numbers, texts } from "./cells.ts";
import { listColumns, listProperties, usesColumns, usesProperties } from "./evidence-columns.ts";
import { readGear, readServices } from "./gear.ts";
import { GraphRows, type NodeRows } from "./graph-rows.ts";
import { readOffers, readParts } from "./parts.ts";
import type { RowSource } from "./row-source.ts";
import { readStowage } from "./stowage.ts";

/**
 * The columnar picture of what the source gives. Nodes stand in order of their keys, lines in order of their
 * ends: the order of writing changes nothing.
 */
export const buildSnapshot = (source: RowSource): Snapshot =>
  build(source, (graph, models, parts) => {
    const { adjacency, rows } = graph.adjacency("USES", models, parts, usesProperties);
    return { ...adjacency, ...usesColumns(rows) };
  });

/** The same without the evidence on parts lists. */
export const buildGearPicture = (source: RowSource): GearPicture =>
  build(source, (graph, models, parts) => {
    const { adjacency, rows } = graph.adjacency("USES", models, parts, listProperties);
    return { ...adjacency, ...listColumns(rows) };
  });

function build<U>(
  source: RowSource,
  usesOf: (graph: GraphRows, models: NodeRows, parts: NodeRows) => U,
): Omit<Snapshot, "uses"> & { readonly uses: U } {
  const graph = new GraphRows(source);
  const vessels = graph.nodes("Vessel", ["name"]);
  const makers = graph.nodes("Maker", ["name"]);
  const gear = readGear(graph, vessels, makers);
  const { parts, columns: partColumns } = readParts(graph, makers);
  const uses = usesOf(graph, gear.models, parts);
  const crossings = graph.nodes("Crossing", ["name", "departs", "daysExpected", "daysLongest"]);
  return {
    vessels: { id: vessels.id, name: texts(vessels.rows, 0) },
    makers: { id: makers.id, name: texts(makers.rows, 0) },
    ...gear.columns,
    ...partColumns,
    uses,
    ...readServices(graph, gear.models, gear.items, parts),
    ...readStowage(graph, vessels, parts),
    ...readOffers(graph, parts),
    crossings: {
      id: crossings.id,
      name: texts(crossings.rows, 0),
      departsDay: days(crossings.rows, 1),
      daysExpected: numbers(crossings.rows, 2),
      daysLongest: numbers(crossings.rows, 3),
    },
    sailedBy: graph.adjacency("SAILED_BY", crossings, vessels).adjacency,
  };
}
