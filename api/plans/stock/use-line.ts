import type { NodeId } from "../../../graph-schema/index.ts";
import type { LinkRecord, NodeRecord } from "../../../importers/change-set.ts";
import type { UseRequest } from "../../contract/stock.contract.ts";
import { partClasses } from "../../scoring/classes/part-classes.ts";
import type { Snapshot } from "../../scoring/snapshot/snapshot.ts";
import type { GraphStore } from "../../store/graph-store.ts";
import { recordById } from "../records/find-record.ts";
import { ownName } from "../records/record-names.ts";

/** The parts-list line a use belongs to, or why it cannot be told. */
export type FoundLine =
  | {
      readonly kind: "found";
      readonly line: LinkRecord;
      readonly model: NodeRecord;
      readonly part: NodeRecord;
    }
  | { readonly kind: "none"; readonly words: string };

/**
 * The line of a parts list that a use of a part belongs to: that of the item's model; without an item, that of the one
 * model fitted aboard that takes it. A part that interchanges with the one listed counts for the line.
 */
export async function lineOfUse(
  store: GraphStore,
  snapshot: Snapshot,
  part: { readonly record: NodeRecord; readonly row: number },
  item: NodeRecord | undefined,
  vessel: number,
): Promise<FoundLine> {
  const classes = partClasses(snapshot);
  const members = classes.members[classes.classOf[part.row] ?? -1] ?? [part.row];
  const candidates = item === undefined ? modelsAboard(snapshot, members, vessel) : undefined;
  if (candidates !== undefined && candidates.length > 1) {
    const names = candidates.map((model) => snapshot.models.designation[model]).join(", ");
    return {
      kind: "none",
      words: `Several models aboard take it (${names}), so no line's history could be kept: say which item it was for.`,
    };
  }
  const only = candidates?.[0];
  const modelId =
    item === undefined
      ? only === undefined
        ? undefined
        : snapshot.models.id[only]
      : (await store.linksFrom(item.id, "IS_MODEL"))[0]?.to;
  if (modelId === undefined) {
    return {
      kind: "none",
      words:
        item === undefined
          ? "No gear aboard is known to take it, so no line's history could be kept."
          : `The model of ${ownName(item)} is not known, so no line's history could be kept.`,
    };
  }
  const ids = new Set<NodeId>(members.flatMap((row) => snapshot.parts.id[row] ?? []));
  const lines = await store.linksFrom(modelId, "USES");
  const line = lines.find(({ to }) => to === part.record.id) ?? lines.find(({ to }) => ids.has(to));
  const model = await recordById(store, modelId);
  if (line === undefined) {
    return {
      kind: "none",
      words: `The parts list of ${ownName(model)} does not hold it, so no line's history could be kept. Add it to the list if it belongs there.`,
    };
  }
  return { kind: "found", line, model, part: await recordById(store, line.to) };
}

function modelsAboard(
  { uses, items, models }: Snapshot,
  members: readonly number[],
  vessel: number,
): readonly number[] {
  const taken = new Set(members);
  const aboard = new Set<number>();
  items.model.forEach((model, item) => {
    if (model >= 0 && items.vessel[item] === vessel) aboard.add(model);
  });
  return [...aboard].filter(
    (model) =>
      models.id[model] !== undefined &&
      uses.target.subarray(uses.start[model], uses.start[model + 1]).some((row) => taken.has(row)),
  );
}

/** Why a use counts as it does where the person did not say: see `useRequest`. */
export function reasonOf(request: UseRequest, found: FoundLine): NonNullable<UseRequest["why"]> {
  if (request.why !== undefined) return request.why;
  if (request.service !== undefined) return "service";
  if (found.kind === "none") return "failure";
  const { properties } = found.line;
  const wears = properties["meanLifeHours"] !== undefined;
  const fails = ["rate", "mtbfHours", "rarity", "usedCount"].some(
    (name) => properties[name] !== undefined,
  );
  return wears && !fails ? "wear" : "failure";
}
