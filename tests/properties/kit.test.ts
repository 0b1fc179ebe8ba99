import fc from "fast-check";
import { expect, test } from "vitest";
import { kitFrontier } from "../../api/scoring/kit/frontier.ts";
import type { KitPart, Tier } from "../../api/scoring/kit/kit-problem.ts";
import { logTarget } from "../../api/scoring/kit/log-target.ts";
import { minimumKit } from "../../api/scoring/kit/minimum-kit.ts";
import { perPartRule } from "../../api/scoring/kit/per-part-rule.ts";
import { undominatedKits } from "../../api/scoring/kit/undominated-kits.ts";
import { poissonLogCdf, randomKit } from "../tools/random-kit.ts";
import { costOf, leastCost, logOf, undominatedPairs } from "./brute-force-kit.ts";

/** Any rising cdf: flat stretches, leading zeros, leaps; rarely log-concave. */
const cdf = fc
  .array(
    fc.oneof(fc.constantFrom(0, 0.5, 0.9, 0.99, 1), fc.double({ min: 0.001, max: 1, noNaN: true })),
    {
      minLength: 1,
      maxLength: 5,
    },
  )
  .map((values) =>
    Float64Array.from(
      values.sort((a, b) => a - b),
      Math.log,
    ),
  );

const poisson = fc
  .double({ min: 0.01, max: 1.5, noNaN: true })
  .map((m) => poissonLogCdf(m).slice(0, 4));

/** The same on a grid of thousandths, where two kits differ by far more than rounding or not at all. */
const gridCdf = fc
  .array(fc.integer({ min: 0, max: 1000 }), { minLength: 1, maxLength: 5 })
  .map((values) =>
    Float64Array.from(
      values.sort((a, b) => a - b),
      (v) => Math.log(v / 1000),
    ),
  );

const partWith = (
  cost: fc.Arbitrary<number>,
  logCdf = fc.oneof(cdf, poisson),
): fc.Arbitrary<KitPart> =>
  fc.record(
    {
      logCdf,
      unitCost: cost,
      tier: fc.constant<Tier>(0),
      maxBuy: fc.integer({ min: 0, max: 6 }),
    },
    { requiredKeys: ["logCdf", "unitCost", "tier"] },
  );

const smallCost = fc.oneof(fc.constantFrom(0, 1, 10, 10), fc.integer({ min: 0, max: 40 }));
const hugeCost = fc.integer({ min: 1, max: 2 ** 47 });
const kitOf = (cost: fc.Arbitrary<number>, maxLength = 5) =>
  fc.array(partWith(cost), { minLength: 1, maxLength });
const target = fc.oneof(
  fc.constantFrom(0.8, 0.9, 0.95, 0.99),
  fc.double({ min: 0.001, max: 0.999999, noNaN: true }),
);

function expectLeastCost(parts: readonly KitPart[], goal: number): void {
  const answer = minimumKit({ parts, targets: [goal, undefined, undefined] });
  const least = leastCost(parts, logTarget(goal));
  expect(answer.lowerBound).toBe(answer.cost);
  if (least === undefined) {
    expect(answer.status).toBe("infeasible");
    expect(answer.tiers[0].blocking.length).toBeGreaterThan(0);
    expect(answer.tiers[0].bestReachable).toBeLessThanOrEqual(goal);
    return;
  }
  expect(answer.status).toBe("optimal");
  expect(answer.cost).toBe(least);
  expect(costOf(parts, answer.buys)).toBe(answer.cost);
  expect(Math.exp(logOf(parts, answer.buys))).toBeGreaterThanOrEqual(goal);
  expect(answer.sufficiency[0]).toBeGreaterThanOrEqual(goal);
  parts.forEach((part, p) => {
    expect(answer.buys[p]).toBeLessThanOrEqual(part.maxBuy ?? Infinity);
  });
}

test("a kit costs what trying every kit finds, for any distributions and small, equal or zero costs", () => {
  fc.assert(fc.property(kitOf(smallCost), target, expectLeastCost), { numRuns: 1500 });
});

test("a kit costs what trying every kit finds, for huge costs, to the unit", () => {
  fc.assert(fc.property(kitOf(hugeCost), target, expectLeastCost), { numRuns: 500 });
});

test("a target that some kit meets exactly is met by it or by a cheaper one", () => {
  fc.assert(
    fc.property(kitOf(smallCost, 4), fc.nat(), (parts, pick) => {
      const pairs = undominatedPairs(parts).filter((p) => p.log < 0 && Math.exp(p.log) < 1);
      const pair = pairs[pick % Math.max(1, pairs.length)];
      fc.pre(pair !== undefined && Math.exp(pair.log) > 0);
      expectLeastCost(parts, Math.exp(pair?.log ?? -1));
    }),
    { numRuns: 500 },
  );
});

const gridKit = fc.array(partWith(smallCost, gridCdf), { minLength: 1, maxLength: 4 });

test("the list of undominated kits is what trying every kit leaves", () => {
  fc.assert(
    fc.property(gridKit, (parts) => {
      const list = undominatedKits(parts);
      const pairs = undominatedPairs(parts);
      expect(list.truncated).toBe(false);
      expect([...list.cost]).toEqual(pairs.map((p) => p.cost));
      pairs.forEach((pair, k) => {
        expect(list.logSufficiency[k]).toBeCloseTo(pair.log, 12);
        expect(logOf(parts, list.buysAt(k))).toBeCloseTo(pair.log, 12);
        expect(costOf(parts, list.buysAt(k))).toBe(pair.cost);
      });
    }),
    { numRuns: 500 },
  );
});

test("a list of undominated kits cut short holds the cheap end whole and says how far", () => {
  fc.assert(
    fc.property(gridKit, fc.integer({ min: 1, max: 8 }), (parts, maxKits) => {
      const whole = undominatedKits(parts);
      const cut = undominatedKits(parts, { maxKits });
      const kept = [...whole.cost].filter((cost) => cost <= cut.completeToCost);
      expect([...cut.cost]).toEqual(kept);
      expect(cut.cost.length).toBeLessThanOrEqual(maxKits);
      if (!cut.truncated) expect(kept.length).toBe(whole.cost.length);
    }),
    { numRuns: 500 },
  );
});

test("larger Poisson kits cost what the list of undominated kits says, equal parts and ties included", () => {
  for (let seed = 1; seed <= 20; seed++) {
    const some = randomKit(6, seed).map((part) => ({
      ...part,
      unitCost: Math.ceil(part.unitCost / 5000),
    }));
    const parts = [...some, ...some.slice(0, 4)];
    const list = undominatedKits(parts, { maxKits: 20_000 });
    for (const goal of [0.5, 0.9, 0.99]) {
      const answer = minimumKit({ parts, targets: [goal, undefined, undefined] });
      const at = list.sufficiency.findIndex((share) => share >= goal);
      expect(at).toBeGreaterThanOrEqual(0);
      expect(answer.cost).toBe(list.cost[at]);
    }
  }
});

/** Proschan's marginal analysis: at equal costs and log-concave demands, the greatest gain first is optimal. */
test("at equal costs a Poisson kit holds as many pieces as taking the greatest gain first", () => {
  for (const [seed, goal] of [
    [1, 0.5],
    [2, 0.9],
    [3, 0.999],
  ] as const) {
    const parts = randomKit(300, seed).map((part) => ({ ...part, unitCost: 7 }));
    const held = parts.map(() => 0);
    let pieces = 0;
    while (logOf(parts, held) < logTarget(goal)) {
      const gains = parts.map((part, p) => {
        const x = held[p] ?? 0;
        return (part.logCdf[x + 1] ?? part.logCdf[x] ?? 0) - (part.logCdf[x] ?? 0);
      });
      const at = gains.indexOf(Math.max(...gains));
      held[at] = (held[at] ?? 0) + 1;
      pieces++;
    }
    const answer = minimumKit({ parts, targets: [goal, undefined, undefined] });
    expect(answer.status).toBe("optimal");
    expect(answer.cost).toBe(7 * pieces);
  }
});

test("a higher target never costs less", () => {
  fc.assert(
    fc.property(kitOf(smallCost, 12), target, target, (parts, one, other) => {
      const [low, high] = [Math.min(one, other), Math.max(one, other)];
      const cheap = minimumKit({ parts, targets: [low, undefined, undefined] });
      const dear = minimumKit({ parts, targets: [high, undefined, undefined] });
      if (dear.status === "optimal") {
        expect(cheap.status).toBe("optimal");
        expect(cheap.cost).toBeLessThanOrEqual(dear.cost);
      }
    }),
  );
});

test("all costs times a factor cost that factor more; the order of parts changes nothing", () => {
  fc.assert(
    fc.property(
      kitOf(smallCost, 12),
      target,
      fc.integer({ min: 1, max: 1e6 }),
      (parts, goal, by) => {
        const plain = minimumKit({ parts, targets: [goal, undefined, undefined] });
        const scaled = minimumKit({
          parts: parts.map((part) => ({ ...part, unitCost: part.unitCost * by })),
          targets: [goal, undefined, undefined],
        });
        const turned = minimumKit({
          parts: parts.toReversed(),
          targets: [goal, undefined, undefined],
        });
        expect(scaled.status).toBe(plain.status);
        expect(scaled.cost).toBe(plain.cost * by);
        expect(turned.status).toBe(plain.status);
        expect(turned.cost).toBe(plain.cost);
      },
    ),
  );
});

test("tiers are solved as if each were alone, and a tier without a target buys nothing", () => {
  const tiered = fc.array(
    fc
      .tuple(partWith(smallCost), fc.constantFrom<Tier>(0, 1, 2))
      .map(([part, tier]) => ({ ...part, tier })),
    { minLength: 1, maxLength: 9 },
  );
  fc.assert(
    fc.property(tiered, target, target, (parts, first, second) => {
      const answer = minimumKit({ parts, targets: [first, second, undefined] });
      const alone = ([0, 1] as const).map((tier) => {
        const targets = [undefined, undefined, undefined] as (number | undefined)[];
        targets[tier] = tier === 0 ? first : second;
        return minimumKit({
          parts: parts.filter((part) => part.tier === tier),
          targets: [targets[0], targets[1], targets[2]],
        });
      });
      expect(answer.cost).toBe((alone[0]?.cost ?? 0) + (alone[1]?.cost ?? 0));
      expect(answer.tiers[0].status).toBe(alone[0]?.status);
      expect(answer.tiers[1].status).toBe(alone[1]?.status);
      parts.forEach((part, p) => {
        if (part.tier === 2) expect(answer.buys[p]).toBe(0);
      });
    }),
  );
});

test("every kit on the convex frontier is a least-cost kit for its own sufficiency", () => {
  fc.assert(
    fc.property(gridKit, (parts) => {
      const frontier = kitFrontier(parts);
      fc.pre(frontier.hopeless.length === 0);
      for (let k = 0; k < frontier.cost.length; k++) {
        const buys = frontier.buysAt(k);
        const log = logOf(parts, buys);
        expect(costOf(parts, buys)).toBe(frontier.cost[k]);
        expect(frontier.logSufficiency[k]).toBeCloseTo(log, 12);
        expect(leastCost(parts, log)).toBe(frontier.cost[k]);
      }
    }),
    { numRuns: 300 },
  );
});

test("the per-part rule holds each part's least level, and a joint kit for the same sufficiency costs no more", () => {
  fc.assert(
    fc.property(kitOf(smallCost, 10), target, (parts, share) => {
      const rule = perPartRule(parts, share);
      parts.forEach((part, p) => {
        if (rule.unreached.includes(p)) return;
        const x = rule.buys[p] ?? 0;
        expect(Math.exp(part.logCdf[x] ?? -Infinity)).toBeGreaterThanOrEqual(share);
        if (x > 0) expect(part.logCdf[x - 1] ?? 0).toBeLessThan(logTarget(share));
      });
      fc.pre(rule.sufficiency[0] > 1e-9 && rule.sufficiency[0] < 1);
      const joint = minimumKit({
        parts,
        targets: [rule.sufficiency[0] * (1 - 1e-12), undefined, undefined],
      });
      expect(joint.status).toBe("optimal");
      expect(joint.cost).toBeLessThanOrEqual(rule.cost);
    }),
  );
});

test("stopped at once, the answer is a kit that reaches its target and a bound below the least cost", () => {
  for (let seed = 1; seed <= 20; seed++) {
    const problem = { parts: randomKit(40, seed), targets: [0.9, undefined, undefined] as const };
    const proven = minimumKit(problem);
    const stopped = minimumKit(problem, { shouldStop: () => true });
    expect(proven.status).toBe("optimal");
    expect(stopped.sufficiency[0]).toBeGreaterThanOrEqual(0.9);
    expect(stopped.lowerBound).toBeLessThanOrEqual(proven.cost);
    expect(stopped.cost).toBeGreaterThanOrEqual(proven.cost);
    expect(stopped.gap).toBe(stopped.cost - stopped.lowerBound);
    expect(stopped.status).toBe(stopped.gap > 0 ? "time-limited" : "optimal");
  }
});

test("parts that stand in the way are named, worst first, and only as many as it takes", () => {
  const logs = (...values: number[]) => Float64Array.from(values, Math.log);
  const answer = minimumKit({
    parts: [
      { logCdf: logs(0.5, 1), unitCost: 1, tier: 1 },
      { logCdf: logs(0.5, 0.9), unitCost: 1, tier: 1 },
      { logCdf: logs(0, 0), unitCost: 1, tier: 1 },
      { logCdf: logs(0.5, 0.97), unitCost: 1, tier: 1 },
    ],
    targets: [undefined, 0.95, undefined],
  });
  expect(answer.status).toBe("infeasible");
  expect(answer.tiers[1].blocking).toEqual([2, 1]);
  expect(answer.tiers[1].bestReachable).toBe(0);
  expect([...answer.buys]).toEqual([0, 0, 0, 0]);
});

test("faulty input is refused with its rule", () => {
  const part: KitPart = { logCdf: poissonLogCdf(1), unitCost: 10, tier: 0 };
  const solve =
    (change: Partial<KitPart>, goal = 0.9) =>
    () =>
      minimumKit({ parts: [{ ...part, ...change }], targets: [goal, undefined, undefined] });
  expect(solve({ unitCost: 1.5 })).toThrow(expect.objectContaining({ code: "input-invalid" }));
  expect(solve({ unitCost: -1 })).toThrow(expect.objectContaining({ code: "input-invalid" }));
  expect(solve({ maxBuy: -1 })).toThrow(expect.objectContaining({ code: "input-invalid" }));
  expect(solve({ logCdf: new Float64Array() })).toThrow(
    expect.objectContaining({ code: "input-invalid" }),
  );
  expect(solve({ unitCost: Number.MAX_SAFE_INTEGER })).toThrow(
    expect.objectContaining({ code: "input-invalid" }),
  );
  for (const goal of [0, 1, Number.NaN, 95]) {
    expect(solve({}, goal)).toThrow(expect.objectContaining({ code: "target-invalid" }));
  }
});
