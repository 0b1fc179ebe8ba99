import type { NodeId } from "../../../graph-schema/index.ts";
import type { Snapshot } from "../../scoring/snapshot/snapshot.ts";
import type { Connection } from "./connection.ts";
import { days, numbers, texts } from "./snapshot/cells.ts";
import { chooseVessel } from "./snapshot/choose-vessel.ts";
import { usesColumns, usesProperties } from "./snapshot/evidence-columns.ts";
import { readGear, readServices } from "./snapshot/gear.ts";
import { GraphRows } from "./snapshot/graph-rows.ts";
import { readOffers, readParts } from "./snapshot/parts.ts";
import { readStowage } from "./snapshot/stowage.ts";

/**
 * The columnar picture, read in one transaction so that it shows one moment: of everything, or of one vessel
 * with its gear, functions, lockers and lots, the models it has, the parts those use or services take or that
 * lie aboard with their alternates, successors and contents, who offers them, and the crossings it sails.
 * Nodes stand in order of their keys, lines in order of their ends: the order of writing changes nothing.
 * Errors: `not-found` for a vessel that does not exist.
 */
export function readSnapshot(connection: Connection, vessel?: NodeId): Snapshot {
  return connection.transaction("read", () => {
    if (vessel !== undefined) chooseVessel(connection, vessel);
    const graph = new GraphRows(connection, vessel !== undefined);
    const vessels = graph.nodes("Vessel", ["name"]);
    const makers = graph.nodes("Maker", ["name"]);
    const gear = readGear(graph, vessels, makers);
    const { parts, columns: partColumns } = readParts(graph, makers);
    const uses = graph.adjacency("USES", gear.models, parts, usesProperties);
    const crossings = graph.nodes("Crossing", ["name", "departs", "daysExpected", "daysLongest"]);
    return {
      vessels: { id: vessels.id, name: texts(vessels.rows, 0) },
      makers: { id: makers.id, name: texts(makers.rows, 0) },
      ...gear.columns,
      ...partColumns,
      uses: { ...uses.adjacency, ...usesColumns(uses.rows) },
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
  });
}
