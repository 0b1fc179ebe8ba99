import { type NodeId, quoteName, type RelationshipType } from "../../../graph-schema/index.ts";
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

/** Relationships that are looked up from their target: a supplier offers far more than one vessel's parts. */
const fromTarget: ReadonlySet<RelationshipType> = new Set(["OFFERS"]);

/** Rows of the whole graph, or of the nodes in the table `chosen`: from those few (CROSS JOIN), never through all lines. */
const rowsOf = (connection: Connection, isChosen: boolean): RowSource => ({
  nodeRows: (label, properties) =>
    connection.rows(
      `SELECT ${[...properties.map((name) => `r.${quoteName(name)}`), "node.id", "r.n"].join(", ")}
       FROM ${isChosen ? "chosen CROSS JOIN " : ""}${quoteName(label)} r ${isChosen ? "ON r.n = chosen.n" : ""} JOIN node ON node.n = r.n ORDER BY r.key`,
    ),
  linkRows: (type, properties) => {
    const [near, far] = fromTarget.has(type) ? ["toNode", "fromNode"] : ["fromNode", "toNode"];
    const table = quoteName(type);
    const from = isChosen
      ? `chosen a CROSS JOIN ${table} r ON r.${near} = a.n CROSS JOIN chosen b ON b.n = r.${far}`
      : `${table} r`;
    return connection.rows(
      `SELECT ${[...properties, "fromNode", "toNode"].map((name) => `r.${quoteName(name)}`).join(", ")} FROM ${from}`,
    );
  },
});
