import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { Problem } from "../../api/errors/problem.ts";
import { cumulative, meanOf, type Pmf } from "../../api/scoring/demand/pmf.ts";
import { poissonDemand } from "../../api/scoring/demand/poisson-demand.ts";
import { atMost, moreThan } from "../../api/scoring/sufficiency/at-most.ts";
import { expectedBackorders } from "../../api/scoring/sufficiency/expected-backorders.ts";
import { kOfN } from "../../api/scoring/sufficiency/k-of-n.ts";
import {
  logSufficiency,
  logSufficiencyAt,
  logSufficiencyOfAll,
} from "../../api/scoring/sufficiency/log-sufficiency.ts";
import { mixedModelSurvival, wholeItems } from "../../api/scoring/sufficiency/mixed-models.ts";
import { noRobbingSurvival } from "../../api/scoring/sufficiency/no-robbing.ts";
import { robbingCredit } from "../../api/scoring/sufficiency/robbing-credit.ts";

const mean = fc.double({ min: 0, max: 4, noNaN: true });
const part = fc.record({
  demand: mean.map(poissonDemand),
  spares: fc.nat(4),
  piecesPerItem: fc.integer({ min: 1, max: 3 }),
});
const parts = fc.array(part, { minLength: 1, maxLength: 3 });
const need = fc.tuple(fc.integer({ min: 1, max: 4 }), fc.nat(4)).map(([n, k]) => ({
  fitted: n,
  needed: Math.min(n, k),
}));
type Part = { demand: Pmf; spares: number; piecesPerItem: number };

/** Sums the chance of every combination of demands for which `holds`. */
function enumerate(list: readonly Part[], holds: (used: readonly number[]) => boolean): number {
  const visit = (used: readonly number[]): number => {
    const next = list[used.length];
    if (next === undefined) return holds(used) ? 1 : 0;
    let sum = 0;
    next.demand.mass.forEach((p, d) => {
      sum += p * visit([...used, d]);
    });
    return sum;
  };
  return visit([]);
}

/** Whole items that can be built from what is left, n q + s - D good pieces of each part. */
function canBuild(list: readonly Part[], fitted: number, used: readonly number[]): number {
  return list.reduce((whole, { spares, piecesPerItem }, i) => {
    const good = Math.max(0, fitted * piecesPerItem + spares - (used[i] ?? 0));
    return Math.min(whole, Math.floor(good / piecesPerItem));
  }, fitted);
}

describe("redundancy", () => {
  it("with robbing equals the enumeration of all demands, by credit and by whole items", () => {
    fc.assert(
      fc.property(
        fc.array(part, { minLength: 1, maxLength: 2 }),
        need,
        (list, { fitted, needed }) => {
          const exact = enumerate(list, (used) => canBuild(list, fitted, used) >= needed);
          if (needed > 0) {
            const byCredit = logSufficiencyOfAll(
              list.map(({ demand, spares, piecesPerItem }) => ({
                demand,
                pieces:
                  spares + robbingCredit([{ fitted, needed, piecesPerItem, tier: "passage" }]),
              })),
            );
            expect(Math.exp(byCredit)).toBeCloseTo(exact, 10);
          }
          expect(mixedModelSurvival([{ fitted, parts: list }], needed)).toBeCloseTo(exact, 10);
        },
      ),
      { numRuns: 40 },
    );
  });

  it("without robbing equals the enumeration, and is never above robbing", () => {
    fc.assert(
      fc.property(
        fc.array(part, { minLength: 1, maxLength: 2 }),
        need,
        (list, { fitted, needed }) => {
          const alone = noRobbingSurvival(list, fitted, needed);
          const exact = enumerate(
            list,
            (used) =>
              list.reduce((sum, p, i) => sum + Math.max(0, (used[i] ?? 0) - p.spares), 0) <=
              fitted - needed,
          );
          expect(alone).toBeCloseTo(exact, 10);
          const robbing = mixedModelSurvival([{ fitted, parts: list }], needed);
          expect(alone).toBeLessThanOrEqual(robbing + 1e-12);
        },
      ),
      { numRuns: 40 },
    );
  });

  it("of mixed models equals the enumeration over both models", () => {
    fc.assert(
      fc.property(part, part, fc.nat(4), (a, b, needed) => {
        const exact = enumerate(
          [a, b],
          ([x = 0, y = 0]) => canBuild([a], 2, [x]) + canBuild([b], 2, [y]) >= needed,
        );
        const groups = [
          { fitted: 2, parts: [a] },
          { fitted: 2, parts: [b] },
        ];
        expect(mixedModelSurvival(groups, needed)).toBeCloseTo(exact, 10);
        expect(mixedModelSurvival(groups.reverse(), needed)).toBeCloseTo(exact, 10);
      }),
      { numRuns: 40 },
    );
  });

  it("keeps whole items as chances that sum to 1, better with every spare", () => {
    fc.assert(
      fc.property(parts, need, (list, { fitted, needed }) => {
        const kept = wholeItems({ fitted, parts: list });
        expect(kept.reduce((sum, p) => sum + p, 0)).toBeCloseTo(1, 12);
        const more = list.map((p) => ({ ...p, spares: p.spares + 1 }));
        const before = mixedModelSurvival([{ fitted, parts: list }], needed);
        expect(mixedModelSurvival([{ fitted, parts: more }], needed)).toBeGreaterThanOrEqual(
          before - 1e-12,
        );
        expect(noRobbingSurvival(more, fitted, needed)).toBeGreaterThanOrEqual(
          noRobbingSurvival(list, fitted, needed) - 1e-12,
        );
      }),
    );
  });

  it("credits of functions that share a part add up; safety gear takes none", () => {
    const one = { fitted: 3, needed: 1, piecesPerItem: 2, tier: "passage" } as const;
    const two = { fitted: 2, needed: 1, piecesPerItem: 2, tier: "comfort" } as const;
    expect(robbingCredit([one, two])).toBe(4 + 2);
    expect(robbingCredit([one, { ...two, tier: "safety" }])).toBe(4);
    expect(robbingCredit([])).toBe(0);
  });

  it("k of n of like items is the binomial sum, and the order does not matter", () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { maxLength: 8 }),
        fc.nat(8),
        (r, k) => {
          const needed = Math.min(k, r.length);
          const brute = Array.from({ length: 2 ** r.length }, (_, bits) => bits).reduce(
            (sum, bits) => {
              const works = r.map((_, i) => (bits >> i) & 1);
              if (works.reduce((a, b) => a + b, 0) < needed) return sum;
              return sum + r.reduce((p, x, i) => p * (works[i] === 1 ? x : 1 - x), 1);
            },
            0,
          );
          expect(kOfN(needed, r)).toBeCloseTo(brute, 12);
          expect(kOfN(needed, [...r].reverse())).toBeCloseTo(brute, 12);
        },
      ),
    );
  });

  it("refuses a need above the items fitted, naming both", () => {
    for (const run of [
      () => kOfN(3, [0.9, 0.9]),
      () => noRobbingSurvival([], 2, 3),
      () => mixedModelSurvival([{ fitted: 2, parts: [] }], 3),
      () => robbingCredit([{ fitted: 2, needed: 3, piecesPerItem: 1, tier: "passage" }]),
    ]) {
      expect(run).toThrow(Problem);
      expect(run).toThrow(/may need at most.*received 3 needed of 2/);
    }
  });
});

describe("sufficiency", () => {
  it("is the same read singly, as a table and in logarithms", () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 80, noNaN: true }), (m) => {
        const demand = poissonDemand(m);
        const table = cumulative(demand);
        const logs = logSufficiency(demand);
        table.forEach((f, x) => {
          expect(atMost(demand, x)).toBe(f);
          expect(logSufficiencyAt(demand, x)).toBe(logs[x]);
          expect(Math.exp(logs[x] ?? 0)).toBeCloseTo(f, 12);
          expect(f + moreThan(demand, x)).toBeCloseTo(1, 12);
        });
        expect(atMost(demand, -1)).toBe(0);
        expect(logSufficiencyAt(demand, -1)).toBe(Number.NEGATIVE_INFINITY);
        expect(atMost(demand, table.length + 5)).toBe(1 - demand.tail);
      }),
      { numRuns: 30 },
    );
  });

  it("of a set does not depend on the order of its parts, to the last bit", () => {
    const provision = fc.record({ demand: mean.map(poissonDemand), pieces: fc.nat(6) });
    fc.assert(
      fc.property(fc.array(provision, { maxLength: 12 }), (list) => {
        expect(logSufficiencyOfAll([...list].reverse())).toBe(logSufficiencyOfAll(list));
      }),
    );
  });
});

describe("expected backorders", () => {
  it("start at the mean and fall by the chance of running short", () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 60, noNaN: true }), (m) => {
        const demand = poissonDemand(m);
        const wanting = expectedBackorders(demand);
        expect(wanting[0]).toBeCloseTo(meanOf(demand), 9);
        for (let s = 1; s < wanting.length; s += 1) {
          const step = (wanting[s - 1] ?? 0) - (wanting[s] ?? 0);
          expect(step).toBeCloseTo(moreThan(demand, s - 1), 10);
        }
      }),
    );
  });
});
