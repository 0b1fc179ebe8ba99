import type { GearPicture } from "../snapshot/snapshot.ts";

/**
 * Marks, per part row, the safety parts of a picture: 1 where the part is marked so, where its failure stops gear that
 * serves a function of the safety tier, or where a service of such gear takes it. As provision finds the tier of a part
 * (class-demand.ts), but whether a piece can be fitted at sea is no question here. O(items + uses of safety gear + services).
 *
 * @param vessel row of the vessel whose gear counts; every vessel's in the picture when absent
 */
export function safetyParts(snapshot: GearPicture, vessel?: number): Uint8Array {
  const { items, serves, functions, uses } = snapshot;
  const found = Uint8Array.from(snapshot.parts.isSafety, (mark) => (mark === 1 ? 1 : 0));
  const models = fittedModels(snapshot, vessel, (item) =>
    // A function counts for the items of its own vessel, as in function-slack.ts.
    serves.target
      .subarray(serves.start[item], serves.start[item + 1])
      .some((row) => functions.tier[row] === 0 && functions.vessel[row] === items.vessel[item]),
  );
  for (const part of partsTaken(snapshot, models, (line) => uses.failureEffect[line] === 0))
    found[part] = 1;
  return found;
}

/** Models with an item in scope that passes. */
export function fittedModels(
  { items }: GearPicture,
  vessel: number | undefined,
  passes: (item: number) => boolean,
): ReadonlySet<number> {
  const models = new Set<number>();
  items.model.forEach((model, item) => {
    if (model < 0 || models.has(model)) return;
    if (vessel !== undefined && items.vessel[item] !== vessel) return;
    if (passes(item)) models.add(model);
  });
  return models;
}

/** Parts on those lines of the models' lists that count, and all that the models' services take; some twice. */
export function partsTaken(
  { uses, services, consumes }: GearPicture,
  models: ReadonlySet<number>,
  counts: (line: number) => boolean,
): readonly number[] {
  const found: number[] = [];
  for (const model of models) {
    for (let line = uses.start[model] ?? 0; line < (uses.start[model + 1] ?? 0); line++) {
      if (counts(line)) found.push(uses.target[line] ?? 0);
    }
  }
  services.model.forEach((model, service) => {
    if (!models.has(model)) return;
    for (let at = consumes.start[service] ?? 0; at < (consumes.start[service + 1] ?? 0); at++)
      found.push(consumes.target[at] ?? 0);
  });
  return found;
}
