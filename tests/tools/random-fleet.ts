import { seededStream } from "../../api/scoring/simulation/xoshiro.ts";
import type { NodeId, Properties } from "../../graph-schema/index.ts";
import { GraphSketch } from "./graph-sketch.ts";

export interface RandomFleet {
  readonly sketch: GraphSketch;
  readonly days: number;
  /** Whether some failure can't be mended by a spare. */
  readonly hasUnsparable: boolean;
}

/**
 * A small random vessel with every kind of evidence: rates by hours, years and operations, own history, rarity
 * classes, wear with known and unknown age, services with parts used up and handled; parts of one model or shared;
 * functions of every tier served by one make or two, some items serving two; some stock. Means of about one piece a line, so that
 * shortages are common.
 *
 * @param chained some parts supersede others, also parts no gear takes
 */
export function randomFleet(seed: number, chained = false): RandomFleet {
  const random = seededStream(seed, 0);
  const below = (count: number): number => Math.floor(random() * count);
  const between = (low: number, high: number): number => low + random() * (high - low);
  const pick = <T>(...list: readonly [T, ...T[]]): T => list[below(list.length)] ?? list[0];
  const sketch = new GraphSketch();
  const days = 5 + below(40);
  const boat = sketch.vessel("Tamarisk");
  const shared = [0, 1].map((at) => sketch.part(`S-${at}`));
  let hasUnsparable = false;
  let made = 0;

  const evidence = (): Properties => {
    const mean = between(0.02, 0.8);
    const years = days / 365.25;
    return pick<() => Properties>(
      () => ({ rate: mean / ((days * 12) / 1000), rateBasis: "1000 hours", rateSource: "maker" }),
      () => ({ rate: mean / years, rateBasis: "year", rateSource: "published" }),
      () => ({ rate: mean / ((days * 6) / 1000), rateBasis: "1000 operations" }),
      () => ({ usedCount: below(8), usedOverYears: between(0.3, 8) }),
      () => ({ usedCount: below(4), usedOverYears: between(0.1, 2), rarity: "often" }),
      () => ({ usedCount: 1 + below(4), usedOverYears: 1, rate: mean / years, rateBasis: "year" }),
      () => ({ rarity: pick("seldom", "now and then", "often") }),
      () => ({
        meanLifeHours: (days * 12) / between(0.1, 2.5),
        weibullShape: between(0.6, 4),
      }),
      () => ({
        meanLifeHours: (days * 12) / between(0.1, 1.5),
        weibullShape: between(1, 4),
        rate: mean / 2 / years,
        rateBasis: "year",
      }),
    )();
  };

  const every: NodeId[] = [...shared];
  const makeModel = (): NodeId => {
    const model = sketch.model(`M-${made++}`);
    const lines = 1 + below(3);
    const parts: NodeId[] = [];
    for (let line = 0; line < lines; line++) {
      const part =
        random() < 0.2
          ? pick(shared[0] ?? model, shared[1] ?? model)
          : sketch.part(`P-${made}-${line}`, random() < 0.06 ? { isSafety: true } : {});
      if (parts.includes(part)) continue;
      parts.push(part);
      if (!every.includes(part)) every.push(part);
      const cannotMend = random() < 0.06;
      hasUnsparable ||= cannotMend;
      sketch.link("USES", model, part, {
        quantity: 1 + below(3),
        failureEffect: random() < 0.85 ? "stop" : pick("degrade", "none"),
        fittableAtSea: !cannotMend,
        ...evidence(),
      });
      if (random() < 0.6) sketch.stock(part, boat, 1 + below(3));
    }
    if (random() < 0.2) {
      const task = sketch.node("ServiceTask", `T-${made}`, {
        name: `Service ${made}`,
        intervalHours: between(40, 400),
      });
      sketch.link("SERVICE_OF", task, model);
      for (const part of parts.slice(0, 2)) {
        const handled = random() < 0.5 ? { lossChance: between(0.02, 0.4) } : {};
        sketch.link("CONSUMES", task, part, { quantity: 1 + below(2), ...handled });
      }
    }
    return model;
  };

  /** Each part is superseded by one that comes later in a random order, so that no circle arises. */
  function linkChains(): void {
    every.push(...[0, 1].map((at) => sketch.part(`N-${at}`)));
    const order = every.map((part) => ({ part, at: random() })).sort((a, b) => a.at - b.at);
    order.forEach(({ part }, at) => {
      const newer = order[at + 1 + below(order.length - at)]?.part;
      if (newer !== undefined && random() < 0.6) sketch.link("SUPERSEDED_BY", part, newer);
      if (random() < 0.3) sketch.stock(part, boat, 1 + below(2));
    });
  }

  const functions = 1 + below(3);
  for (let f = 0; f < functions; f++) {
    const makes = random() < 0.25 ? [makeModel(), makeModel()] : [makeModel()];
    const items: NodeId[] = [];
    for (const model of makes) {
      const count = 1 + below(makes.length === 1 ? 4 : 2);
      for (let at = 0; at < count; at++) {
        items.push(
          sketch.item(`F${f} ${model} ${at}`, boat, model, {
            hoursPerDay: random() < 0.5 ? 12 : between(4, 20),
            operationsPerDay: between(3, 9),
            ...(random() < 0.5 ? { hoursRun: Math.round(between(0, 400)) } : {}),
          }),
        );
      }
    }
    const need = 1 + below(items.length);
    const tier = pick("safety", "passage", "passage", "comfort");
    sketch.duty(`Duty ${f}`, boat, tier, need, items);
    if (random() < 0.3) {
      const some = items.filter(() => random() < 0.6);
      if (some.length > 0) {
        const also = tier === "safety" ? "safety" : pick("passage", "comfort");
        sketch.duty(`Second duty ${f}`, boat, also, 1 + below(some.length), some);
      }
    }
  }
  if (chained) linkChains();
  return { sketch, days, hasUnsparable };
}
