import {
  joinKey,
  keyPiece,
  mintNodeId,
  type NodeId,
  type NodeLabel,
} from "../../graph-schema/index.ts";
import type { ChangeSet, ProposedChange } from "../../importers/change-set.ts";

/** A small seeded generator of numbers in [0, 1): mulberry32 (Tommy Ettinger, public domain). */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

export interface FleetSize {
  readonly models: number;
  readonly parts: number;
  readonly uses: number;
  readonly items: number;
}

/**
 * What a flat list of `uses` rows proposes to an empty graph: makers, models, parts, items on three vessels,
 * parts-list lines, two offers a part, a lot for every other part. Seeded; the same on every machine.
 */
export function flatFleet(size: FleetSize, seed = 1): ChangeSet {
  const random = seeded(seed);
  const below = (count: number) => Math.floor(random() * count);
  const changes: ProposedChange[] = [];
  const node = (label: NodeLabel, key: string, properties: Record<string, string | number>) => {
    const id = mintNodeId(label, key);
    changes.push({ kind: "create-node", label, id, key, properties });
    return id;
  };
  const named = (label: NodeLabel, count: number, word: string) =>
    Array.from({ length: count }, (_, at) => {
      const name = `${word} ${at}`;
      return { id: node(label, keyPiece(name), { name }), key: keyPiece(name) };
    });
  const pick = <T>(list: readonly T[]): T => {
    const found = list[below(list.length)];
    if (found === undefined) throw new RangeError("Nothing to pick from");
    return found;
  };
  const link = (
    type: (ProposedChange & { kind: "create-link" })["type"],
    from: NodeId,
    to: NodeId,
    properties: Record<string, string | number> = {},
  ) => changes.push({ kind: "create-link", type, from, to, properties });

  const vessels = named("Vessel", 3, "Vessel");
  const makers = named("Maker", 200, "Maker");
  const suppliers = named("Supplier", 40, "Supplier");
  const lockers = Array.from({ length: 30 }, (_, at) => {
    const vessel = pick(vessels);
    const name = `Locker ${at}`;
    const key = joinKey(vessel.key, keyPiece(name));
    const id = node("Locker", key, { name });
    link("IS_WITHIN", id, vessel.id);
    return { id, key };
  });
  const models = Array.from({ length: size.models }, (_, at) => {
    const maker = pick(makers);
    const designation = `MX-${at}/${below(100)}`;
    const id = node("Model", joinKey(maker.key, keyPiece(designation)), {
      designation,
      category: `Category ${below(20)}`,
    });
    link("MADE_BY", id, maker.id);
    return id;
  });
  const nouns = ["oil filter", "impeller", "shaft seal", "drive belt", "o-ring", "hose clamp"];
  const parts = Array.from({ length: size.parts }, (_, at) => {
    const maker = pick(makers);
    const partNumber = `${String.fromCharCode(65 + below(26))}${below(90) + 10}-${String(at).padStart(6, "0")}.${below(10)}`;
    const key = joinKey(maker.key, keyPiece(partNumber));
    const id = node("Part", key, {
      partNumber,
      description: `${pick(nouns)} ${below(300)} mm`,
      massKg: Math.round(random() * 1000) / 1000,
    });
    link("MADE_BY", id, maker.id);
    return { id, key };
  });
  for (let at = 0; at < size.items; at++) {
    const vessel = pick(vessels);
    const position = `Position ${at}`;
    const id = node("FittedItem", joinKey(vessel.key, keyPiece(position)), { position });
    link("FITTED_ON", id, vessel.id);
    link("IS_MODEL", id, pick(models));
  }
  const lines = new Set<string>();
  while (lines.size < size.uses) {
    const model = pick(models);
    const part = pick(parts);
    const key = `${model}>${part.id}`;
    if (lines.has(key)) continue;
    lines.add(key);
    link("USES", model, part.id, {
      quantity: 1 + below(8),
      failureEffect: "stop",
      rate: random(),
      rateBasis: "year",
    });
  }
  parts.forEach((part, at) => {
    const first = below(suppliers.length);
    for (const supplier of [first, (first + 1) % suppliers.length])
      link("OFFERS", suppliers[supplier]?.id ?? pick(suppliers).id, part.id, {
        supplierCode: `S${supplier}-${at}`,
        priceMinor: below(100_000),
        currency: "EUR",
        leadTimeDays: below(60),
      });
    if (at % 2 === 1) return;
    const locker = pick(lockers);
    const lot = node("StockLot", joinKey(locker.key, part.key, "", "", "", ""), {
      quantity: below(5),
    });
    link("STOWED_IN", lot, locker.id);
    link("LOT_OF", lot, part.id);
  });
  return { changes };
}
