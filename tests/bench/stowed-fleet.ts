import { joinKey, keyPiece, mintNodeId, type NodeId } from "../../graph-schema/index.ts";
import type { ProposedChange } from "../../importers/change-set.ts";
import { seeded } from "./flat-fleet.ts";
import { type LargeFleetSize, largeFleet } from "./large-fleet.ts";

/** A fleet with as many parts and lots as the screen must bear: 100 000 of each, on 150 vessels. */
export const hundredThousand: LargeFleetSize = {
  uses: 300_000,
  parts: 100_000,
  models: 6_000,
  suppliers: 300,
  vessels: 150,
  itemsPerVessel: 120,
};

const lockersOfVessel = 30;
const dayInMs = 86_400_000;

/**
 * A large fleet with a lot of every part, each in one of thirty lockers of some vessel, one in twenty with a last day, and a
 * crossing that a vessel sails in forty days. Seeded; the same on every machine but for the days, which follow `today`.
 */
export function stowedFleet(
  size: LargeFleetSize,
  today: Date,
  seed = 1,
): readonly ProposedChange[] {
  const changes: ProposedChange[] = [...largeFleet(size, seed)];
  const random = seeded(seed + 1);
  const below = (count: number) => Math.floor(random() * count);
  const dayIn = (days: number) =>
    new Date(today.getTime() + days * dayInMs).toISOString().slice(0, 10);
  const made = changes.flatMap((change) => (change.kind === "create-node" ? [change] : []));
  const vessels = made.filter(({ label }) => label === "Vessel");
  const parts = made.filter(({ label }) => label === "Part");
  const create = (
    label: "Locker" | "StockLot" | "Crossing",
    key: string,
    properties: Record<string, string | number>,
  ): NodeId => {
    const id = mintNodeId(label, key);
    changes.push({ kind: "create-node", label, id, key, properties });
    return id;
  };
  const link = (
    type: "IS_WITHIN" | "STOWED_IN" | "LOT_OF" | "SAILED_BY",
    from: NodeId,
    to: NodeId,
  ) => changes.push({ kind: "create-link", type, from, to, properties: {} });
  const lockers = vessels.flatMap((vessel) => {
    const ofVessel: { readonly id: NodeId; readonly key: string }[] = [];
    for (let at = 0; at < lockersOfVessel; at++) {
      // A third stand in another, as bins stand in lockers.
      const outer = at % 3 === 2 ? ofVessel[at - 2] : undefined;
      const name = outer === undefined ? `Locker ${at}` : `Bin ${at}`;
      const key = joinKey(outer?.key ?? vessel.key, keyPiece(name));
      const id = create("Locker", key, { name });
      link("IS_WITHIN", id, outer?.id ?? vessel.id);
      ofVessel.push({ id, key });
    }
    return ofVessel;
  });
  for (const part of parts) {
    const locker = lockers[below(lockers.length)];
    if (locker === undefined) continue;
    const expires = random() < 0.05 ? dayIn(below(900) - 60) : "";
    const lot = create("StockLot", joinKey(locker.key, part.key, "", expires, "", ""), {
      quantity: 1 + below(5),
      ...(expires === "" ? {} : { expires }),
    });
    link("STOWED_IN", lot, locker.id);
    link("LOT_OF", lot, part.id);
  }
  const sailing = vessels[0];
  if (sailing !== undefined) {
    const crossing = create("Crossing", keyPiece("The long one"), {
      name: "The long one",
      departs: dayIn(40),
      daysExpected: 21,
      daysLongest: 30,
    });
    link("SAILED_BY", crossing, sailing.id);
  }
  return changes;
}
