import { describe, expect, it } from "vitest";
import { chainSteps, type StockedLink } from "../../api/scoring/kit/chain-steps.ts";
import { chainLogSufficiency } from "../../api/scoring/sufficiency/chain-sufficiency.ts";
import { seededRandom } from "../tools/random-kit.ts";
import { randomTree } from "../tools/random-tree.ts";

/** Every demand of a tree with its chance. */
function* everyDemand(links: readonly StockedLink[]): Generator<[number[], number]> {
  const at = links.map(() => 0);
  for (;;) {
    const chance = links.reduce((p, link, v) => p * (link.demand.mass[at[v] ?? 0] ?? 0), 1);
    if (chance > 0) yield [[...at], chance];
    let v = 0;
    while (v < at.length && at[v] === (links[v]?.demand.mass.length ?? 1) - 1) at[v++] = 0;
    if (v === at.length) return;
    at[v] = (at[v] ?? 0) + 1;
  }
}

/** Hall's condition read word for word: every set of links closed under "newer" has as many pieces as it is asked for. */
function canServe(
  links: readonly StockedLink[],
  asked: number[],
  pieces: readonly number[],
): boolean {
  for (let set = 1; set < 2 ** links.length; set++) {
    const has = (v: number): boolean => v < 0 || (set & (1 << v)) !== 0;
    if (!links.every((link, v) => !has(v) || has(link.newer))) continue;
    const over = links.reduce(
      (sum, _, v) => sum + (has(v) ? (asked[v] ?? 0) - (pieces[v] ?? 0) : 0),
      0,
    );
    if (over > 0) return false;
  }
  return true;
}

const enumerated = (links: readonly StockedLink[], pieces: readonly number[]): number => {
  let sum = 0;
  for (const [asked, chance] of everyDemand(links)) {
    if (canServe(links, asked, pieces)) sum += chance;
  }
  return sum;
};

describe("parts that supersede others", () => {
  it("are enough with the chance that enumeration under Hall's condition gives", () => {
    const random = seededRandom(31);
    for (let run = 0; run < 300; run++) {
      const links = randomTree(random, 1 + (run % 5));
      const pieces = links.map(() => Math.floor(random() * 4));
      const ours = Math.exp(chainLogSufficiency(links, (v) => pieces[v] ?? 0));
      expect(ours).toBeCloseTo(enumerated(links, pieces), 12);
    }
  });

  // METHODS, section 6: D_new ≤ s_new and D_old + D_new ≤ s_old + s_new.
  it("of one old and one new follow the stated joint condition", () => {
    const random = seededRandom(32);
    for (let run = 0; run < 100; run++) {
      const [old, fresh] = randomTree(random, 2, true);
      if (old === undefined || fresh === undefined) expect.unreachable();
      const [sOld, sNew] = [Math.floor(random() * 4), Math.floor(random() * 4)];
      let sum = 0;
      old.demand.mass.forEach((p, dOld) => {
        fresh.demand.mass.forEach((q, dNew) => {
          if (dNew <= sNew && dOld + dNew <= sOld + sNew) sum += p * q;
        });
      });
      const ours = Math.exp(chainLogSufficiency([old, fresh], (v) => (v === 0 ? sOld : sNew)));
      expect(ours).toBeCloseTo(sum, 11);
    }
  });

  it("meet every demand in any order of time, own part first and then the nearest newer", () => {
    const random = seededRandom(33);
    let refused = 0;
    for (let run = 0; run < 2000; run++) {
      const links = randomTree(random, 2 + (run % 4));
      const pieces = links.map(() => Math.floor(random() * 3));
      const asked = links.map(() => Math.floor(random() * 3));
      const order = asked.flatMap((count, v) => Array.from({ length: count }, () => v));
      for (let at = order.length - 1; at > 0; at--) {
        const other = Math.floor(random() * (at + 1));
        [order[at], order[other]] = [order[other] ?? 0, order[at] ?? 0];
      }
      const left = [...pieces];
      const met = order.every((v) => {
        let from = v;
        while (from >= 0 && left[from] === 0) from = links[from]?.newer ?? -1;
        if (from >= 0) left[from] = (left[from] ?? 0) - 1;
        return from >= 0;
      });
      expect(met).toBe(canServe(links, asked, pieces));
      if (!met) refused++;
    }
    expect(refused).toBeGreaterThan(200);
  });

  it("are bought in the undominated ways that trying every purchase finds", () => {
    const random = seededRandom(34);
    let several = 0;
    for (let run = 0; run < 120; run++) {
      const links = randomTree(random, 1 + (run % 4));
      const total = links.reduce((sum, link) => sum + link.demand.mass.length - 1, 0);
      const all: { cost: number; chance: number }[] = [];
      const visit = (buys: readonly number[]): void => {
        const link = links[buys.length];
        if (link === undefined) {
          const cost = links.reduce((sum, l, v) => sum + l.unitCost * (buys[v] ?? 0), 0);
          const log = chainLogSufficiency(links, (v) => (links[v]?.base ?? 0) + (buys[v] ?? 0));
          all.push({ cost, chance: Math.exp(log) });
          return;
        }
        for (let x = 0; x <= (link.buyable ? total : 0); x++) visit([...buys, x]);
      };
      visit([]);
      all.sort((a, b) => a.cost - b.cost || b.chance - a.chance);
      const best: { cost: number; chance: number }[] = [];
      for (const way of all) {
        if (way.chance > (best.at(-1)?.chance ?? -1) + 1e-12) best.push(way);
      }
      const steps = chainSteps(links);
      expect(steps.complete).toBe(true);
      // Steps that gain less than rounding are told apart by neither.
      const ours: { cost: number; chance: number }[] = [];
      steps.cost.forEach((cost, at) => {
        const chance = Math.exp(steps.logSufficiency[at] ?? 0);
        if (chance > (ours.at(-1)?.chance ?? -1) + 1e-12) ours.push({ cost, chance });
        const buys = steps.buys[at] ?? [];
        expect(links.reduce((sum, l, v) => sum + l.unitCost * (buys[v] ?? 0), 0)).toBe(cost);
        const log = chainLogSufficiency(links, (v) => (links[v]?.base ?? 0) + (buys[v] ?? 0));
        expect(log).toBeCloseTo(steps.logSufficiency[at] ?? 0, 11);
        links.forEach((l, v) => {
          if (!l.buyable) expect(buys[v]).toBe(0);
        });
      });
      expect(ours.map(({ cost }) => cost)).toEqual(best.map(({ cost }) => cost));
      ours.forEach((way, at) => {
        expect(way.chance).toBeCloseTo(best[at]?.chance ?? -1, 11);
      });
      if (ours.length > 3) several++;
    }
    expect(several).toBeGreaterThan(40);
  });

  it("a silly chain is answered, with a bound where not every way was compared", () => {
    const random = seededRandom(35);
    // Twelve parts, each dearer than the one it replaced, all still for sale.
    const links = randomTree(random, 12, true).map((link, v) => ({
      ...link,
      newer: v === 11 ? -1 : v + 1,
      base: 0,
      unitCost: 100 + v,
      buyable: true,
    }));
    const steps = chainSteps(links);
    expect(steps.logSufficiency.at(-1)).toBeGreaterThan(Math.log(0.999_999));
    // Whatever chance a step reaches, the relaxed problem asks no more for it.
    steps.logSufficiency.forEach((log, at) => {
      const bound = steps.relaxed.logSufficiency.findIndex((relaxed) => relaxed >= log);
      if (bound >= 0) expect(steps.relaxed.cost[bound]).toBeLessThanOrEqual(steps.cost[at] ?? 0);
    });
    const long = Array.from({ length: 1500 }, (_, v) => ({
      demand: { mass: Float64Array.of(0.999, 0.001), tail: 0 },
      newer: v === 1499 ? -1 : v + 1,
      base: 0,
      unitCost: 1,
      buyable: v === 1499,
    }));
    expect(chainSteps(long).complete).toBe(true);
  });
});
