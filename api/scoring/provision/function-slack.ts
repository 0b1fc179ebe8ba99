import type { Snapshot } from "../snapshot/snapshot.ts";

/** One required function of the vessel and the items that serve it. */
export interface ServedFunction {
  readonly row: number;
  /** 0 safety, 1 passage, 2 comfort. */
  readonly tier: number;
  readonly need: number;
  readonly items: readonly number[];
  /** The one model that serves it; -1 where several do, or none. */
  readonly soleModel: number;
}

/** The functions of one vessel with their items, in row order. */
export function servedFunctions(snapshot: Snapshot, vessel: number): readonly ServedFunction[] {
  const { functions, items, serves } = snapshot;
  const itemsOf = new Map<number, number[]>();
  for (let item = 0; item < items.id.length; item++) {
    if (items.vessel[item] !== vessel) continue;
    const end = serves.start[item + 1] ?? 0;
    for (let entry = serves.start[item] ?? 0; entry < end; entry++) {
      const row = serves.target[entry] ?? 0;
      const list = itemsOf.get(row);
      if (list === undefined) itemsOf.set(row, [item]);
      else list.push(item);
    }
  }
  const found: ServedFunction[] = [];
  for (let row = 0; row < functions.id.length; row++) {
    if (functions.vessel[row] !== vessel) continue;
    const serving = itemsOf.get(row) ?? [];
    const models = new Set(serving.map((item) => items.model[item] ?? -1));
    const [only] = models;
    found.push({
      row,
      tier: functions.tier[row] ?? 1,
      need: functions.need[row] ?? 1,
      items: serving,
      soleModel: models.size === 1 && only !== undefined ? only : -1,
    });
  }
  return found;
}

/**
 * Returns how many items of each model may be given up as donors with every function still able to be met.
 *
 * For a function served by n items of one model of which k are needed, n - k may be robbed. An item that serves
 * several functions can be given up only if each of them can spare it, so items are taken one at a time while
 * every function they serve has slack (a maximal set, hence never more than is truly spare). Functions of the
 * safety tier and functions served by several makes give up nothing; nor do items that serve no function.
 * Source: METHODS, sufficiency under robbing; cannibalisation of k-of-n systems of identical units.
 */
export function donorItems(functions: readonly ServedFunction[]): ReadonlyMap<number, number> {
  const modelOf = new Map(functions.flatMap((f) => f.items.map((item) => [item, f.soleModel])));
  const donors = new Map<number, number>();
  for (const item of givingItems(functions)) {
    const model = modelOf.get(item) ?? -1;
    donors.set(model, (donors.get(model) ?? 0) + 1);
  }
  return donors;
}

/** The items of that set: which of several alike is named makes no difference to the pieces. */
export function givingItems(functions: readonly ServedFunction[]): readonly number[] {
  const slack = functions.map((f) =>
    f.tier === 0 || f.soleModel < 0 ? 0 : Math.max(0, f.items.length - f.need),
  );
  const serving = new Map<number, number[]>();
  functions.forEach((f, index) => {
    for (const item of f.items) {
      const list = serving.get(item);
      if (list === undefined) serving.set(item, [index]);
      else list.push(index);
    }
  });
  const giving: number[] = [];
  const order = [...serving.entries()].sort((x, y) => x[1].length - y[1].length || x[0] - y[0]);
  for (const [item, indices] of order) {
    if (!indices.every((index) => (slack[index] ?? 0) > 0)) continue;
    for (const index of indices) slack[index] = (slack[index] ?? 0) - 1;
    giving.push(item);
  }
  return giving;
}
