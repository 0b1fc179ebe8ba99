import type { PartClasses } from "../classes/part-classes.ts";
import type { Snapshot } from "../snapshot/snapshot.ts";
import { type ClassDemand, classDemands } from "./class-demand.ts";
import type { DemandLine, LineWithoutEvidence, ProvisionNotice } from "./demand-line.ts";
import { failureDemand } from "./failure-demand.ts";
import { donorItems, type ServedFunction, servedFunctions } from "./function-slack.ts";
import type { Passage } from "./passage.ts";
import { serviceLines } from "./service-lines.ts";

/** Everything one vessel's gear asks for on one crossing. */
export interface VesselDemand {
  readonly lines: readonly DemandLine[];
  readonly classes: readonly ClassDemand[];
  readonly functions: readonly ServedFunction[];
  readonly donors: ReadonlyMap<number, number>;
  /** Failures that no spare can mend at sea. */
  readonly unsparable: readonly DemandLine[];
  readonly withoutEvidence: readonly LineWithoutEvidence[];
  readonly notices: readonly ProvisionNotice[];
}

/** Items of one vessel by model row. Items whose model is unknown are left out. */
export function itemsByModel(
  snapshot: Snapshot,
  vessel: number,
): ReadonlyMap<number, readonly number[]> {
  const found = new Map<number, number[]>();
  for (let item = 0; item < snapshot.items.id.length; item++) {
    const model = snapshot.items.model[item] ?? -1;
    if (snapshot.items.vessel[item] !== vessel || model < 0) continue;
    const list = found.get(model);
    if (list === undefined) found.set(model, [item]);
    else list.push(item);
  }
  return found;
}

/** The demand of the same vessel on the same crossing with other gear, of which the unchanged part is taken over. */
export interface KnownDemand {
  readonly demand: VesselDemand;
  /** Models whose fitted items, or whose evidence, differ from that demand. */
  readonly changed: ReadonlySet<number>;
}

/**
 * Returns the demand of one vessel on one crossing: per line, pooled per part class, with tiers and credits.
 *
 * @param robbing whether crew may take parts from a stopped item to mend another
 * @param known spares the work on unchanged models; their notices are then not given again
 */
export function vesselDemand(
  snapshot: Snapshot,
  classes: PartClasses,
  vessel: number,
  passage: Passage,
  robbing: boolean,
  known?: KnownDemand,
): VesselDemand {
  const notices: ProvisionNotice[] = [];
  const lines: DemandLine[] = [];
  const withoutEvidence: LineWithoutEvidence[] = [];
  const byModel = itemsByModel(snapshot, vessel);
  const kept = keptOf(known);
  for (const [model, items] of byModel) {
    const before = kept(model);
    if (before !== undefined) {
      lines.push(...before.lines);
      withoutEvidence.push(...before.withoutEvidence);
      continue;
    }
    const scheduled = serviceLines(snapshot, model, items, passage, notices);
    lines.push(...scheduled);
    const servedParts = new Set(scheduled.map((line) => line.part));
    const end = snapshot.uses.start[model + 1] ?? 0;
    for (let line = snapshot.uses.start[model] ?? 0; line < end; line++) {
      const found = failureDemand(snapshot, model, line, items, passage, notices);
      if ("mean" in found) lines.push(found);
      else if (!servedParts.has(found.part)) withoutEvidence.push(found);
    }
  }
  const functions = servedFunctions(snapshot, vessel);
  const donors = robbing ? donorItems(functions) : new Map<number, number>();
  if (known === undefined) {
    notices.push(...functionNotices(snapshot, functions), ...itemNotices(snapshot, vessel, lines));
  }
  return {
    lines,
    classes: classDemands(snapshot, classes, lines, functions, donors, known?.demand.classes),
    functions,
    donors,
    unsparable: lines.filter((line) => !line.fittable && line.mean > 0),
    withoutEvidence,
    notices,
  };
}

type KeptLines = Pick<VesselDemand, "lines" | "withoutEvidence">;

/** What a known demand holds of an unchanged model. */
function keptOf(known: KnownDemand | undefined): (model: number) => KeptLines | undefined {
  if (known === undefined) return () => undefined;
  const kept = linesByModel.get(known.demand) ?? groupedByModel(known.demand);
  return (model) =>
    known.changed.has(model) ? undefined : (kept.get(model) ?? { lines: [], withoutEvidence: [] });
}

/** Lines of a known demand by model, grouped once. */
const linesByModel = new WeakMap<VesselDemand, ReadonlyMap<number, KeptLines>>();

function groupedByModel(demand: VesselDemand): ReadonlyMap<number, KeptLines> {
  const lines = Map.groupBy(demand.lines, ({ model }) => model);
  const withoutEvidence = Map.groupBy(demand.withoutEvidence, ({ model }) => model);
  const grouped = new Map(
    [...new Set([...lines.keys(), ...withoutEvidence.keys()])].map((model) => [
      model,
      { lines: lines.get(model) ?? [], withoutEvidence: withoutEvidence.get(model) ?? [] },
    ]),
  );
  linesByModel.set(demand, grouped);
  return grouped;
}

function functionNotices(
  snapshot: Snapshot,
  functions: readonly ServedFunction[],
): ProvisionNotice[] {
  const notices: ProvisionNotice[] = [];
  for (const f of functions) {
    const name = snapshot.functions.name[f.row] ?? "";
    if (f.items.length === 0) {
      notices.push({
        code: "function-unserved",
        text: `"${name}" is required but nothing fitted serves it. Name the gear that does, or fit some.`,
      });
    } else if (f.need > f.items.length) {
      notices.push({
        code: "function-short",
        text: `"${name}" needs ${f.need} items but only ${f.items.length} ${f.items.length === 1 ? "serves" : "serve"} it: it fails before departure.`,
      });
    }
  }
  return notices;
}

function itemNotices(
  snapshot: Snapshot,
  vessel: number,
  lines: readonly DemandLine[],
): ProvisionNotice[] {
  const { items } = snapshot;
  const notices: ProvisionNotice[] = [];
  const unknownModel: string[] = [];
  for (let item = 0; item < items.id.length; item++) {
    if (items.vessel[item] === vessel && (items.model[item] ?? -1) < 0) {
      unknownModel.push(items.position[item] ?? "");
    }
  }
  if (unknownModel.length > 0) {
    notices.push({
      code: "model-unknown",
      text: `${unknownModel.length} fitted items have no model, so nothing is provided for them: ${unknownModel.slice(0, 5).join(", ")}${unknownModel.length > 5 ? ", ..." : ""}.`,
    });
  }
  const withoutHours = new Set<number>();
  for (const line of lines) {
    if (!line.byHours) continue;
    for (const item of line.items) {
      if (Number.isNaN(items.hoursPerDay[item] ?? Number.NaN)) withoutHours.add(item);
    }
  }
  if (withoutHours.size > 0) {
    const names = [...withoutHours].slice(0, 5).map((item) => items.position[item]);
    notices.push({
      code: "hours-unknown",
      text: `Running hours a day are not stated for ${withoutHours.size} items; taken as 24 wherever a rate or life is per hour: ${names.join(", ")}${withoutHours.size > 5 ? ", ..." : ""}.`,
    });
  }
  return notices;
}
