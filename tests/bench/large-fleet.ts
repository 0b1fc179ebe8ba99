import {
  joinKey,
  keyPiece,
  mintNodeId,
  type NodeId,
  type NodeLabel,
  type Properties,
  type RelationshipType,
} from "../../graph-schema/index.ts";
import type { ProposedChange } from "../../importers/change-set.ts";
import { seeded } from "./flat-fleet.ts";

export interface LargeFleetSize {
  readonly uses: number;
  readonly parts: number;
  readonly models: number;
  readonly suppliers: number;
  readonly vessels: number;
  readonly itemsPerVessel: number;
}

/** The size the shared graph is measured at. */
export const million: LargeFleetSize = {
  uses: 1_000_000,
  parts: 100_000,
  models: 20_000,
  suppliers: 300,
  vessels: 150,
  itemsPerVessel: 120,
};

/** The same fleet, smaller by a factor. */
export const scaled = (size: LargeFleetSize, factor: number): LargeFleetSize => ({
  uses: Math.round(size.uses * factor),
  parts: Math.round(size.parts * factor),
  models: Math.round(size.models * factor),
  suppliers: Math.max(5, Math.round(size.suppliers * factor)),
  vessels: Math.max(3, Math.round(size.vessels * factor)),
  itemsPerVessel: size.itemsPerVessel,
});

const modelsPerFamily = 8;

/**
 * A fleet of the given size, seeded, the same on every machine, with the sharing that gear shows: models come in
 * families of a maker that share most of their list; beyond that each takes a few common pieces (o-rings, clamps,
 * belts, fuses), the commoner ones far more often, and some of its own. Suppliers differ in size; most parts are
 * offered by one to three of them. Vessels favour some families, as fleets do.
 */
export function largeFleet(size: LargeFleetSize, seed = 1): readonly ProposedChange[] {
  const random = seeded(seed);
  const below = (count: number) => Math.floor(random() * count);
  /** Small numbers far more often than large ones. */
  const skewed = (count: number) => Math.floor(count * random() ** 3);
  const changes: ProposedChange[] = [];
  const node = (label: NodeLabel, properties: Properties, ...key: readonly string[]): NodeId => {
    const joined = joinKey(...key.map(keyPiece));
    const id = mintNodeId(label, joined);
    changes.push({ kind: "create-node", label, id, key: joined, properties });
    return id;
  };
  const link = (type: RelationshipType, from: NodeId, to: NodeId, properties: Properties = {}) =>
    changes.push({ kind: "create-link", type, from, to, properties });
  const named = (label: NodeLabel, count: number, word: string) =>
    Array.from({ length: count }, (_, at) =>
      node(label, { name: `${word} ${at}` }, `${word} ${at}`),
    );
  const at = <T>(list: readonly T[], place: number): T => {
    const found = list[place % list.length];
    if (found === undefined) throw new RangeError("Nothing to pick from");
    return found;
  };

  const makers = named("Maker", Math.max(10, Math.round(size.models / 60)), "Maker");
  const suppliers = named("Supplier", size.suppliers, "Supplier");
  const vessels = named("Vessel", size.vessels, "Vessel");
  const nouns = ["oil filter", "impeller", "shaft seal", "drive belt", "o-ring", "hose clamp"];
  const parts = Array.from({ length: size.parts }, (_, part) => {
    const maker = below(makers.length);
    const partNumber = `${String.fromCharCode(65 + below(26))}${below(90) + 10}-${String(part).padStart(6, "0")}`;
    const id = node(
      "Part",
      {
        partNumber,
        description: `${at(nouns, below(nouns.length))} ${below(300)} mm`,
        massKg: below(1000) / 1000,
      },
      `Maker ${maker}`,
      partNumber,
    );
    link("MADE_BY", id, at(makers, maker));
    return id;
  });
  const models = Array.from({ length: size.models }, (_, model) => {
    const maker = Math.floor(model / modelsPerFamily) % makers.length;
    const designation = `MX-${model}`;
    const id = node(
      "Model",
      { designation, category: `Category ${maker % 40}` },
      `Maker ${maker}`,
      designation,
    );
    link("MADE_BY", id, at(makers, maker));
    return id;
  });
  const common = Math.max(20, Math.round(size.parts / 50));
  let family: number[] = [];
  let lines = 0;
  models.forEach((model, row) => {
    if (row % modelsPerFamily === 0)
      family = Array.from({ length: 60 }, () => common + below(size.parts - common));
    // What is left, spread evenly over the models that are left.
    const wanted = Math.round((size.uses - lines) / (models.length - row));
    const chosen = new Set<number>();
    for (const part of family) if (chosen.size < wanted * 0.6 && random() < 0.7) chosen.add(part);
    while (chosen.size < Math.min(wanted * 0.8, common)) chosen.add(skewed(common));
    while (chosen.size < wanted) chosen.add(common + below(size.parts - common));
    for (const part of chosen)
      link("USES", model, at(parts, part), {
        quantity: 1 + below(8),
        failureEffect: random() < 0.7 ? "stop" : "degrade",
        fittableAtSea: random() < 0.9,
        rate: below(1000) / 1000,
        rateBasis: "year",
        rateSource: "class assumption",
      });
    lines += chosen.size;
  });
  parts.forEach((part, row) => {
    const sellers = new Set<number>();
    for (let turn = 0; turn <= below(3); turn++) sellers.add(skewed(suppliers.length));
    for (const seller of sellers)
      link("OFFERS", at(suppliers, seller), part, {
        supplierCode: `S${seller}-${row}`,
        priceMinor: below(100_000),
        currency: "EUR",
        leadTimeDays: below(60),
      });
  });
  vessels.forEach((vessel, row) => {
    for (let item = 0; item < size.itemsPerVessel; item++) {
      const position = `Position ${item}`;
      const id = node("FittedItem", { position }, `Vessel ${row}`, position);
      link("FITTED_ON", id, vessel);
      link(
        "IS_MODEL",
        id,
        at(models, random() < 0.3 ? skewed(models.length) : below(models.length)),
      );
    }
  });
  return changes;
}
