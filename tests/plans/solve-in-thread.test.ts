import { describe, expect, it } from "vitest";
import { solveInThread } from "../../api/plans/solve/solve-in-thread.ts";
import {
  MilpBuilder,
  type MilpProgramme,
  type MilpProgress,
} from "../../api/scoring/packs/milp.ts";
import { seededRandom } from "../tools/random-kit.ts";

/** Market split: equality knapsacks over binaries, hard far below this size (Cornuéjols & Dawande 1998). */
function hard(): MilpProgramme {
  const random = seededRandom(5);
  const builder = new MilpBuilder();
  const columns = Array.from({ length: 50 }, () => builder.column(0, 0, 1));
  for (let row = 0; row < 6; row++) {
    const terms = columns.map((column): [number, number] => [column, Math.floor(100 * random())]);
    const half = Math.floor(terms.reduce((sum, [, value]) => sum + value, 0) / 2);
    const under = builder.column(1, 0, 1e6, false);
    const over = builder.column(1, 0, 1e6, false);
    builder.row(half, half, [...terms, [under, 1], [over, -1]]);
  }
  return builder.build("minimise");
}

const small = (): MilpProgramme => {
  const builder = new MilpBuilder();
  const x = builder.column(3, 0, 10);
  const y = builder.column(2, 0, 10);
  builder.row(7, Infinity, [
    [x, 2],
    [y, 1],
  ]);
  return builder.build("minimise");
};

describe("a programme solved in a thread", () => {
  it("gives the optimum, its bound and the values", async () => {
    const outcome = await solveInThread(small(), { seconds: 10 });
    // 2x + y >= 7: x = 3, y = 1 costs 11; by hand.
    expect(outcome).toMatchObject({ status: "optimal", bound: 11 });
    expect([...(outcome.values ?? [])]).toEqual([3, 1]);
  });

  it("says infeasible, which is no failure", async () => {
    const builder = new MilpBuilder();
    const x = builder.column(1, 0, 1);
    builder.row(2, Infinity, [[x, 1]]);
    expect((await solveInThread(builder.build("minimise"), { seconds: 10 })).status).toBe(
      "infeasible",
    );
  });

  it("stops at its time limit with the best solution and a bound that does not exceed it, telling progress", async () => {
    const told: MilpProgress[] = [];
    const began = performance.now();
    const outcome = await solveInThread(hard(), { seconds: 1.5, progress: (at) => told.push(at) });
    expect(performance.now() - began).toBeLessThan(15_000);
    expect(outcome.status).toBe("stopped");
    expect(outcome.values).toBeDefined();
    const [first] = outcome.values ?? [];
    expect(first === 0 || first === 1).toBe(true);
    expect(outcome.bound).toBeGreaterThanOrEqual(-1e-6);
    expect(told.length).toBeGreaterThan(0);
    told.forEach((at, k) => {
      expect(at.seconds).toBeGreaterThanOrEqual(told[k - 1]?.seconds ?? 0);
    });
  }, 30_000);

  it("is cancelled by its signal within the second, and the next question is answered", async () => {
    const cancel = new AbortController();
    const began = performance.now();
    const solving = solveInThread(hard(), { seconds: 60, signal: cancel.signal });
    setTimeout(() => cancel.abort(new Error("no longer wanted")), 300);
    await expect(solving).rejects.toThrow("no longer wanted");
    expect(performance.now() - began).toBeLessThan(5000);
    expect((await solveInThread(small(), { seconds: 10 })).status).toBe("optimal");
  }, 30_000);

  it("does not begin once cancelled", async () => {
    const signal = AbortSignal.abort(new Error("too late"));
    await expect(solveInThread(small(), { seconds: 10, signal })).rejects.toThrow("too late");
  });

  it("answers several at once, each its own", async () => {
    const answers = await Promise.all([1, 2, 3].map(() => solveInThread(small(), { seconds: 10 })));
    expect(answers.map(({ bound }) => bound)).toEqual([11, 11, 11]);
  });
});
