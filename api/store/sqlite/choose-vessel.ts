import type { NodeId } from "../../../graph-schema/index.ts";
import { Problem } from "../../errors/problem.ts";
import type { Connection } from "./connection.ts";
import { nodeNumber } from "./read-records.ts";

/** What belongs to one vessel, step by step: each adds the numbers of more nodes to the table `chosen`. */
const steps: readonly string[] = [
  `SELECT fromNode FROM FITTED_ON WHERE toNode = $vessel`,
  `SELECT fromNode FROM REQUIRED_ON WHERE toNode = $vessel`,
  `WITH RECURSIVE aboard (n) AS (
     SELECT $vessel UNION SELECT fromNode FROM IS_WITHIN JOIN aboard ON toNode = aboard.n
   ) SELECT n FROM aboard`,
  `SELECT fromNode FROM STOWED_IN JOIN chosen ON toNode = chosen.n`,
  `SELECT toNode FROM IS_MODEL JOIN chosen ON fromNode = chosen.n`,
  `SELECT fromNode FROM SERVICE_OF JOIN chosen ON toNode = chosen.n`,
  // Parts: those used, those services take, those aboard; then what stands in for them, replaced them or is inside them.
  `WITH RECURSIVE wanted (n) AS (
     SELECT toNode FROM USES JOIN chosen ON fromNode = chosen.n
     UNION SELECT toNode FROM CONSUMES JOIN chosen ON fromNode = chosen.n
     UNION SELECT toNode FROM LOT_OF JOIN chosen ON fromNode = chosen.n
     UNION SELECT toNode FROM INTERCHANGES_WITH JOIN wanted ON fromNode = wanted.n
     UNION SELECT fromNode FROM INTERCHANGES_WITH JOIN wanted ON toNode = wanted.n
     UNION SELECT toNode FROM SUPERSEDED_BY JOIN wanted ON fromNode = wanted.n
     UNION SELECT toNode FROM CONTAINS JOIN wanted ON fromNode = wanted.n
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
  `SELECT toNode FROM MADE_BY JOIN chosen ON fromNode = chosen.n`,
  `SELECT fromNode FROM OFFERS JOIN chosen ON toNode = chosen.n`,
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
