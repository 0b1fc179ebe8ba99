import type { Snapshot } from "../scoring/snapshot/snapshot.ts";

/** The ways back through a snapshot that a search needs. */
export interface GearIndex {
  /** Node id to row, per kind. */
  readonly partRow: ReadonlyMap<string, number>;
  readonly modelRow: ReadonlyMap<string, number>;
  readonly itemRow: ReadonlyMap<string, number>;
  readonly makerRow: ReadonlyMap<string, number>;
  readonly lockerRow: ReadonlyMap<string, number>;
  readonly modelsOfPart: ReadonlyMap<number, readonly number[]>;
  readonly itemsOfModel: ReadonlyMap<number, readonly number[]>;
  readonly lotsOfPart: ReadonlyMap<number, readonly number[]>;
}

const rowsById = (ids: readonly string[]): ReadonlyMap<string, number> =>
  new Map(ids.map((id, row) => [id, row]));

function grouped(rows: ArrayLike<number>): Map<number, number[]> {
  const groups = new Map<number, number[]>();
  for (let row = 0; row < rows.length; row++) {
    const key = rows[row] ?? -1;
    if (key < 0) continue;
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [row]);
    else group.push(row);
  }
  return groups;
}

const kept = new WeakMap<Snapshot, GearIndex>();

/** The index of a snapshot, made once: O(items + lots + USES lines). */
export function indexGear(snapshot: Snapshot): GearIndex {
  const known = kept.get(snapshot);
  if (known !== undefined) return known;
  const { uses, models, parts, items, lots, lockers, makers } = snapshot;
  const modelsOfPart = new Map<number, number[]>();
  for (let model = 0; model < models.id.length; model++) {
    for (const part of uses.target.subarray(uses.start[model], uses.start[model + 1])) {
      const group = modelsOfPart.get(part);
      if (group === undefined) modelsOfPart.set(part, [model]);
      else group.push(model);
    }
  }
  const index: GearIndex = {
    partRow: rowsById(parts.id),
    modelRow: rowsById(models.id),
    itemRow: rowsById(items.id),
    makerRow: rowsById(makers.id),
    lockerRow: rowsById(lockers.id),
    modelsOfPart,
    itemsOfModel: grouped(items.model),
    lotsOfPart: grouped(lots.part),
  };
  kept.set(snapshot, index);
  return index;
}
