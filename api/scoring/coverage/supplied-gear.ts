import type { PartClasses } from "../classes/part-classes.ts";
import type { FittedScope } from "../commonality/fitted-scope.ts";
import type { GearPicture } from "../snapshot/snapshot.ts";
import type { CoverProblem } from "./cover-problem.ts";
import type { WholeNeed } from "./most-complete.ts";

/** Who offers what the fitted gear can take at sea. Rows are sparable part classes, columns the snapshot's suppliers. */
export interface SuppliedGear extends CoverProblem {
  /** Part class of each row. */
  readonly partClasses: readonly number[];
  /** One per fitted model with something to spare: its rows, weighed by the items fitted. */
  readonly needs: readonly WholeNeed[];
  /** Items fitted that have something to spare. */
  readonly items: number;
  /** Items fitted whose parts list holds nothing that can be replaced at sea. */
  readonly itemsWithNothingToSpare: number;
}

/** Binds a scope to cover problems. Several offers of one class by one supplier count once. O(uses + offers). */
export function suppliedGear(
  snapshot: GearPicture,
  classes: PartClasses,
  scope: FittedScope,
): SuppliedGear {
  const { start, parts } = scope.sparable;
  const rowOf = new Map<number, number>();
  const partClasses: number[] = [];
  const needs: WholeNeed[] = [];
  let itemsWithNothingToSpare = 0;
  scope.models.forEach((_, model) => {
    const weight = scope.items[model] ?? 0;
    const rows = [...parts.subarray(start[model], start[model + 1])].map((column) => {
      const partClass = scope.partClasses[column] ?? -1;
      const known = rowOf.get(partClass);
      if (known !== undefined) return known;
      rowOf.set(partClass, partClasses.length);
      return partClasses.push(partClass) - 1;
    });
    if (rows.length === 0) itemsWithNothingToSpare += weight;
    else needs.push({ rows, weight });
  });
  const { offers, suppliers } = snapshot;
  const columns = suppliers.id.map((_, supplier) => {
    const offered = new Set<number>();
    for (const part of offers.target.subarray(offers.start[supplier], offers.start[supplier + 1])) {
      const row = rowOf.get(classes.classOf[part] ?? -1);
      if (row !== undefined) offered.add(row);
    }
    return [...offered].sort((a, b) => a - b);
  });
  return {
    partClasses,
    rowCount: partClasses.length,
    columns,
    needs,
    items: needs.reduce((sum, { weight }) => sum + weight, 0),
    itemsWithNothingToSpare,
  };
}
