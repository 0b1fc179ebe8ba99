import { execFileSync } from "node:child_process";
import highsModule, { type Highs } from "highs";
import { expect, test } from "vitest";
import { poissonDemand } from "../../api/scoring/demand/poisson-demand.ts";
import { chainSteps, type StockedLink } from "../../api/scoring/kit/chain-steps.ts";
import type { KitPart } from "../../api/scoring/kit/kit-problem.ts";
import { logTarget } from "../../api/scoring/kit/log-target.ts";
import { minimumKit } from "../../api/scoring/kit/minimum-kit.ts";
import { chainLogSufficiency } from "../../api/scoring/sufficiency/chain-sufficiency.ts";
import { randomKit, seededRandom } from "../tools/random-kit.ts";
import { randomTree } from "../tools/random-tree.ts";

/** Live comparison with scipy: the joint law of all demands as one array, summed under Hall's condition. */
const program = `
import json, sys, itertools
import numpy
from scipy import stats
def answer(case):
    n, newer, mean, pieces = case["length"], case["newer"], case["mean"], case["pieces"]
    count = len(mean)
    joint = numpy.ones([1] * count)
    grids = numpy.meshgrid(*[numpy.arange(n)] * count, indexing="ij")
    for v in range(count):
        shape = [1] * count
        shape[v] = n
        joint = joint * stats.poisson.pmf(numpy.arange(n), mean[v]).reshape(shape)
    fine = numpy.ones([n] * count, dtype=bool)
    for inside in itertools.product([False, True], repeat=count):
        closed = all(not inside[v] or newer[v] < 0 or inside[newer[v]] for v in range(count))
        if closed and any(inside):
            asked = sum(grids[v] for v in range(count) if inside[v])
            fine &= asked <= sum(pieces[v] for v in range(count) if inside[v])
    return float(joint[fine].sum())
json.dump([answer(case) for case in json.load(sys.stdin)], sys.stdout)
`;

test("chains and trees of Poisson demands have the chance scipy's joint law gives", () => {
  const random = seededRandom(61);
  const cases = Array.from({ length: 60 }, (_, run) => {
    const count = 2 + (run % 3);
    const newer = Array.from({ length: count }, (_v, v) =>
      v === count - 1 ? -1 : v + 1 + Math.floor(random() * (count - 1 - v)),
    );
    const mean = newer.map(() => 0.05 + 1.5 * random());
    const pieces = newer.map(() => Math.floor(random() * 4));
    return { length: count === 4 ? 16 : 24, newer, mean, pieces };
  });
  const answers: unknown = JSON.parse(
    execFileSync("python3", ["-c", program], { input: JSON.stringify(cases) }).toString(),
  );
  if (!Array.isArray(answers)) expect.unreachable("no answers");
  cases.forEach(({ newer, mean, pieces }, at) => {
    const links = newer.map((next, v) => ({ demand: poissonDemand(mean[v] ?? 0), newer: next }));
    const ours = Math.exp(chainLogSufficiency(links, (v) => pieces[v] ?? 0));
    // Beyond 15 pieces of mean 1.55 scipy's cut arrays leave out less than 1e-10.
    expect(ours).toBeCloseTo(Number(answers[at]), 9);
  });
});

// The package's one declaration file is read as CommonJS, its ES build exports the loader itself.
const highs = await (highsModule as unknown as () => Promise<Highs>)();

interface Way {
  readonly cost: number;
  readonly log: number;
}

/** Every way of buying up to `most` pieces of each link that is for sale. */
function everyWay(links: readonly StockedLink[], most: number): Way[] {
  const ways: Way[] = [];
  const visit = (buys: readonly number[]): void => {
    const link = links[buys.length];
    if (link !== undefined) {
      for (let x = 0; x <= (link.buyable ? most : 0); x++) visit([...buys, x]);
      return;
    }
    ways.push({
      cost: links.reduce((sum, l, v) => sum + l.unitCost * (buys[v] ?? 0), 0),
      log: chainLogSufficiency(links, (v) => (links[v]?.base ?? 0) + (buys[v] ?? 0)),
    });
  };
  visit([]);
  return ways;
}

/**
 * Kits of single parts and supersession trees as a plain choice problem: one binary per way of buying for a part or a
 * tree, exactly one of each. Solved by HiGHS (npm package `highs`), its kit summed afresh before its cost counts.
 */
test("kits with chains cost what HiGHS proves of every way of buying", { timeout: 60_000 }, () => {
  const random = seededRandom(62);
  let compared = 0;
  for (let run = 0; run < 16; run++) {
    const target = [0.8, 0.9, 0.95][run % 3] ?? 0.9;
    const singles = randomKit(3 + (run % 4), 900 + run);
    const trees = Array.from({ length: 1 + (run % 2) }, () =>
      randomTree(random, 2 + (run % 2), true).map((link) =>
        link.newer < 0
          ? { ...link, buyable: true, unitCost: 5 + Math.floor(300 * random()) }
          : { ...link, unitCost: 20 + link.unitCost * 20 },
      ),
    );
    const parts: KitPart[] = [
      ...singles,
      ...trees.map((links): KitPart => {
        const steps = chainSteps(links);
        return { logCdf: steps.logSufficiency, stepCost: steps.cost, unitCost: 0, tier: 0 };
      }),
    ];
    const ours = minimumKit({ parts, targets: [target, undefined, undefined] });
    expect(ours.status).toBe("optimal");
    expect(ours.sufficiency[0]).toBeGreaterThanOrEqual(target);
    const choices: Way[][] = [
      ...singles.map((part) =>
        Array.from(part.logCdf.subarray(0, 16), (log, x) => ({ cost: part.unitCost * x, log })),
      ),
      ...trees.map((links) => everyWay(links, links.length === 2 ? 14 : 8)),
    ].map((ways) => ways.filter((way) => way.log > -50));
    const names = choices.map((ways, p) => ways.map((_, w) => `y${p}_${w}`));
    const sum = (of: (way: Way) => number): string =>
      choices
        .flatMap((ways, p) => ways.map((way, w) => `${of(way)} ${names[p]?.[w] ?? ""}`))
        .join("\n + ")
        .replaceAll("+ -", "- ");
    const model = [
      "Minimize",
      ` cost: ${sum((way) => way.cost)}`,
      "Subject To",
      ` enough: ${sum((way) => Number((1000 * way.log).toFixed(12)))} >= ${(1000 * Math.log(target)).toFixed(12)}`,
      ...names.map((list, p) => ` one${p}: ${list.join(" + ")} = 1`),
      "Binary",
      names.flat().join("\n"),
      "End",
    ].join("\n");
    const { chosen, dual } = highs.withModel({ format: "lp", data: model }, (solver) => {
      solver.options.set({ output_flag: false, mip_rel_gap: 0, mip_abs_gap: 1e-6 });
      solver.run();
      expect(solver.getModelStatus()).toBe(highs.constants.modelStatus.optimal);
      const values = solver.getSolution().colValue;
      // Columns appear in the order of the objective.
      const picked = choices.flat().filter((_, column) => (values[column] ?? 0) > 0.5);
      return { chosen: picked, dual: solver.info.get("mip_dual_bound") as number };
    });
    expect(chosen.length).toBe(choices.length);
    expect(ours.cost).toBeGreaterThanOrEqual(Math.floor(dual * (1 - 1e-9)));
    const log = chosen.reduce((total, way) => total + way.log, 0);
    if (log < logTarget(target)) continue;
    compared++;
    expect(ours.cost).toBe(chosen.reduce((total, way) => total + way.cost, 0));
  }
  expect(compared).toBeGreaterThan(12);
});
