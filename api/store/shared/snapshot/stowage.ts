import { nodeLabels } from "../../../../graph-schema/index.ts";
import type { Snapshot } from "../../../scoring/snapshot/snapshot.ts";
import { codes, days, numbers, texts } from "./cells.ts";
import type { GraphRows, NodeRows } from "./graph-rows.ts";

/** Lockers and lots, each with the vessel that carries it through however many lockers. */
export function readStowage(
  graph: GraphRows,
  vessels: NodeRows,
  parts: NodeRows,
): Pick<Snapshot, "lots" | "lockers"> {
  const lockers = graph.nodes("Locker", ["name", "capacityLitres"]);
  const within = graph.reference("IS_WITHIN", lockers, lockers);
  const lockerVessel = carriedBy(within, graph.reference("IS_WITHIN", lockers, vessels));
  const lots = graph.nodes("StockLot", ["quantity", "made", "expires", "condition"]);
  const locker = graph.reference("STOWED_IN", lots, lockers);
  const direct = graph.reference("STOWED_IN", lots, vessels);
  return {
    lockers: {
      id: lockers.id,
      name: texts(lockers.rows, 0),
      within,
      vessel: lockerVessel,
      capacityLitres: numbers(lockers.rows, 1),
    },
    lots: {
      id: lots.id,
      part: graph.reference("LOT_OF", lots, parts),
      locker,
      vessel: direct.map((vessel, lot) => {
        const place = locker[lot] ?? -1;
        return place >= 0 ? (lockerVessel[place] ?? -1) : vessel;
      }),
      quantity: numbers(lots.rows, 0),
      madeDay: days(lots.rows, 1),
      expiresDay: days(lots.rows, 2),
      condition: codes(lots.rows, 3, nodeLabels.StockLot.properties.condition.choices ?? [], 1, 0),
    },
  };
}

/** Follows each locker outward to a vessel; -1 where it ends nowhere or goes round in a ring. */
function carriedBy(within: Int32Array, direct: Int32Array): Int32Array {
  return direct.map((vessel, locker) => {
    let place = locker;
    let found = vessel;
    for (let steps = 0; found < 0 && steps < within.length; steps++) {
      place = within[place] ?? -1;
      if (place < 0) return -1;
      found = direct[place] ?? -1;
    }
    return found;
  });
}
