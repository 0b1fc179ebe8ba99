import type { NodeId } from "../../../graph-schema/index.ts";
import type { NodeRecord } from "../../../importers/change-set.ts";
import type { Surroundings } from "./surroundings.ts";

const deepest = 20;
/** How many lots are read for each part wanted (some are of the same part, some empty), and records of a maker. */
const lotsAPart = 4;
const partsAModel = 2;

const isPart = (id: NodeId): boolean => id.startsWith("Part:");

/** Parts one record of another kind leads to, with why: stowed in the locker, made by the maker, taken by the gear. */
async function behindOne(
  round: Surroundings,
  { id, label }: NodeRecord,
  enough: number,
): Promise<readonly (readonly [part: NodeId, why: string])[]> {
  switch (label) {
    case "Locker":
      return behindLocker(round, id, enough * lotsAPart);
    case "Maker": {
      const why = `made by ${round.text(id, "name")}`;
      return (await round.followBack([id], ["MADE_BY"], enough * partsAModel))
        .filter(isPart)
        .map((part) => [part, why]);
    }
    case "Model":
      return takenBy(round, id);
    case "FittedItem": {
      const [model] = await round.follow([id], ["IS_MODEL"]);
      return model === undefined ? [] : takenBy(round, model);
    }
    default:
      return [];
  }
}

async function takenBy(round: Surroundings, model: NodeId) {
  const why = `taken by ${round.text(model, "designation")}`;
  return (await round.follow([model], ["USES"])).map((part) => [part, why] as const);
}

async function behindLocker(round: Surroundings, locker: NodeId, enough: number) {
  const inside = [locker];
  for (let depth = 0, at: readonly NodeId[] = inside; depth < deepest && at.length > 0; depth++) {
    at = (await round.followBack(at, ["IS_WITHIN"])).filter((id) => !inside.includes(id));
    inside.push(...at);
  }
  const lots = (await round.followBack(inside, ["STOWED_IN"], enough)).filter(
    (lot) => Number(round.node(lot)?.properties["quantity"] ?? 0) > 0,
  );
  const why = `stowed in ${round.text(locker, "name")}`;
  return (await round.follow(lots, ["LOT_OF"])).map((part) => [part, why] as const);
}

/** Parts that records lead to, each with the first reason why, in the order of the records; at least `enough` if there are. */
export async function partsBehind(
  round: Surroundings,
  records: readonly NodeRecord[],
  enough: number,
): Promise<Map<NodeId, string>> {
  const found = new Map<NodeId, string>();
  round.know(records);
  for (const record of records) {
    if (found.size >= enough) break;
    for (const [part, why] of await behindOne(round, record, enough))
      if (!found.has(part)) found.set(part, why);
  }
  return found;
}
