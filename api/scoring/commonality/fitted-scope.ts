import type { PartClasses } from "../classes/part-classes.ts";
import type { GearPicture } from "../snapshot/snapshot.ts";
import { type Incidence, incidenceOf } from "./incidence.ts";

/** The models fitted in a scope, and the part classes they take. Rows follow `models`, columns `partClasses`. */
export interface FittedScope {
  /** Model rows of the snapshot that have a parts list and at least one item fitted, ascending. */
  readonly models: readonly number[];
  /** Items fitted of each, in the scope. */
  readonly items: readonly number[];
  readonly partClasses: readonly number[];
  /** Every part class of each model's list. */
  readonly all: Incidence;
  /** Pieces in each use, aligned with `all.parts`. */
  readonly quantity: Float64Array;
  /** The spares kit of each model: the classes that can be replaced at sea. */
  readonly sparable: Incidence;
  /** Models fitted but without any parts list: their kit is unknown, not empty. */
  readonly withoutList: readonly number[];
}

/** Which models are fitted in a scope. O(items + uses). */
export function fittedScope(
  snapshot: GearPicture,
  classes: PartClasses,
  within: { readonly vessel?: number; readonly category?: string },
): FittedScope {
  const count = new Map<number, number>();
  for (let item = 0; item < snapshot.items.id.length; item++) {
    const model = snapshot.items.model[item] ?? -1;
    if (model < 0) continue;
    if (within.vessel !== undefined && snapshot.items.vessel[item] !== within.vessel) continue;
    if (within.category !== undefined && snapshot.models.category[model] !== within.category)
      continue;
    count.set(model, (count.get(model) ?? 0) + 1);
  }
  const fitted = [...count.keys()].sort((a, b) => a - b);
  const linesOf = (model: number): readonly [number, number] => [
    snapshot.uses.start[model] ?? 0,
    snapshot.uses.start[model + 1] ?? 0,
  ];
  const models = fitted.filter((model) => linesOf(model)[1] > linesOf(model)[0]);
  const columnOf = new Map<number, number>();
  const partClasses: number[] = [];
  const columns: number[][] = [];
  const sparableColumns: number[][] = [];
  const quantity: number[] = [];
  for (const model of models) {
    const pieces = new Map<number, number>();
    const sparable = new Set<number>();
    const [first, end] = linesOf(model);
    for (let line = first; line < end; line++) {
      const partClass = classes.classOf[snapshot.uses.target[line] ?? 0] ?? 0;
      let column = columnOf.get(partClass);
      if (column === undefined) {
        column = partClasses.length;
        columnOf.set(partClass, column);
        partClasses.push(partClass);
      }
      pieces.set(column, (pieces.get(column) ?? 0) + (snapshot.uses.quantity[line] ?? 1));
      if (snapshot.uses.fittableAtSea[line] !== 0) sparable.add(column);
    }
    columns.push([...pieces.keys()]);
    quantity.push(...pieces.values());
    sparableColumns.push([...sparable]);
  }
  return {
    models,
    items: models.map((model) => count.get(model) ?? 0),
    partClasses,
    all: incidenceOf(columns, partClasses.length),
    quantity: Float64Array.from(quantity),
    sparable: incidenceOf(sparableColumns, partClasses.length),
    withoutList: fitted.filter((model) => linesOf(model)[1] <= linesOf(model)[0]),
  };
}
