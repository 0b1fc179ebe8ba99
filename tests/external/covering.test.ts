import { describe, expect, test } from "vitest";
import { greedyCover } from "../../api/scoring/coverage/greedy-cover.ts";
import { minimumCover } from "../../api/scoring/coverage/minimum-cover.ts";
import { mostComplete } from "../../api/scoring/coverage/most-complete.ts";
import { mostCovered } from "../../api/scoring/coverage/most-covered.ts";
import { highsBinarySolver } from "../tools/highs-binary.ts";
import { type RandomCover, randomCover } from "../tools/random-cover.ts";
import { seededRandom } from "../tools/random-kit.ts";

const solve = await highsBinarySolver();

const upTo = (first: number, last: number): number[] =>
  Array.from({ length: last - first + 1 }, (_, at) => first + at);

const subsets = function* (count: number): Generator<readonly number[]> {
  for (let mask = 0; mask < 2 ** count; mask++) {
    yield [...Array(count).keys()].filter((at) => (mask >> at) & 1);
  }
};

const covers = ({ rowCount, columns }: RandomCover, chosen: readonly number[]): boolean =>
  new Set(chosen.flatMap((column) => columns[column] ?? [])).size === rowCount;

const costOf = ({ costs }: RandomCover, chosen: readonly number[]): number =>
  chosen.reduce((sum, column) => sum + (costs[column] ?? 0), 0);

/** Least cost of a full cover, by HiGHS. */
const leastByHighs = ({ rowCount, columns, costs }: RandomCover): number | undefined =>
  solve({
    sense: "Minimize",
    objective: costs,
    atLeast: upTo(0, rowCount - 1).map((row) => ({
      terms: columns.flatMap((rows, column) => (rows.includes(row) ? [[1, column] as const] : [])),
      least: 1,
    })),
  });

interface Need {
  readonly rows: readonly number[];
  readonly weight: number;
}

/** Greatest weight of needs of which every row is covered by `count` columns, by HiGHS. */
const completeByHighs = (
  { columns }: RandomCover,
  needs: readonly Need[],
  count: number,
): number | undefined =>
  solve({
    sense: "Maximize",
    objective: [...columns.map(() => 0), ...needs.map(({ weight }) => weight)],
    atLeast: [
      { terms: columns.map((_, column) => [-1, column] as const), least: -count },
      ...needs.flatMap(({ rows }, need) =>
        rows.map((row) => ({
          terms: [
            ...columns.flatMap((own, column) => (own.includes(row) ? [[1, column] as const] : [])),
            [-1, columns.length + need] as const,
          ],
          least: 0,
        })),
      ),
    ],
  });

const weightDone = (
  { columns }: RandomCover,
  needs: readonly Need[],
  chosen: readonly number[],
): number => {
  const covered = new Set(chosen.flatMap((column) => columns[column] ?? []));
  return needs.reduce(
    (sum, { rows, weight }) => sum + (rows.every((row) => covered.has(row)) ? weight : 0),
    0,
  );
};

const randomNeeds = (rowCount: number, count: number, seed: number): Need[] => {
  const random = seededRandom(seed);
  return Array.from({ length: count }, () => ({
    rows: [
      ...new Set(
        Array.from({ length: 1 + Math.floor(3 * random()) }, () => Math.floor(rowCount * random())),
      ),
    ],
    weight: 1 + Math.floor(5 * random()),
  }));
};

describe("published covers", () => {
  // Lundgren, Rönnqvist & Värbrand, Optimization, p. 408: cover 45, the only one {4, 8, 10}.
  test("Lundgren's ten sets cost 45 by sets 4, 8 and 10 alone", () => {
    const sets = ["16", "268", "147", "235", "25", "23", "234", "458", "368", "167"];
    const problem = {
      rowCount: 8,
      columns: sets.map((set) => [...set].map((digit) => Number(digit) - 1)),
      costs: [19, 16, 18, 13, 15, 19, 15, 17, 16, 15],
    };
    const found = minimumCover(problem);
    expect(found).toMatchObject({ status: "optimal", cost: 45, lowerBound: 45, gap: 0 });
    expect(found.chosen.map((column) => column + 1)).toEqual([4, 8, 10]);
    const best = [...subsets(10)].filter(
      (chosen) => covers(problem, chosen) && costOf(problem, chosen) <= 45,
    );
    expect(best).toEqual([[3, 7, 9]]);
    expect(leastByHighs(problem)).toBe(45);
  });

  // Sixteen districts (open optimization textbook examples): 3 sites is published; 8, 13, 16 are derived.
  test("sixteen districts need three sites; one, two, three reach 8, 13, 16", () => {
    const able = [
      [1, 2, 4, 5],
      [1, 2, 3, 5, 6],
      [2, 3, 6, 7],
      [1, 4, 5, 8, 10, 11],
      [1, 2, 4, 5, 6, 8],
      [2, 3, 5, 6, 7, 8, 9],
      [3, 6, 7, 9, 13],
      upTo(4, 12),
      [6, 8, 9, 11, 12, 13],
      [4, 10, 11, 14],
      [4, ...upTo(8, 12), 14, 15],
      [8, 9, ...upTo(11, 16)],
      [7, 9, 12, 13, 15, 16],
      [10, 11, 12, 14, 15],
      upTo(11, 16),
      [12, 13, 15, 16],
    ];
    const columns = upTo(1, 16).map((site) =>
      able.flatMap((sites, district) => (sites.includes(site) ? [district] : [])),
    );
    const problem = { rowCount: 16, columns };
    expect(minimumCover(problem)).toMatchObject({ status: "optimal", cost: 3, gap: 0 });
    const ones = columns.map(() => 1);
    const reached = [1, 2, 3].map((count) => mostCovered(problem, ones, count));
    expect(reached.map((one) => one.reached)).toEqual([8, 13, 16]);
    expect(reached.every((one) => one.status === "optimal")).toBe(true);
  });

  // STS9, Fulkerson, Nemhauser & Trotter 1974: the least cover of the Steiner triples on nine points is 5.
  test("the Steiner triples of nine points need five", () => {
    const triples = "234 135 126 567 468 459 189 279 378 147 258 369".split(" ");
    const columns = upTo(1, 9).map((point) =>
      triples.flatMap((triple, row) => (triple.includes(String(point)) ? [row] : [])),
    );
    expect(minimumCover({ rowCount: 12, columns })).toMatchObject({ status: "optimal", cost: 5 });
  });

  // Chvátal 1979: the greedy answer may cost H(n) times the least; his own family of instances shows it.
  test("the greedy answer costs H(n) on Chvátal's family, the exact one 1 + a hair", () => {
    const n = 6;
    const columns = [...upTo(0, n - 1).map((row) => [row]), upTo(0, n - 1)];
    const costs = [...upTo(1, n).map((i) => 1 / i), 1.001];
    const harmonic = upTo(1, n).reduce((sum, i) => sum + 1 / i, 0);
    expect(greedyCover({ rowCount: n, columns, costs }).cost).toBeCloseTo(harmonic, 12);
    expect(minimumCover({ rowCount: n, columns, costs }).cost).toBeCloseTo(1.001, 12);
  });
});

describe("against brute force and HiGHS", () => {
  test("small covers are the least of all subsets, and no greedy answer is better", () => {
    for (let seed = 1; seed <= 60; seed++) {
      const drawn = randomCover(4 + (seed % 9), 4 + (seed % 8), 0.3, seed);
      // Every third with costs that are not whole, every third with all costs alike.
      const costs =
        seed % 3 === 0
          ? drawn.costs.map((cost) => cost / 7)
          : seed % 3 === 1
            ? drawn.costs.map(() => 1)
            : drawn.costs;
      const problem = { ...drawn, costs };
      const found = minimumCover(problem);
      expect(found.status).toBe("optimal");
      expect(covers(problem, found.chosen)).toBe(true);
      const least = Math.min(
        ...[...subsets(problem.columns.length)]
          .filter((chosen) => covers(problem, chosen))
          .map((chosen) => costOf(problem, chosen)),
      );
      expect(found.cost).toBeCloseTo(least, 9);
      expect(greedyCover(problem).cost).toBeGreaterThanOrEqual(found.cost - 1e-9);
    }
  });

  test("random covers cost what HiGHS proves", { timeout: 60_000 }, () => {
    for (const [rows, columns, density, seeds] of [
      [20, 40, 0.12, 10],
      [40, 100, 0.08, 6],
      [100, 300, 0.03, 3],
    ] as const) {
      for (let seed = 1; seed <= seeds; seed++) {
        const drawn = randomCover(rows, columns, density, 100 * rows + seed);
        const problem = seed % 2 === 0 ? drawn : { ...drawn, costs: drawn.costs.map(() => 1) };
        // Alike costs are hard to bound, so they are compared on the smaller sizes only.
        const asked = rows > 40 ? drawn : problem;
        const found = minimumCover(asked);
        expect(found.status).toBe("optimal");
        expect(found.cost).toBe(leastByHighs(asked));
        expect(found.cost).toBe(costOf(asked, found.chosen));
        expect(greedyCover(asked).cost).toBeGreaterThanOrEqual(found.cost);
      }
    }
  });

  test("the best few are the best of all choices as many, and what HiGHS proves", {
    timeout: 60_000,
  }, () => {
    for (let seed = 1; seed <= 24; seed++) {
      const problem = randomCover(12 + seed, 9, 0.2, 7000 + seed);
      const needs = randomNeeds(problem.rowCount, 15, seed);
      const singles = upTo(0, problem.rowCount - 1).map((row) => ({
        rows: [row],
        weight: 1 + (row % 4),
      }));
      const weights = singles.map(({ weight }) => weight);
      for (const count of [1, 2, 3, 4]) {
        const choices = [...subsets(9)].filter((chosen) => chosen.length <= count);
        const most = (of: readonly Need[]): number =>
          Math.max(...choices.map((chosen) => weightDone(problem, of, chosen)));
        const some = mostCovered(problem, weights, count);
        expect(some).toMatchObject({ status: "optimal", reached: most(singles), gap: 0 });
        expect(weightDone(problem, singles, some.chosen)).toBe(some.reached);
        const whole = mostComplete(problem, needs, count);
        expect(whole).toMatchObject({ status: "optimal", reached: most(needs), gap: 0 });
        expect(weightDone(problem, needs, whole.chosen)).toBe(whole.reached);
        expect(whole.chosen.length).toBeLessThanOrEqual(count);
      }
    }
    for (let seed = 1; seed <= 4; seed++) {
      const problem = randomCover(60, 24, 0.12, 9000 + seed);
      const needs = randomNeeds(60, 40, 50 + seed);
      const singles = upTo(0, 59).map((row) => ({ rows: [row], weight: 1 }));
      for (const count of [2, 3]) {
        expect(mostComplete(problem, needs, count)).toMatchObject({
          status: "optimal",
          reached: completeByHighs(problem, needs, count),
        });
        expect(
          mostCovered(
            problem,
            singles.map(() => 1),
            count,
          ),
        ).toMatchObject({
          status: "optimal",
          reached: completeByHighs(problem, singles, count),
        });
      }
    }
  });
});

describe("what cannot be settled is said", () => {
  test("rows nobody covers are listed and the rest is covered", () => {
    const found = minimumCover({ rowCount: 4, columns: [[0, 2], [2]] });
    expect(found).toMatchObject({ status: "optimal", chosen: [0], cost: 1, uncoverable: [1, 3] });
    expect(minimumCover({ rowCount: 2, columns: [] })).toMatchObject({
      status: "optimal",
      cost: 0,
      uncoverable: [0, 1],
    });
  });

  test("stopped at its limit a search keeps a true cover and a true bound", () => {
    const problem = { ...randomCover(60, 120, 0.06, 5) };
    const alike = { ...problem, costs: problem.costs.map(() => 1) };
    const exact = minimumCover(alike);
    const stopped = minimumCover(alike, 1);
    expect(exact.status).toBe("optimal");
    expect(stopped.status).toBe("stopped");
    expect(covers(alike, stopped.chosen)).toBe(true);
    expect(stopped.cost).toBeGreaterThanOrEqual(exact.cost);
    expect(stopped.lowerBound).toBeLessThanOrEqual(exact.cost);
    expect(stopped.gap).toBeGreaterThan(0);
    const needs = randomNeeds(60, 80, 3);
    const best = mostComplete(problem, needs, 3);
    const early = mostComplete(problem, needs, 3, 2);
    expect(best.status).toBe("optimal");
    expect(early.reached).toBeLessThanOrEqual(best.reached);
    expect(early.upperBound).toBeGreaterThanOrEqual(best.reached);
  });

  test("a negative cost, a repeated row and a row out of range are refused", () => {
    expect(() => minimumCover({ rowCount: 1, columns: [[0]], costs: [-1] })).toThrow(/0 or more/);
    expect(() => minimumCover({ rowCount: 1, columns: [[0, 0]] })).toThrow(/lists a row once/);
    expect(() => greedyCover({ rowCount: 1, columns: [[1]] })).toThrow(/lies in \[0, 1\)/);
  });
});
