import type { SuppliersAnswer } from "../../contract/suppliers.contract.ts";
import type { PartClasses } from "../../scoring/classes/part-classes.ts";
import { fittedScope } from "../../scoring/commonality/fitted-scope.ts";
import { columnsOfRows } from "../../scoring/coverage/cover-problem.ts";
import { suppliedGear } from "../../scoring/coverage/supplied-gear.ts";
import type { Snapshot } from "../../scoring/snapshot/snapshot.ts";
import { partsAtStake } from "../suppliers/parts-at-stake.ts";

/** Parts of one vessel's gear that one supplier alone sells, and parts nobody sells, ranked by what they stop. */
export function vesselSources(
  snapshot: Snapshot,
  classes: PartClasses,
  vessel: number,
): Pick<SuppliersAnswer, "singleSource" | "unsold"> {
  const scope = fittedScope(snapshot, classes, { vessel });
  const gear = suppliedGear(snapshot, classes, scope);
  return partsAtStake(snapshot, classes, gear, columnsOfRows(gear), vessel, (supplier) => ({
    id: String(snapshot.suppliers.id[supplier] ?? ""),
    name: snapshot.suppliers.name[supplier] ?? "",
  }));
}
