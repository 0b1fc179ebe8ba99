import { beforeAll, describe, expect, test } from "vitest";
import { functionSurvivals } from "../../api/plans/kit/kit-functions.ts";
import type { ServedFunction } from "../../api/scoring/provision/function-slack.ts";
import {
  tierLogSufficiency,
  type VesselKit,
  vesselKit,
} from "../../api/scoring/provision/vessel-kit.ts";
import { bindCrossing } from "../../api/scoring/simulation/bind-crossing.ts";
import { crossingSimulator } from "../../api/scoring/simulation/simulate-crossings.ts";
import { wilsonInterval } from "../../api/scoring/simulation/wilson-interval.ts";
import { seededStream, xoshiroWords } from "../../api/scoring/simulation/xoshiro.ts";
import type { Snapshot } from "../../api/scoring/snapshot/snapshot.ts";
import { openStore } from "../../api/store/open-store.ts";
import { randomFleet } from "../tools/random-fleet.ts";

const fleets = 240;
/** Fleets beyond these have parts that supersede others. */
const chainedFleets = 120;
const crossings = 10_000;
/** About one comparison in 150 000 lies further out by chance. */
const farSigma = 4.5;

interface Comparison {
  readonly what: string;
  readonly kept: number;
  readonly computed: number;
}

const found = {
  tiers: [] as Comparison[],
  chainedTiers: [] as Comparison[],
  exact: [] as Comparison[],
  floors: [] as Comparison[],
  ceilings: [] as Comparison[],
  apart: [] as number[],
  /** Lost as lived less lost as counted, where nothing but spares decides. */
  livedOver: [] as number[],
  lostThoughProvided: 0,
};

/** Classes whose failure stops an item of one of these models. */
const stopping = (kit: VesselKit, models: ReadonlySet<number>) =>
  kit.rows.filter((row) =>
    row.demand.lines.some(
      (line) => models.has(line.model) && line.effect === 0 && line.origin === "failure",
    ),
  );

const isOfModels = (snapshot: Snapshot, item: number, models: ReadonlySet<number>): boolean =>
  models.has(snapshot.items.model[item] ?? -1);

/** Whether only the function's own gear draws on its parts, each of one make: then its figure must be exact. */
function standsAlone(
  snapshot: Snapshot,
  kit: VesselKit,
  f: ServedFunction,
  robbing: boolean,
): boolean {
  const models = new Set(f.items.map((item) => snapshot.items.model[item] ?? -1));
  const rows = stopping(kit, models);
  // A part of the safety tier is never robbed; the formula then counts every item as needing its own.
  if (f.tier !== 0 && rows.some((row) => row.demand.isSafety)) return false;
  if (rows.some((row) => (kit.groups[row.group]?.rows.length ?? 1) > 1)) return false;
  const own = rows.every((row) => {
    const [first] = row.demand.lines;
    return row.demand.lines.every(
      (line) =>
        line.model === first?.model &&
        models.has(line.model) &&
        line.effect === 0 &&
        line.origin === "failure",
    );
  });
  const alone = kit.demand.functions.every(
    (other) => other === f || !other.items.some((item) => isOfModels(snapshot, item, models)),
  );
  return own && alone && (robbing || models.size === 1 || f.tier === 0);
}

async function judge(seed: number): Promise<void> {
  const { sketch, days, hasUnsparable } = randomFleet(seed, seed > fleets);
  const store = await openStore({ db: ":memory:", env: {} });
  await sketch.into(store);
  const [boat] = await store.list("Vessel", 0, 1);
  const snapshot = await store.snapshot(boat?.id ?? expect.unreachable("no vessel"));
  await store.close();
  const robbing = seed % 4 !== 0;
  const passage = { departsDay: 20_800, daysExpected: days, daysLongest: days, marginDays: 0 };
  const kit = vesselKit(snapshot, 0, passage, {
    targets: [0.9, 0.8, 0.6],
    objective: "pieces",
    rule: "kit",
    robbing,
    rates: {},
  });
  const model = bindCrossing(snapshot, 0, passage, kit, robbing);
  const stocks = [
    Int32Array.from(kit.rows, (row) => row.usable),
    Int32Array.from(kit.rows, (row) => row.usable + row.buy),
  ];
  const tally = crossingSimulator(model, stocks)(seed, 0, crossings);
  const survivals = functionSurvivals(snapshot, kit, robbing);
  tally.stocks.forEach((stock, at) => {
    const where = `fleet ${seed}, ${at === 0 ? "aboard" : "kit"}`;
    found.lostThoughProvided += stock.lostThoughProvided;
    for (const tier of [0, 1, 2] as const) {
      const own = kit.groups.filter((group) => group.part.tier === tier);
      if (own.length === 0) continue;
      const log = tierLogSufficiency(kit, tier, (row) => stocks[at]?.[row] ?? 0);
      const computed = Math.exp(log);
      const kept = crossings - (stock.tierShort[tier] ?? 0);
      const tiers = own.some((group) => group.rows.length > 1) ? found.chainedTiers : found.tiers;
      tiers.push({ what: `${where}, tier ${tier}`, kept, computed });
    }
    kit.demand.functions.forEach((f, index) => {
      const survival = survivals[index] ?? expect.unreachable("no survival");
      const [least, most] =
        at === 0
          ? [survival.withAboard, survival.withAboardAtMost]
          : [survival.withKit, survival.withKitAtMost];
      const lost = stock.lostAsCounted[index] ?? 0;
      const what = `${where}, function ${index}`;
      const kept = crossings - lost;
      if (most - least < 1e-6) found.exact.push({ what, kept, computed: least });
      else {
        found.floors.push({ what, kept, computed: least });
        found.ceilings.push({ what, kept, computed: most });
        found.apart.push(most - least);
      }
      if (!standsAlone(snapshot, kit, f, robbing)) return;
      expect(most - least, what).toBeLessThan(1e-6);
      if (!hasUnsparable) found.livedOver.push((stock.lostAsLived[index] ?? 0) - lost);
    });
  });
}

const isWithin = ({ kept, computed }: Comparison, sigma?: number): boolean => {
  const { low, high } = wilsonInterval(kept, crossings, sigma);
  return computed >= low - 1e-9 && computed <= high + 1e-9;
};

/** Where the interval says something: neither never nor always. */
const isOpen = ({ computed }: Comparison): boolean => computed > 0.005 && computed < 0.995;

/** At most as many outside 95 % as four standard deviations of chance allow. */
const mostOutside = (count: number): number => 0.05 * count + 4 * Math.sqrt(0.05 * 0.95 * count);

describe("the formulas before the simulation, on random fleets", () => {
  beforeAll(async () => {
    for (let seed = 1; seed <= fleets + chainedFleets; seed++) await judge(seed);
  }, 120_000);

  // METHODS, section 9: analytic results must lie inside the simulation's interval on random fleets.
  test("the sufficiency of every tier lies inside the interval", () => {
    expect(found.tiers.filter(isOpen).length).toBeGreaterThan(fleets);
    expect(found.tiers.filter((one) => !isWithin(one, farSigma))).toEqual([]);
    const open = found.tiers.filter(isOpen);
    expect(open.filter((one) => !isWithin(one)).length).toBeLessThan(mostOutside(open.length));
  });

  // METHODS, section 6, by the simulation's own accounts: older parts leave what they lack to the one that replaced them.
  test("so does that of tiers in which parts supersede others", () => {
    const open = found.chainedTiers.filter(isOpen);
    expect(open.length).toBeGreaterThan(chainedFleets / 2);
    expect(found.chainedTiers.filter((one) => !isWithin(one, farSigma))).toEqual([]);
    expect(open.filter((one) => !isWithin(one)).length).toBeLessThan(mostOutside(open.length));
  });

  test("so does the survival of functions whose figure is exact", () => {
    expect(found.exact.filter(isOpen).length).toBeGreaterThan(fleets / 2);
    expect(found.exact.filter((one) => !isWithin(one, farSigma))).toEqual([]);
    const open = found.exact.filter(isOpen);
    expect(open.filter((one) => !isWithin(one)).length).toBeLessThan(mostOutside(open.length));
  });

  test("where services, other gear or makes compete for parts it lies between the two figures", () => {
    expect(found.floors.length).toBeGreaterThan(fleets / 4);
    const above = found.floors.filter(
      ({ kept, computed }) => computed > wilsonInterval(kept, crossings, farSigma).high + 1e-9,
    );
    expect(above).toEqual([]);
    const below = found.ceilings.filter(
      ({ kept, computed }) => computed < wilsonInterval(kept, crossings, farSigma).low - 1e-9,
    );
    expect(below).toEqual([]);
    // And says something: half of these pairs lie within a tenth, on fleets made to run short.
    const apart = found.apart.sort((a, b) => a - b);
    expect(apart[Math.floor(apart.length / 2)]).toBeLessThan(0.1);
  });

  test("no function is lost in a crossing in which no part runs short of stock and credit", () => {
    expect(found.lostThoughProvided).toBe(0);
  });

  test("gear that rests once stopped never loses a function more often", () => {
    expect(found.livedOver.length).toBeGreaterThan(fleets / 4);
    expect(Math.max(...found.livedOver)).toBeLessThanOrEqual(0);
    expect(Math.min(...found.livedOver)).toBeLessThan(0);
  });
});

describe("what the simulation stands on", () => {
  // Published check sequence of xoshiro128** from the state 0, 1, 2, 3 (made with the authors' C code).
  test("the generator gives the published sequence", () => {
    const next = xoshiroWords(0, 1, 2, 3);
    expect([next(), next(), next(), next(), next()]).toEqual([
      5760, 17_280, 2_966_400, 32_451_840, 2_604_340_873,
    ]);
  });

  test("streams repeat by seed and differ by seed and by stream", () => {
    const first = (seed: number, stream: number) => {
      const random = seededStream(seed, stream);
      return [random(), random(), random()];
    };
    expect(first(7, 3)).toEqual(first(7, 3));
    expect(first(7, 3)).not.toEqual(first(8, 3));
    expect(first(7, 3)).not.toEqual(first(7, 4));
  });

  // R. Newcombe, Statistics in Medicine 17 (1998) 857, table I, method 3 (score); value from memory.
  test.each([
    [81, 263, 0.2553, 0.3662],
    [15, 148, 0.0624, 0.1605],
    [0, 20, 0, 0.1611],
    [1, 29, 0.0061, 0.1718],
  ])("the interval of %d in %d is the published one", (hits, trials, low, high) => {
    const interval = wilsonInterval(hits, trials);
    expect(interval.low).toBeCloseTo(low, 4);
    expect(interval.high).toBeCloseTo(high, 4);
  });
});
