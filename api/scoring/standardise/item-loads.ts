import type { PartClasses } from "../classes/part-classes.ts";
import type { DemandLine, ProvisionNotice } from "../provision/demand-line.ts";
import { failureDemand } from "../provision/failure-demand.ts";
import type { Passage } from "../provision/passage.ts";
import { serviceLines } from "../provision/service-lines.ts";
import type { Snapshot } from "../snapshot/snapshot.ts";

/** Mean pieces one item asks for, of one part class. */
export interface ItemLoad {
  readonly partClass: number;
  readonly mean: number;
  /** Whether a failure stops the item, or a service needs the part: then it stands in the item's own tier. */
  readonly stops: boolean;
  readonly degrades: boolean;
}

/** Returns what one item asks for by itself, of parts that can be replaced at sea. Means of all items add up. */
export function itemLoads(
  snapshot: Snapshot,
  classes: PartClasses,
  item: number,
  passage: Passage,
): readonly ItemLoad[] {
  const model = snapshot.items.model[item] ?? -1;
  if (model < 0) return [];
  const notices: ProvisionNotice[] = [];
  const lines: DemandLine[] = [...serviceLines(snapshot, model, [item], passage, notices)];
  const { uses } = snapshot;
  for (let line = uses.start[model] ?? 0; line < (uses.start[model + 1] ?? 0); line++) {
    const found = failureDemand(snapshot, model, line, [item], passage, notices);
    if ("mean" in found && found.fittable) lines.push(found);
  }
  const byClass = new Map<number, ItemLoad>();
  for (const { part, mean, origin, effect } of lines) {
    if (mean <= 0) continue;
    const partClass = classes.classOf[part] ?? -1;
    const known = byClass.get(partClass);
    const stops = origin === "service" || effect === 0;
    byClass.set(partClass, {
      partClass,
      mean: (known?.mean ?? 0) + mean,
      stops: stops || known?.stops === true,
      degrades: effect === 1 || known?.degrades === true,
    });
  }
  return [...byClass.values()];
}
