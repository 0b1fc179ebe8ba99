import { describe, expect, it } from "vitest";
import type { Pmf } from "../../api/scoring/demand/pmf.ts";
import { mixedModelSurvival } from "../../api/scoring/sufficiency/mixed-models.ts";
import { noRobbingSurvival } from "../../api/scoring/sufficiency/no-robbing.ts";
import {
  type LentPart,
  survivalUnrobbedAtMost,
  survivalWithForesight,
  survivalWithoutForesight,
} from "../../api/scoring/sufficiency/shared-donors.ts";
import { unmetServedFirst, unmetServedLast } from "../../api/scoring/sufficiency/unmet-demand.ts";
import { seededRandom } from "../tools/random-kit.ts";

const random = seededRandom(71);
const below = (n: number): number => Math.floor(random() * n);
const law = (length: number): Pmf => {
  const raw = Array.from({ length }, () => random() + 0.02);
  const total = raw.reduce((sum, p) => sum + p, 0);
  return { mass: Float64Array.from(raw, (p) => p / total), tail: 0 };
};

interface Case {
  readonly fitted: number[];
  readonly slack: number;
  readonly parts: (LentPart & { readonly demand: Pmf; readonly spares: number })[];
}

function randomCase(isShared: boolean): Case {
  const makes = 1 + below(3);
  const fitted = Array.from({ length: makes }, () => 1 + below(3));
  const parts = Array.from({ length: 1 + below(3) }, () => {
    const only = below(makes);
    const piecesPerItem = fitted.map((_, make) =>
      (isShared && random() < 0.6) || make === only ? 1 + below(2) : 0,
    );
    const demand = law(1 + below(4));
    const spares = below(3);
    return {
      demand,
      spares,
      unmet: unmetServedFirst(demand, spares),
      piecesPerItem,
      isNeverLent: false,
    };
  });
  const total = fitted.reduce((sum, n) => sum + n, 0);
  return { fitted, slack: below(total + 1), parts };
}

/** Sums the chance of all demands for which some choice of donors makes good what finds no spare. */
function enumerated({ fitted, slack, parts }: Case): number {
  const donors = fitted.reduce<number[][]>(
    (list, n) => list.flatMap((d) => Array.from({ length: n + 1 }, (_, x) => [...d, x])),
    [[]],
  );
  const possible = donors.filter((d) => d.reduce((sum, x) => sum + x, 0) <= slack);
  const visit = (used: readonly number[]): number => {
    const part = parts[used.length];
    if (part !== undefined) {
      let sum = 0;
      part.demand.mass.forEach((p, d) => {
        sum += p * visit([...used, d]);
      });
      return sum;
    }
    const holds = possible.some((d) =>
      parts.every(
        ({ spares, piecesPerItem }, p) =>
          piecesPerItem.every((q, make) => q === 0 || d[make] === fitted[make]) ||
          (used[p] ?? 0) - spares <=
            piecesPerItem.reduce((sum, q, make) => sum + q * (d[make] ?? 0), 0),
      ),
    );
    return holds ? 1 : 0;
  };
  return visit([]);
}

describe("makes that share stopping parts", () => {
  it("last with the chance that enumeration of demands and donors gives", () => {
    let shared = 0;
    for (let run = 0; run < 300; run++) {
      const one = randomCase(true);
      if (one.parts.some((p) => p.piecesPerItem.filter((q) => q > 0).length > 1)) shared++;
      expect(survivalWithForesight(one.fitted, one.parts, one.slack)).toBeCloseTo(
        enumerated(one),
        12,
      );
    }
    expect(shared).toBeGreaterThan(100);
  });

  it("never last less than the floor says, which is exact where they share nothing", () => {
    for (let run = 0; run < 300; run++) {
      const one = randomCase(run % 2 === 0);
      const most = survivalWithForesight(one.fitted, one.parts, one.slack) ?? Number.NaN;
      const least = survivalWithoutForesight(one.fitted, one.parts, one.slack);
      expect(least).toBeLessThanOrEqual(most + 1e-12);
      if (run % 2 !== 0) expect(least).toBeCloseTo(most, 12);
    }
  });

  it("that share nothing last as the convolution of whole items says", () => {
    for (let run = 0; run < 100; run++) {
      const { fitted, slack, parts } = randomCase(false);
      const groups = fitted.map((n, make) => ({
        fitted: n,
        parts: parts.flatMap(({ demand, spares, piecesPerItem }) => {
          const pieces = piecesPerItem[make] ?? 0;
          return pieces > 0 ? [{ demand, spares, piecesPerItem: pieces }] : [];
        }),
      }));
      const total = fitted.reduce((sum, n) => sum + n, 0);
      expect(survivalWithoutForesight(fitted, parts, slack)).toBeCloseTo(
        mixedModelSurvival(groups, total - slack),
        12,
      );
    }
  });

  it("of which one takes each part and none is robbed lose an item for every unmet demand", () => {
    for (let run = 0; run < 100; run++) {
      const { parts } = randomCase(true);
      const count = 1 + below(4);
      const slack = below(count);
      const kept = parts.map((part) => ({ ...part, piecesPerItem: [1], isNeverLent: true }));
      expect(survivalWithoutForesight([count], kept, slack)).toBeCloseTo(
        noRobbingSurvival(parts, count, count - slack),
        12,
      );
    }
  });

  /** Crew who see only what has failed: whatever they choose, they do no better than foresight and no worse than the floor. */
  it("under any choice made without foresight last between floor and ceiling", () => {
    for (let run = 0; run < 40; run++) {
      const one = randomCase(true);
      const rounds = 4_000;
      let kept = 0;
      for (let round = 0; round < rounds; round++) if (playsThrough(one)) kept++;
      const share = kept / rounds;
      const margin = 4 * Math.sqrt((share * (1 - share)) / rounds) + 2e-3;
      const least = survivalWithoutForesight(one.fitted, one.parts, one.slack);
      const most = survivalWithForesight(one.fitted, one.parts, one.slack) ?? 1;
      expect(share).toBeGreaterThan(least - margin);
      expect(share).toBeLessThan(most + margin);
    }
  });
});

/** One crossing: unmet demands in a random order, each made good from a stopped item, else a random item is given up. */
function playsThrough({ fitted, slack, parts }: Case): boolean {
  const queue = parts.flatMap(({ demand, spares }, p) => {
    let u = random();
    let asked = 0;
    while (asked < demand.mass.length - 1 && u >= (demand.mass[asked] ?? 0))
      u -= demand.mass[asked++] ?? 0;
    return Array.from({ length: Math.max(0, asked - spares) }, () => ({ p, at: random() }));
  });
  queue.sort((a, b) => a.at - b.at);
  const stopped = fitted.map(() => 0);
  const left = parts.map(() => 0);
  for (const { p } of queue) {
    if ((left[p] ?? 0) === 0) {
      const able = fitted.flatMap((n, make) =>
        n > (stopped[make] ?? 0) && (parts[p]?.piecesPerItem[make] ?? 0) > 0 ? [make] : [],
      );
      const make = able[below(able.length)];
      if (make === undefined) continue; // Nothing that takes it runs any more.
      if (stopped.reduce((sum, n) => sum + n, 0) === slack) return false;
      stopped[make] = (stopped[make] ?? 0) + 1;
      parts.forEach((part, other) => {
        left[other] = (left[other] ?? 0) + (part.piecesPerItem[make] ?? 0);
      });
    }
    left[p] = (left[p] ?? 0) - 1;
  }
  return true;
}

describe("demand that shares its spares with other demand", () => {
  it("goes without, at the most, what enumeration with the others first gives, and at the least with itself first", () => {
    for (let run = 0; run < 200; run++) {
      const [own, rest, spares, v] = [law(1 + below(5)), law(1 + below(5)), below(5), below(4)];
      let last = 0;
      let first = 0;
      own.mass.forEach((p, i) => {
        rest.mass.forEach((q, j) => {
          const left = Math.max(0, spares - j);
          if (Math.max(0, i - left) <= v) last += p * q;
          if (Math.max(0, i - spares) <= v) first += p * q;
        });
      });
      expect(unmetServedLast(own, rest, spares)(v)).toBeCloseTo(last, 12);
      expect(unmetServedFirst(own, spares)(v)).toBeCloseTo(first, 12);
    }
  });
});

describe("gear that is never robbed", () => {
  it("stops an item per unmet demand while one that takes the part runs, exactly where makes share nothing", () => {
    for (let run = 0; run < 200; run++) {
      const { fitted, slack, parts } = randomCase(false);
      const visit = (used: readonly number[]): number => {
        const part = parts[used.length];
        if (part !== undefined) {
          let sum = 0;
          part.demand.mass.forEach((p, d) => {
            sum += p * visit([...used, Math.max(0, d - part.spares)]);
          });
          return sum;
        }
        const unmetOf = (make: number): number =>
          parts.reduce(
            (sum, { piecesPerItem }, p) =>
              sum + ((piecesPerItem[make] ?? 0) > 0 ? (used[p] ?? 0) : 0),
            0,
          );
        const down = fitted.map((count, make) => Math.min(count, unmetOf(make)));
        return down.reduce((sum, n) => sum + n, 0) <= slack ? 1 : 0;
      };
      const exact = visit([]);
      const kept = parts.map((part) => ({ ...part, isNeverLent: true }));
      expect(survivalWithoutForesight(fitted, kept, slack)).toBeCloseTo(exact, 12);
      expect(survivalUnrobbedAtMost(fitted, kept, slack)).toBeCloseTo(exact, 12);
    }
  });
});
