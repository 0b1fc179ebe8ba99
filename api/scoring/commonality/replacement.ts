import type { FittedScope } from "./fitted-scope.ts";
import { inverseOf } from "./incidence.ts";
import { distinctKits } from "./kits.ts";

/** What disappears when every item of one fitted model gives way to another that is already fitted. */
export interface Replacement {
  /** Rows of the scope. */
  readonly replaced: number;
  readonly by: number;
  readonly items: number;
  /** Columns of the scope that no other model takes. */
  readonly partsVanishing: readonly number[];
  readonly kitsVanishing: number;
}

/**
 * Returns, for every ordered pair of the given rows (one category's models), what would vanish, most parts first.
 *
 * Only a model fitted in no more places than its successor is offered up. Whether the successor meets the duty of
 * each position is not judged here. O(uses + pairs log pairs).
 */
export function replacements(scope: FittedScope, rows: readonly number[]): readonly Replacement[] {
  const users = inverseOf(scope.all);
  const { kitOfModel, modelsOfKit } = distinctKits(scope.sparable);
  const found: Replacement[] = [];
  for (const replaced of rows) {
    const own = columnsOf(scope.all, replaced);
    const partsVanishing = own.filter(
      (c) => (users.start[c + 1] ?? 0) - (users.start[c] ?? 0) === 1,
    );
    // A kit goes with its only model.
    const kitsVanishing = modelsOfKit[kitOfModel[replaced] ?? -1]?.length === 1 ? 1 : 0;
    for (const by of rows) {
      const items = scope.items[replaced] ?? 0;
      if (by === replaced || items > (scope.items[by] ?? 0)) continue;
      found.push({ replaced, by, items, partsVanishing, kitsVanishing });
    }
  }
  return found.sort(
    (a, b) =>
      b.partsVanishing.length - a.partsVanishing.length ||
      a.items - b.items ||
      a.replaced - b.replaced ||
      a.by - b.by,
  );
}

const columnsOf = (incidence: FittedScope["all"], row: number): number[] => [
  ...incidence.parts.subarray(incidence.start[row] ?? 0, incidence.start[row + 1] ?? 0),
];
