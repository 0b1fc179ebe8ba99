import { compensatedSum } from "../../api/scoring/kit/compensated-sum.ts";
import type { KitPart } from "../../api/scoring/kit/kit-problem.ts";

export interface BruteKit {
  readonly buys: readonly number[];
  readonly cost: number;
  readonly logSufficiency: number;
}

/** The slow plain form: every kit there is, one by one. The oracle for the fast solver on small problems. */
export function* everyKit(parts: readonly KitPart[]): Generator<BruteKit> {
  const most = parts.map((part) => Math.min(part.logCdf.length - 1, part.maxBuy ?? Infinity));
  const buys = parts.map(() => 0);
  for (;;) {
    yield { buys: [...buys], cost: costOf(parts, buys), logSufficiency: logOf(parts, buys) };
    let at = 0;
    while (at < buys.length && buys[at] === most[at]) buys[at++] = 0;
    if (at === buys.length) return;
    buys[at] = (buys[at] ?? 0) + 1;
  }
}

export function costOf(parts: readonly KitPart[], buys: ArrayLike<number>): number {
  return parts.reduce((sum, part, p) => sum + part.unitCost * (buys[p] ?? 0), 0);
}

export function logOf(parts: readonly KitPart[], buys: ArrayLike<number>): number {
  const sum = compensatedSum();
  parts.forEach((part, p) => {
    sum.add(part.logCdf[buys[p] ?? 0] ?? Number.NaN);
  });
  return sum.value();
}

/** Least cost of a kit whose log-sufficiency is at least the threshold; undefined if there is none. */
export function leastCost(parts: readonly KitPart[], threshold: number): number | undefined {
  let least: number | undefined;
  for (const kit of everyKit(parts)) {
    if (kit.logSufficiency >= threshold && (least === undefined || kit.cost < least)) {
      least = kit.cost;
    }
  }
  return least;
}

/** The undominated (cost, log-sufficiency) pairs among all kits of positive sufficiency, cheapest first. */
export function undominatedPairs(parts: readonly KitPart[]): { cost: number; log: number }[] {
  const all = [...everyKit(parts)].filter((kit) => kit.logSufficiency > -Infinity);
  all.sort((a, b) => a.cost - b.cost || b.logSufficiency - a.logSufficiency);
  const kept: { cost: number; log: number }[] = [];
  for (const kit of all) {
    const best = kept.at(-1)?.log ?? -Number.MAX_VALUE;
    // Pairs that differ by rounding only are one pair.
    if (kit.logSufficiency > best * (1 - 1e-14)) {
      kept.push({ cost: kit.cost, log: kit.logSufficiency });
    }
  }
  return kept;
}
