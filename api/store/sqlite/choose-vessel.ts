import type { NodeId } from "../../../graph-schema/index.ts";
import { Problem } from "../../errors/problem.ts";
import type { Connection } from "./connection.ts";
import { nodeNumber } from "./read-records.ts";

/**
 * What belongs to one vessel, step by step: each adds the numbers of more nodes to the table `chosen`. CROSS JOIN keeps
 * SQLite to the order written: from the few that are chosen, never through a million lines.
 */
const steps: readonly string[] = [
  `SELECT fromNode FROM FITTED_ON WHERE toNode = $vessel`,
  `SELECT fromNode FROM REQUIRED_ON WHERE toNode = $vessel`,
  `WITH RECURSIVE aboard (n) AS (
     SELECT $vessel UNION SELECT fromNode FROM aboard CROSS JOIN IS_WITHIN ON toNode = aboard.n
   ) SELECT n FROM aboard`,
  `SELECT fromNode FROM chosen CROSS JOIN STOWED_IN ON toNode = chosen.n`,
  `SELECT toNode FROM chosen CROSS JOIN IS_MODEL ON fromNode = chosen.n`,
  `SELECT fromNode FROM chosen CROSS JOIN SERVICE_OF ON toNode = chosen.n`,
  // Parts: those used, those services take, those aboard; then what stands in for them, replaced them or is inside them.
  `WITH RECURSIVE wanted (n) AS (
     SELECT toNode FROM chosen CROSS JOIN USES ON fromNode = chosen.n
     UNION SELECT toNode FROM chosen CROSS JOIN CONSUMES ON fromNode = chosen.n
     UNION SELECT toNode FROM chosen CROSS JOIN LOT_OF ON fromNode = chosen.n
     UNION SELECT toNode FROM wanted CROSS JOIN INTERCHANGES_WITH ON fromNode = wanted.n
     UNION SELECT fromNode FROM wanted CROSS JOIN INTERCHANGES_WITH ON toNode = wanted.n
     UNION SELECT toNode FROM wanted CROSS JOIN SUPERSEDED_BY ON fromNode = wanted.n
     UNION SELECT toNode FROM wanted CROSS JOIN CONTAINS ON fromNode = wanted.n
   ) SELECT n FROM wanted`,
  // Service kits a wanted part is in, however deep, and what else is in them.
  `WITH RECURSIVE holding (n) AS (
     SELECT fromNode FROM CONTAINS JOIN chosen ON toNode = chosen.n
     UNION SELECT fromNode FROM CONTAINS JOIN holding ON toNode = holding.n
   ) SELECT n FROM holding`,
  `WITH RECURSIVE inside (n) AS (
     SELECT toNode FROM CONTAINS JOIN chosen ON fromNode = chosen.n
     UNION SELECT toNode FROM CONTAINS JOIN inside ON fromNode = inside.n
   ) SELECT n FROM inside`,
  `SELECT toNode FROM chosen CROSS JOIN MADE_BY ON fromNode = chosen.n`,
  `SELECT fromNode FROM chosen CROSS JOIN OFFERS ON toNode = chosen.n`,
  `SELECT fromNode FROM SAILED_BY WHERE toNode = $vessel`,
];

/**
 * Fills the temporary table `chosen` with the numbers of all nodes that belong to one vessel's picture.
 * Errors: `not-found`.
 */
export function chooseVessel(connection: Connection, vessel: NodeId): void {
  const n = vessel.startsWith("Vessel:") ? nodeNumber(connection, vessel) : undefined;
  if (n === undefined)
    throw new Problem(
      "not-found",
      `The picture of a vessel needs a vessel that exists; there is none by the id ${vessel}.`,
      { facts: { subject: vessel } },
    );
  connection.db.exec("CREATE TEMP TABLE IF NOT EXISTS chosen (n INTEGER PRIMARY KEY)");
  connection.run("DELETE FROM chosen");
  connection.run("INSERT INTO chosen (n) VALUES (?)", n);
  for (const step of steps) {
    const statement = connection.prepare(`INSERT OR IGNORE INTO chosen (n) ${step}`);
    if (step.includes("$vessel")) statement.run({ $vessel: n });
    else statement.run();
  }
}
