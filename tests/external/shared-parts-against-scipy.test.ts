import { execFileSync } from "node:child_process";
import { expect, test } from "vitest";
import { poissonDemand } from "../../api/scoring/demand/poisson-demand.ts";
import {
  type LentPart,
  survivalWithForesight,
  survivalWithoutForesight,
} from "../../api/scoring/sufficiency/shared-donors.ts";
import { unmetServedFirst, unmetServedLast } from "../../api/scoring/sufficiency/unmet-demand.ts";
import { seededRandom } from "../tools/random-kit.ts";

/**
 * Live comparison with scipy: the joint law of all parts' demands as one array; a cell counts where some choice of donors
 * covers it. And the law of what a demand goes without once other demand was served, from the two laws' outer product.
 */
const program = `
import json, sys, itertools
import numpy
from scipy import stats
n = 18
def joint_of(means):
    joint = numpy.ones([1] * len(means))
    for v, mean in enumerate(means):
        shape = [1] * len(means)
        shape[v] = n
        joint = joint * stats.poisson.pmf(numpy.arange(n), mean).reshape(shape)
    return joint
def survival(case):
    joint = joint_of(case["mean"])
    grids = numpy.meshgrid(*[numpy.arange(n)] * len(case["mean"]), indexing="ij")
    fine = numpy.zeros(joint.shape, dtype=bool)
    for donors in itertools.product(*[range(f + 1) for f in case["fitted"]]):
        if sum(donors) > case["slack"]: continue
        box = numpy.ones(joint.shape, dtype=bool)
        for grid, spares, pieces in zip(grids, case["spares"], case["pieces"]):
            moot = all(q == 0 or d == f for q, d, f in zip(pieces, donors, case["fitted"]))
            if not moot: box &= grid - spares <= sum(q * d for q, d in zip(pieces, donors))
        fine |= box
    return float(joint[fine].sum())
def unmet(case):
    own, rest = numpy.meshgrid(numpy.arange(40), numpy.arange(40), indexing="ij")
    joint = numpy.outer(stats.poisson.pmf(numpy.arange(40), case["own"]), stats.poisson.pmf(numpy.arange(40), case["rest"]))
    left = numpy.maximum(0, own - numpy.maximum(0, case["spares"] - rest))
    return float(joint[left <= case["v"]].sum())
asked = json.load(sys.stdin)
json.dump([[survival(c) for c in asked["survivals"]], [unmet(c) for c in asked["unmets"]]], sys.stdout)
`;

const random = seededRandom(91);
const below = (count: number): number => Math.floor(random() * count);

const survivals = Array.from({ length: 80 }, () => {
  const makes = 1 + below(3);
  const fitted = Array.from({ length: makes }, () => 1 + below(3));
  const count = 1 + below(3);
  const pieces = Array.from({ length: count }, () => {
    const sole = below(makes);
    return fitted.map((_, make) => (make === sole || random() < 0.5 ? 1 + below(2) : 0));
  });
  const total = fitted.reduce((sum, each) => sum + each, 0);
  return {
    fitted,
    pieces,
    mean: pieces.map(() => 0.1 + 1.4 * random()),
    spares: pieces.map(() => below(3)),
    slack: below(total),
  };
});
const unmets = Array.from({ length: 60 }, () => ({
  own: 2 * random(),
  rest: 4 * random(),
  spares: below(6),
  v: below(3),
}));

test("makes that share parts, and demand served last, have the chances of scipy's joint laws", () => {
  const answer: unknown = JSON.parse(
    execFileSync("python3", ["-c", program], {
      input: JSON.stringify({ survivals, unmets }),
    }).toString(),
  );
  if (!Array.isArray(answer)) expect.unreachable("no answers");
  const [chances, lacks] = answer as [number[], number[]];
  let shared = 0;
  survivals.forEach(({ fitted, pieces, mean, spares, slack }, at) => {
    const parts = pieces.map(
      (piecesPerItem, p): LentPart => ({
        unmet: unmetServedFirst(poissonDemand(mean[p] ?? 0), spares[p] ?? 0),
        piecesPerItem,
        isNeverLent: false,
      }),
    );
    // Beyond 17 pieces of mean 1.5 scipy's arrays leave out less than 1e-12.
    expect(survivalWithForesight(fitted, parts, slack)).toBeCloseTo(chances[at] ?? -1, 10);
    const floor = survivalWithoutForesight(fitted, parts, slack);
    expect(floor).toBeLessThanOrEqual((chances[at] ?? -1) + 1e-10);
    const isShared = pieces.some((q) => q.filter((n) => n > 0).length > 1);
    if (isShared) shared++;
    else expect(floor).toBeCloseTo(chances[at] ?? -1, 10);
  });
  expect(shared).toBeGreaterThan(20);
  unmets.forEach(({ own, rest, spares, v }, at) => {
    const ours = unmetServedLast(poissonDemand(own), poissonDemand(rest), spares)(v);
    expect(ours).toBeCloseTo(lacks[at] ?? -1, 10);
  });
});
