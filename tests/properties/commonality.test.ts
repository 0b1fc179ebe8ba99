import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { blockOrder } from "../../api/scoring/commonality/block-order.ts";
import { incidenceOf, inverseOf } from "../../api/scoring/commonality/incidence.ts";
import { commonalityIndices } from "../../api/scoring/commonality/indices.ts";
import { distinctKits } from "../../api/scoring/commonality/kits.ts";
import { mostAlike } from "../../api/scoring/commonality/likeness.ts";

const partCount = 9;
const lists = fc.array(fc.uniqueArray(fc.nat(partCount - 1), { maxLength: 6 }), { maxLength: 14 });
const key = (list: readonly number[]) => [...list].sort((a, b) => a - b).join(" ");
const shuffled = (list: readonly number[], by: number) =>
  [...list].sort((a, b) => ((a * 7919 + by) % 101) - ((b * 7919 + by) % 101) || a - b);

describe("kits", () => {
  it("are those found by comparing every pair", () => {
    fc.assert(
      fc.property(lists, fc.nat(100), (sets, by) => {
        const kits = distinctKits(
          incidenceOf(
            sets.map((s) => shuffled(s, by)),
            partCount,
          ),
        );
        const distinct = [...new Set(sets.filter((s) => s.length > 0).map(key))];
        expect(kits.partsOfKit.map((kit) => Array.from(kit).join(" "))).toEqual(distinct);
        expect(kits.kitCount).toBe(distinct.length);
        sets.forEach((s, m) => {
          expect(kits.kitOfModel[m]).toBe(s.length === 0 ? -1 : distinct.indexOf(key(s)));
        });
        kits.modelsOfKit.forEach((models, kit) => {
          expect(models).toEqual(sets.flatMap((s, m) => (key(s) === distinct[kit] ? [m] : [])));
        });
        const members = distinct.map((d) => new Set(d.split(" ")));
        const within = members.map((a, i) =>
          members.flatMap((b, j) => (i !== j && [...a].every((part) => b.has(part)) ? [j] : [])),
        );
        expect(kits.containedIn).toEqual(within);
        expect(kits.maximalKits).toEqual(within.flatMap((w, i) => (w.length === 0 ? [i] : [])));
      }),
      { numRuns: 300 },
    );
  });
});

describe("likeness", () => {
  it("is that of every pair compared in full", () => {
    fc.assert(
      fc.property(lists, (sets) => {
        const pairs = mostAlike(incidenceOf(sets, partCount), Number.POSITIVE_INFINITY);
        const expected: number[][] = [];
        sets.forEach((a, i) => {
          sets.forEach((b, j) => {
            const both = a.filter((part) => b.includes(part)).length;
            const either = new Set([...a, ...b]).size;
            if (i < j && both > 0) expected.push([i, j, both, both / either]);
          });
        });
        const found = Array.from(pairs.first, (first, at) => [
          first,
          pairs.second[at],
          pairs.shared[at],
          pairs.likeness[at],
        ]);
        expected.sort(
          ([a = 0, b = 0, shared = 0, like = 0], [c = 0, d = 0, sharing = 0, liking = 0]) =>
            liking - like || sharing - shared || a - c || b - d,
        );
        expect(found).toEqual(expected);
        const few = mostAlike(incidenceOf(sets, partCount), 3);
        expect([...few.first]).toEqual(expected.slice(0, 3).map(([first]) => first));
        expect([...few.second]).toEqual(expected.slice(0, 3).map(([, second]) => second));
      }),
    );
  });

  it("of many pairs keeps the first few, in order", () => {
    // Model m takes part 0 and m parts of its own: likeness of i < j is 1 / (i + j + 1).
    let own = 1;
    const lists = Array.from({ length: 60 }, (_, m) => [
      0,
      ...Array.from({ length: m }, () => own++),
    ]);
    const pairs = mostAlike(incidenceOf(lists, own), 4);
    expect(Array.from(pairs.first, (first, at) => [first, pairs.second[at]])).toEqual([
      [0, 1],
      [0, 2],
      [0, 3],
      [1, 2],
    ]);
    expect([...pairs.likeness]).toEqual([1 / 2, 1 / 3, 1 / 4, 1 / 4]);
  });
});

describe("indices", () => {
  it("do not mind the order of models, and stay in their ranges", () => {
    fc.assert(
      fc.property(lists, (sets) => {
        const forward = commonalityIndices(incidenceOf(sets, partCount));
        const backward = commonalityIndices(incidenceOf([...sets].reverse(), partCount));
        expect(backward).toEqual(forward);
        const { degreeOfCommonality, totalConstantCommonality, commonality } = forward;
        expect(degreeOfCommonality ?? 1).toBeGreaterThanOrEqual(1);
        expect(degreeOfCommonality ?? 1).toBeLessThanOrEqual(Math.max(1, sets.length));
        expect(totalConstantCommonality ?? 0).toBeGreaterThanOrEqual(0);
        // 1 only where one part is all that several models take.
        if (forward.distinctParts === 1 && forward.uses > 1)
          expect(totalConstantCommonality).toBe(1);
        else expect(totalConstantCommonality ?? 0).toBeLessThan(1);
        expect(commonality ?? 0).toBeGreaterThanOrEqual(0);
        expect(commonality ?? 0).toBeLessThanOrEqual(1);
      }),
      { examples: [[[[4], [4]]]] },
    );
  });

  it("weighted alike fall back on Collier's", () => {
    fc.assert(
      fc.property(lists, (sets) => {
        const incidence = incidenceOf(sets, partCount);
        const users = inverseOf(incidence);
        // A price that makes the money in each part the same: one over its number of users.
        const price = Array.from({ length: partCount }, (_, p) => {
          const n = (users.start[p + 1] ?? 0) - (users.start[p] ?? 0);
          return n === 0 ? 0 : 1 / n;
        });
        const weights = {
          price,
          quantity: new Array(incidence.parts.length).fill(1),
          volume: new Array(sets.length).fill(1),
        };
        const indices = commonalityIndices(incidence, weights);
        if (indices.degreeOfCommonality === null) expect(indices.weightedByCost).toBeNull();
        else expect(indices.weightedByCost).toBeCloseTo(indices.degreeOfCommonality, 10);
      }),
    );
  });
});

describe("block order", () => {
  it("orders every model and part once, the same each time", () => {
    fc.assert(
      fc.property(lists, (sets) => {
        const order = blockOrder(incidenceOf(sets, partCount));
        expect([...order.models].sort((a, b) => a - b)).toEqual(sets.map((_, m) => m));
        expect([...order.parts].sort((a, b) => a - b)).toEqual(
          Array.from({ length: partCount }, (_, p) => p),
        );
        expect(blockOrder(incidenceOf(sets, partCount))).toEqual(order);
      }),
    );
  });

  it("undoes the shuffling of a chain in which each model shares parts with the next", () => {
    fc.assert(
      fc.property(fc.integer({ min: 3, max: 40 }), fc.nat(100), (count, seed) => {
        const rising = Array.from({ length: count }, (_, m) => m);
        const scatter = (m: number) => (m * m * 7 + m * 31 + seed) % 101;
        const place = [...rising].sort((a, b) => scatter(a) - scatter(b) || a - b);
        // Times 17 modulo the prime 101 scatters the part numbers, one to one.
        const sets = place.map((m) => [m, m + 1, m + 2].map((p) => (p * 17) % 101));
        const seen = Array.from(blockOrder(incidenceOf(sets, 101)).models, (row) => place[row]);
        const facing = (seen[0] ?? 0) < (seen[count - 1] ?? 0) ? seen : [...seen].reverse();
        expect(facing).toEqual(rising);
      }),
      { numRuns: 100, examples: [[3, 11]] },
    );
  });

  it("keeps unlinked groups apart, largest first, and empty rows last", () => {
    const order = blockOrder(incidenceOf([[], [5], [0, 1], [1, 2], [5, 6], [0, 2], []], 9));
    expect([...order.models].slice(0, 3).sort((a, b) => a - b)).toEqual([2, 3, 5]);
    expect([...order.models].slice(3, 5).sort((a, b) => a - b)).toEqual([1, 4]);
    expect([...order.models].slice(5)).toEqual([0, 6]);
    expect([...order.parts].slice(0, 3).sort((a, b) => a - b)).toEqual([0, 1, 2]);
    expect([...order.parts].slice(3, 5).sort((a, b) => a - b)).toEqual([5, 6]);
    expect([...order.parts].slice(5)).toEqual([3, 4, 7, 8]);
  });
});

describe("a malformed incidence is refused", () => {
  it.each([
    ["a part out of range", [0, 1], [7], /must lie in \[0, 3\); received 7 in model 0/],
    ["a part listed twice", [0, 2], [1, 1], /once; received 1 twice in model 0/],
    ["rows that do not cover the uses", [0, 1], [0, 1], /Row starts must run/],
  ])("%s", (_, start, parts, message) => {
    const incidence = {
      modelCount: 1,
      partCount: 3,
      start: Int32Array.from(start),
      parts: Int32Array.from(parts),
    };
    expect(() => distinctKits(incidence)).toThrow(message);
  });

  it("weights of another length", () => {
    const weights = { price: [1], quantity: [1], volume: [1] };
    expect(() => commonalityIndices(incidenceOf([[0, 1]], 2), weights)).toThrow(
      /prices must be 2 long.*received 1/,
    );
  });
});
