import { execFileSync } from "node:child_process";
import { describe, expect, it } from "vitest";
import { binomialDemand } from "../../api/scoring/demand/binomial-demand.ts";
import { gammaPoissonDemand } from "../../api/scoring/demand/gamma-poisson-demand.ts";
import { convolveAll } from "../../api/scoring/demand/pmf.ts";
import { poissonDemand } from "../../api/scoring/demand/poisson-demand.ts";
import { weibullLife } from "../../api/scoring/demand/weibull-life.ts";
import { seededRandom } from "../tools/random-kit.ts";

/** Live comparison with scipy (`scipy.stats`, `scipy.special`), asked once for all cases. */
const close = 1e-10;

/** One law as scipy names it, and what we make of it. */
interface Case {
  readonly kind: "poisson" | "nbinom" | "binom" | "sum" | "life";
  readonly figures: readonly number[];
  readonly ours: readonly number[];
}

const program = `
import json, sys
import numpy
from scipy import special, stats
def masses(kind, f, n):
    k = numpy.arange(n)
    if kind == "poisson": return stats.poisson.pmf(k, f[0])
    if kind == "nbinom": return stats.nbinom.pmf(k, f[0], f[1])
    return stats.binom.pmf(k, f[0], f[1])
def answer(case):
    kind, f, n = case["kind"], case["figures"], case["length"]
    if kind == "sum":
        both = numpy.convolve(masses("poisson", f[0:1], n), masses("nbinom", f[1:3], n))[:n]
        return numpy.convolve(both, masses("binom", f[3:5], n))[:n]
    if kind == "life":
        mean, shape, age, x = f
        scale = mean / special.gamma(1 + 1 / shape)
        law = stats.weibull_min(shape, scale=scale)
        return numpy.array([law.sf(x), law.sf(age + x) / law.sf(age), special.gammaincc(1 / shape, (x / scale) ** shape)])
    return masses(kind, f, n)
json.dump([list(map(float, answer(case))) for case in json.load(sys.stdin)], sys.stdout)
`;

const random = seededRandom(20_270_110);
const between = (low: number, high: number): number => low + (high - low) * random();
const logBetween = (low: number, high: number): number =>
  Math.exp(between(Math.log(low), Math.log(high)));

/** A gamma belief and a history, and the same as scipy's r and p. */
function belief() {
  const own = {
    shape: between(0.3, 3),
    rate: logBetween(0.5, 50),
    used: Math.floor(between(0, 6)),
    usedOver: between(0, 20),
    exposure: logBetween(0.05, 60),
  };
  const known = own.rate + own.usedOver;
  return {
    ours: gammaPoissonDemand(own),
    figures: [own.shape + own.used, known / (known + own.exposure)],
  };
}

function drawn(): Case[] {
  const cases: Case[] = [];
  for (let run = 0; run < 8; run++) {
    const mean = logBetween(1e-4, 2000);
    cases.push({ kind: "poisson", figures: [mean], ours: [...poissonDemand(mean).mass] });
    const uncertain = belief();
    cases.push({ kind: "nbinom", figures: uncertain.figures, ours: [...uncertain.ours.mass] });
    const handled = Math.floor(logBetween(1, 400));
    const loss = logBetween(1e-3, 0.9);
    cases.push({
      kind: "binom",
      figures: [handled, loss],
      ours: [...binomialDemand(handled, loss).mass],
    });
    const few = logBetween(0.01, 20);
    const mixed = belief();
    const terms = [poissonDemand(few), mixed.ours, binomialDemand(handled, loss)];
    cases.push({
      kind: "sum",
      figures: [few, ...mixed.figures, handled, loss],
      ours: [...convolveAll(terms).mass],
    });
    const [meanLife, shape] = [logBetween(50, 20_000), between(0.6, 6)];
    const age = meanLife * between(0, 1.5);
    const ahead = meanLife * between(0.01, 2);
    const life = weibullLife(meanLife, shape);
    cases.push({
      kind: "life",
      figures: [meanLife, shape, age, ahead],
      ours: [
        1 - life.fails(ahead),
        1 - life.failsFromAge(age, ahead),
        1 - life.failsFromUnknownAge(ahead),
      ],
    });
  }
  return cases;
}

/** scipy's version; undefined where python3 or scipy is not there. */
function scipyVersion(): string | undefined {
  try {
    const asked = ["-c", "import scipy; print(scipy.__version__)"];
    return execFileSync("python3", asked, { encoding: "utf8", stdio: "pipe" }).trim();
  } catch {
    return undefined;
  }
}

const version = scipyVersion();
const mustRun = process.env["CI"] === "true";
const title =
  version === undefined
    ? "demand against scipy: python3 with scipy is not here (python3 -m pip install scipy)"
    : `demand agrees with scipy ${version}`;

describe.skipIf(version === undefined && !mustRun)(title, () => {
  it("in 40 seeded cases, each probability to 1e-10", { timeout: 60_000 }, () => {
    expect(version, "CI must have python3 with scipy").toBeDefined();
    const cases = drawn();
    const asked = cases.map(({ kind, figures, ours }) => ({ kind, figures, length: ours.length }));
    const replied = execFileSync("python3", ["-c", program], {
      input: JSON.stringify(asked),
      encoding: "utf8",
    });
    const theirs: unknown = JSON.parse(replied);
    if (!Array.isArray(theirs)) throw new Error("scipy gave no list.");
    expect(theirs.length).toBe(40);
    cases.forEach(({ kind, figures, ours }, at) => {
      const reference: unknown = theirs[at];
      if (!Array.isArray(reference)) throw new Error("scipy gave no list.");
      expect(reference.length).toBe(ours.length);
      ours.forEach((p, k) => {
        const off = Math.abs(p - Number(reference[k]));
        expect(off <= close, `${kind}(${figures.join(", ")}) at ${k}: off by ${off}`).toBe(true);
      });
      // What our array leaves out is what scipy has beyond it too.
      if (kind !== "life") {
        const held = reference.reduce<number>((sum, p) => sum + Number(p), 0);
        expect(Math.abs(1 - held), `${kind}(${figures.join(", ")}) tail`).toBeLessThan(close);
      }
    });
  });
});
