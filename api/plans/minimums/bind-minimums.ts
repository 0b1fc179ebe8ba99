import type { FittedUnit, SpareClass } from "../../scoring/minimums/minimum-rule.ts";
import type { VesselKit } from "../../scoring/provision/vessel-kit.ts";
import type { Snapshot } from "../../scoring/snapshot/snapshot.ts";
import type { GraphStore } from "../../store/graph-store.ts";
import { modelReference } from "../kit/kit-lines.ts";

/** What a vessel has fitted, and what it has or will buy to spare it, as minimum lists look at them. */
export interface Provision {
  readonly units: readonly FittedUnit[];
  readonly spares: readonly SpareClass[];
}

/** Everything a record says, own columns included. */
async function wordsOf(store: GraphStore, id: string | undefined): Promise<string> {
  const record =
    id === undefined ? undefined : await store.node(id as Parameters<GraphStore["node"]>[0]);
  if (record === undefined) return "";
  return [...Object.values(record.properties), ...Object.values(record.extra)]
    .map(String)
    .join(" | ");
}

/**
 * The vessel's fitted items and part classes, bound for `checkMinimum`. Pieces aboard are those that count for the
 * crossing; pieces bought are those of the kit.
 */
export async function bindMinimums(
  store: GraphStore,
  snapshot: Snapshot,
  vessel: number,
  kit: VesselKit,
): Promise<Provision> {
  const { items, models, parts, uses } = snapshot;
  const rows = [...items.id.keys()].filter((item) => items.vessel[item] === vessel);
  const modelWords = new Map<number, string>();
  const units: FittedUnit[] = [];
  const fitted = new Map<number, Map<number, number>>();
  for (const item of rows) {
    const model = items.model[item] ?? -1;
    if (!modelWords.has(model)) modelWords.set(model, await wordsOf(store, models.id[model]));
    const at = units.length;
    const name = items.position[item] ?? "";
    units.push({
      name,
      kind: model < 0 ? `item ${item}` : `model ${model}`,
      kindName: model < 0 ? name : modelReference(snapshot, model).name,
      category: models.category[model] ?? "",
      words: `${await wordsOf(store, items.id[item])} | ${modelWords.get(model) ?? ""}`,
    });
    if (model < 0) continue;
    const end = uses.start[model + 1] ?? 0;
    for (let line = uses.start[model] ?? 0; line < end; line++) {
      const partClass = kit.classes.classOf[uses.target[line] ?? -1] ?? -1;
      const taken = fitted.get(partClass) ?? new Map<number, number>();
      taken.set(at, (taken.get(at) ?? 0) + (uses.quantity[line] ?? 1));
      fitted.set(partClass, taken);
    }
  }
  const bought = new Map(kit.rows.map((row) => [row.demand.partClass, row.buy]));
  const spares: SpareClass[] = [];
  for (const [partClass, members] of kit.classes.members.entries()) {
    const sum = (of: Float64Array): number => members.reduce((s, part) => s + (of[part] ?? 0), 0);
    const aboard = sum(kit.stock.usable);
    const notUsable = sum(kit.stock.notUsable);
    const taken = fitted.get(partClass);
    if (taken === undefined && aboard + notUsable === 0) continue;
    const shown = members.find((part) => parts.description[part] !== "") ?? members[0] ?? -1;
    spares.push({
      name: [parts.description[shown] ?? "", parts.partNumber[shown] ?? ""]
        .filter((text) => text !== "")
        .join(", "),
      words: members
        .map((part) => `${parts.description[part]} | ${parts.partNumber[part]}`)
        .join(" | "),
      aboard,
      notUsable,
      bought: bought.get(partClass) ?? 0,
      fitted: taken ?? new Map(),
    });
  }
  return { units, spares };
}
