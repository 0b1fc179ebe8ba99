import type { GraphStore } from "../../api/store/graph-store.ts";
import type { NodeId } from "../../graph-schema/index.ts";
import { GraphSketch } from "../tools/graph-sketch.ts";
import { seeded } from "./flat-fleet.ts";

export interface VariedFleetSize {
  readonly vessels: number;
  readonly categories: number;
  /** Models in each category. */
  readonly makes: number;
  readonly items: number;
}

/**
 * A generated fleet whose gear was bought as it came: several makes of each kind, each with parts of its own and parts it
 * shares with the maker's other sizes, priced, offered by a dozen suppliers; duties of four intensities. Seeded.
 */
export async function variedFleet(
  store: GraphStore,
  size: VariedFleetSize,
  seed = 1,
): Promise<void> {
  const random = seeded(seed);
  const below = (count: number): number => Math.floor(random() * count);
  const sketch = new GraphSketch();
  const suppliers = Array.from({ length: 12 }, (_, at) => sketch.supplier(`Supplier ${at}`));
  const vessels = Array.from({ length: size.vessels }, (_, at) => sketch.vessel(`Vessel ${at}`));
  const part = (name: string): NodeId => {
    const id = sketch.part(name, { massKg: 0.05 + below(200) / 100 });
    const first = below(suppliers.length);
    for (const supplier of [first, (first + 1 + below(5)) % suppliers.length]) {
      const from = suppliers[supplier];
      if (from !== undefined)
        sketch.link("OFFERS", from, id, {
          priceMinor: 200 + below(20_000),
          currency: "EUR",
          leadTimeDays: 3 + below(30),
        });
    }
    return id;
  };
  const makes = Array.from({ length: size.categories }, (_, c) => {
    const families = [0, 1].map((f) =>
      Array.from({ length: 5 }, (_, p) => part(`F-${c}-${f}-${p}`)),
    );
    return Array.from({ length: size.makes }, (_, m) => {
      const model = sketch.node("Model", `M-${c}-${m}`, {
        designation: `M-${c}-${m}`,
        category: `Kind ${c}`,
        workingLoadKg: 500 + 100 * (m % 2),
        priceMinor: 8_000 + below(60_000),
        currency: "EUR",
      });
      sketch.link("MADE_BY", model, sketch.maker());
      const own = Array.from({ length: 7 }, (_, p) => part(`P-${c}-${m}-${p}`));
      for (const one of [...(families[m % 2] ?? []), ...own]) {
        sketch.link("USES", model, one, {
          quantity: 1 + below(3),
          failureEffect: random() < 0.6 ? "stop" : "degrade",
          rate: 0.002 + 0.06 * random() * random(),
          rateBasis: "1000 hours",
          rateSource: "published",
        });
      }
      return model;
    });
  });
  for (const [v, vessel] of vessels.entries()) {
    const perVessel = Math.round(size.items / size.vessels);
    const byKind = new Map<number, NodeId[]>();
    for (let at = 0; at < perVessel; at++) {
      const kind = at % size.categories;
      const models = makes[kind] ?? [];
      const model = models[below(models.length)];
      if (model === undefined) continue;
      const item = sketch.item(`V${v} item ${at}`, vessel, model, {
        hoursPerDay: [2, 6, 12, 20][below(4)] ?? 6,
        hoursRun: 100 + below(4000),
        neededWorkingLoadKg: random() < 0.3 ? 550 : 450,
      });
      byKind.set(kind, [...(byKind.get(kind) ?? []), item]);
    }
    for (const [kind, items] of byKind) {
      const tier = kind % 10 === 0 ? "safety" : kind % 3 === 0 ? "comfort" : "passage";
      sketch.duty(`V${v} duty ${kind}`, vessel, tier, Math.max(1, items.length - 1), items);
    }
  }
  await sketch.into(store);
}
