import { expect, test } from "vitest";
import type { KitPart } from "../../api/scoring/kit/kit-problem.ts";
import { minimumKit } from "../../api/scoring/kit/minimum-kit.ts";
import { undominatedKits } from "../../api/scoring/kit/undominated-kits.ts";
import { poissonLogCdf } from "../tools/random-kit.ts";

const optimum = (parts: readonly KitPart[], target: number) =>
  minimumKit({ parts, targets: [target, undefined, undefined] });

/** Parallel units of reliability r: at least one of x works with 1 - (1 - r)^x, 0 for none. */
const stage = (unitCost: number, r: number): KitPart => ({
  logCdf: Float64Array.from({ length: 16 }, (_, x) => Math.log1p(-((1 - r) ** x))),
  unitCost,
  tier: 0,
});

/**
 * Four-stage allocation after Barlow & Proschan: unit costs 1.2, 2.3, 3.4, 4.5 (here in tenths),
 * reliabilities .80, .70, .75, .85. Data: value from memory of the source; optima: derived by
 * exhaustive computation.
 */
const fourStages = [stage(12, 0.8), stage(23, 0.7), stage(34, 0.75), stage(45, 0.85)];

test.each([
  [0.9, 286, [3, 4, 2, 2]],
  [0.95, 332, undefined],
  [0.99, 446, undefined],
  [0.995, 525, undefined],
])("four stages in series reach %f at the derived least cost %i", (target, cost, set) => {
  const kit = optimum(fourStages, target);
  expect(kit.status).toBe("optimal");
  expect(kit.cost).toBe(cost);
  expect(kit.lowerBound).toBe(cost);
  expect(kit.sufficiency[0]).toBeGreaterThanOrEqual(target);
  if (set !== undefined) expect([...kit.buys]).toEqual(set);
});

test("four stages for a cost of at most 56 are best at (6, 6, 5, 4), which marginal analysis misses", () => {
  const list = undominatedKits(fourStages, { maxCost: 560 });
  const last = list.cost.length - 1;
  expect(list.cost[last]).toBe(560);
  expect(list.sufficiency[last]).toBeCloseTo(0.9977259, 8);
  expect([...list.buysAt(last)]).toEqual([6, 6, 5, 4]);
  expect(list.truncated).toBe(true);
  expect(list.completeToCost).toBe(560);
});

/** Poisson demands .5, 1, .25, 2 at unit costs 100, 40, 250, 15. Derived by exhaustive computation. */
const poissonKit: KitPart[] = [
  { logCdf: poissonLogCdf(0.5), unitCost: 100, tier: 0 },
  { logCdf: poissonLogCdf(1), unitCost: 40, tier: 0 },
  { logCdf: poissonLogCdf(0.25), unitCost: 250, tier: 0 },
  { logCdf: poissonLogCdf(2), unitCost: 15, tier: 0 },
];

test.each([
  [0.8, 505, [1, 2, 1, 5]],
  [0.9, 645, [2, 3, 1, 5]],
  [0.95, 700, [2, 4, 1, 6]],
  [0.99, 1065, [3, 4, 2, 7]],
])("the Poisson kit for %f costs the derived %i", (target, cost, set) => {
  const kit = optimum(poissonKit, target);
  expect(kit.status).toBe("optimal");
  expect(kit.cost).toBe(cost);
  expect(kit.sufficiency[0]).toBeGreaterThanOrEqual(target);
  const check = set.reduce((sum, x, p) => sum + (poissonKit[p]?.logCdf[x] ?? 0), 0);
  expect(Math.exp(check)).toBeGreaterThanOrEqual(target);
});

/**
 * Trivedi, Probability and Statistics with Reliability, 2nd ed., ch. 6 problem 2 (after Barlow &
 * Proschan): rate .002 an hour over 1300, 1500 and 1200 h, protection above .90. Problem as
 * published; answers derived.
 */
test("spares pooled for three systems: 12, where separate stocks take 17", () => {
  const separate = [2.6, 3, 2.4].map(
    (mean): KitPart => ({ logCdf: poissonLogCdf(mean), unitCost: 1, tier: 0 }),
  );
  const apart = optimum(separate, 0.9);
  expect(apart.cost).toBe(17);
  expect(apart.sufficiency[0]).toBeGreaterThanOrEqual(0.9);
  const best = undominatedKits(separate, { maxCost: 17 });
  expect(best.sufficiency.at(-1)).toBeCloseTo(0.916012, 6);
  const pooled = optimum([{ logCdf: poissonLogCdf(8), unitCost: 1, tier: 0 }], 0.9);
  expect(pooled.cost).toBe(12);
  expect(pooled.sufficiency[0]).toBeCloseTo(0.936203, 6);
  expect(Math.exp(poissonLogCdf(8)[11] ?? 0)).toBeCloseTo(0.888076, 6);
});
