import { labelOf, type NodeId, type NodeLabel } from "../../../graph-schema/index.ts";
import type { Transaction } from "./client.ts";
import { grouped, ticked } from "./read-records.ts";

/** What belongs to one vessel, step by step: from nodes of a label that are chosen to more. As `sqlite/choose-vessel.ts`. */
const steps: readonly (readonly [from: readonly NodeLabel[], walk: string])[] = [
  [["Vessel"], "(n)<-[:FITTED_ON|REQUIRED_ON|SAILED_BY]-(m)"],
  [["Vessel"], "(n)<-[:IS_WITHIN*]-(m:Locker)"],
  [["Vessel", "Locker"], "(n)<-[:STOWED_IN]-(m)"],
  [["FittedItem"], "(n)-[:IS_MODEL]->(m)"],
  [["Model"], "(n)<-[:SERVICE_OF]-(m)"],
  [["Model"], "(n)-[:USES]->(m)"],
  [["ServiceTask"], "(n)-[:CONSUMES]->(m)"],
  [["StockLot"], "(n)-[:LOT_OF]->(m)"],
];
/** From parts to what stands in for them, replaced them or is inside them; repeated until nothing is new. */
const kin = "(n)-[:INTERCHANGES_WITH]-(m) | (n)-[:SUPERSEDED_BY|CONTAINS]->(m)".split(" | ");
const last: readonly (readonly [from: readonly NodeLabel[], walk: string])[] = [
  // Service kits a wanted part is in, however deep, and what else is in them.
  [["Part"], "(n)<-[:CONTAINS*]-(m:Part)"],
  [["Part"], "(n)-[:CONTAINS*]->(m:Part)"],
  [["Model", "Part"], "(n)-[:MADE_BY]->(m)"],
  [["Part"], "(n)<-[:OFFERS]-(m)"],
];

/** The ids of all nodes in one vessel's picture, by label; undefined where there is no such vessel. */
export async function chooseVessel(
  transaction: Transaction,
  vessel: NodeId,
): Promise<ReadonlyMap<NodeLabel, ReadonlySet<NodeId>> | undefined> {
  if (labelOf(vessel) !== "Vessel") return undefined;
  const [found] = await transaction.rows("MATCH (v:Vessel {id: $vessel}) RETURN v.id", { vessel });
  if (found === undefined) return undefined;
  const chosen = new Map<NodeLabel, Set<NodeId>>([["Vessel", new Set([vessel])]]);
  const add = (ids: Iterable<NodeId>): NodeId[] => {
    const fresh: NodeId[] = [];
    for (const [label, ofLabel] of grouped(ids, labelOf)) {
      const known = chosen.get(label) ?? new Set<NodeId>();
      chosen.set(label, known);
      for (const id of ofLabel) {
        if (known.has(id)) continue;
        known.add(id);
        fresh.push(id);
      }
    }
    return fresh;
  };
  const walkFrom = async (label: NodeLabel, ids: readonly NodeId[], walk: string) => {
    const rows = await transaction.rows(
      `UNWIND $ids AS id MATCH (n:${ticked(label)} {id: id}) MATCH ${walk} RETURN DISTINCT m.id`,
      { ids },
    );
    return rows.map(([id]) => id as NodeId);
  };
  const follow = async (list: typeof steps) => {
    for (const [labels, walk] of list)
      for (const label of labels) {
        const ids = [...(chosen.get(label) ?? [])];
        if (ids.length > 0) add(await walkFrom(label, ids, walk));
      }
  };
  await follow(steps);
  let front = [...(chosen.get("Part") ?? [])];
  while (front.length > 0) {
    const found: NodeId[] = [];
    for (const walk of kin) found.push(...(await walkFrom("Part", front, walk)));
    front = add(found);
  }
  await follow(last);
  return chosen;
}
