import { type NodeId, quoteName } from "../../../graph-schema/index.ts";
import type { Snapshot } from "../../scoring/snapshot/snapshot.ts";
import { buildSnapshot } from "../shared/snapshot/build-snapshot.ts";
import type { RowSource } from "../shared/snapshot/row-source.ts";
import { chooseVessel } from "./choose-vessel.ts";
import type { Connection } from "./connection.ts";

/**
 * The columnar picture, read in one transaction so that it shows one moment: of everything, or of one vessel
 * with its gear, functions, lockers and lots, the models it has, the parts those use or services take or that
 * lie aboard with their alternates, successors and contents, who offers them, and the crossings it sails.
 * Errors: `not-found` for a vessel that does not exist.
 */
export function readSnapshot(connection: Connection, vessel?: NodeId): Snapshot {
  return connection.transaction("read", () => {
    if (vessel !== undefined) chooseVessel(connection, vessel);
    return buildSnapshot(rowsOf(connection, vessel !== undefined));
  });
}

/** Rows of the whole graph, or of the nodes in the table `chosen`. */
const rowsOf = (connection: Connection, isChosen: boolean): RowSource => ({
  nodeRows: (label, properties) =>
    connection.rows(
      `SELECT ${[...properties.map((name) => `r.${quoteName(name)}`), "node.id", "r.n"].join(", ")}
       FROM ${quoteName(label)} r JOIN node ON node.n = r.n ${isChosen ? "JOIN chosen ON chosen.n = r.n" : ""} ORDER BY r.key`,
    ),
  linkRows: (type, properties) =>
    connection.rows(
      `SELECT ${[...properties, "fromNode", "toNode"].map((name) => `r.${quoteName(name)}`).join(", ")}
       FROM ${quoteName(type)} r ${isChosen ? "JOIN chosen a ON a.n = r.fromNode JOIN chosen b ON b.n = r.toNode" : ""}`,
    ),
});
