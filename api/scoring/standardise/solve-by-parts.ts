import type { MilpLimits, SolveMilp } from "../packs/milp.ts";
import { localSearch } from "./local-search.ts";
import { standardMilp } from "./standard-milp.ts";
import {
  levelsOf,
  type PositionGroup,
  type StandardProblem,
  standardCost,
  suppliersNeeded,
} from "./standard-problem.ts";

/** Groups that hang together: they draw on a stock or a spares kit in common. Lists of group numbers. */
export function independentParts(problem: StandardProblem): readonly (readonly number[])[] {
  const parent = problem.groups.map((_, g) => g);
  const root = (g: number): number => {
    let at = g;
    while (parent[at] !== at) at = parent[at] ?? at;
    parent[g] = at;
    return at;
  };
  const owner = new Map<string, number>();
  const tie = (name: string, g: number): void => {
    const known = owner.get(name);
    if (known === undefined) owner.set(name, g);
    else parent[root(g)] = root(known);
  };
  problem.groups.forEach(({ options }, g) => {
    for (const { kit, loads } of options) {
      if (kit >= 0 && problem.kits[kit]?.held !== true) tie(`kit ${kit}`, g);
      for (const [stock] of loads) tie(`stock ${stock}`, g);
    }
  });
  return [...Map.groupBy(parent.keys(), root).values()];
}

/** What the parts together prove, and the best choice they lead to within the budget. */
export interface PartsAnswer {
  readonly lowerBound: number;
  readonly taken: readonly Int32Array[] | undefined;
}

const mostRounds = 8;
/** A part that is not proven in its share of the time that is left gives its bound. */
const longestPartSeconds = 6;

/**
 * Bounds a standardising problem by its independent parts, and finds choices on the way.
 *
 * The budget B is priced at μ per unit of money: L(μ) = sum over parts of min (1 + μ) change + stock + kits, less μ B, plus
 * the fewest suppliers that what stays needs. For any μ >= 0 no choice within the budget costs less than L(μ) (weak
 * duality). μ rises while the choices cost more than the budget and falls while they cost less, by the slope of what they
 * cost; each round solves every part again.
 *
 * @param startingPrice μ of the first round; without a budget it is 0
 * @param threads parts solved at once
 * Source: Geoffrion 1974, Lagrangean relaxation for integer programming.
 */
export async function solveByParts(
  problem: StandardProblem,
  solve: SolveMilp,
  limits: MilpLimits,
  startingPrice: number,
  threads = 1,
): Promise<PartsAnswer> {
  const began = performance.now();
  const left = (): number => limits.seconds - (performance.now() - began) / 1000;
  const parts = independentParts(problem).map((groups) => partOf(problem, groups));
  const levels = levelsOf(problem);
  const touched = new Set(parts.flatMap(({ stocks }) => stocks));
  const rest = standardCost({ ...problem, groups: [] }, [], levels);
  const heldKits = problem.kits.map(({ held }) => held);
  const suppliers = suppliersNeeded(problem, heldKits).count * problem.supplierCharge;
  const untouched = rest.kits + suppliers + (rest.stock - touchedStock(problem, touched, levels));
  let lowerBound = Number.NEGATIVE_INFINITY;
  let best: { taken: readonly Int32Array[]; total: number } | undefined;
  let low = { price: 0, change: Number.POSITIVE_INFINITY };
  let high: { price: number; change: number } | undefined;
  let price = Number.isFinite(problem.budget) ? startingPrice : 0;
  for (let round = 0; round < mostRounds && left() > 0.5; round++) {
    const taken: Int32Array[] = problem.groups.map(({ options }) => new Int32Array(options.length));
    let bound = untouched - (Number.isFinite(problem.budget) ? price * problem.budget : 0);
    let next = 0;
    let solved = 0;
    const work = async (): Promise<void> => {
      for (let part = parts[next++]; part !== undefined; part = parts[next++]) {
        limits.signal?.throwIfAborted();
        const { programme, constant, decode } = standardMilp(withPrice(part.problem, price));
        const share = (left() * threads) / (parts.length - next + 1);
        // The first round is finished whatever it takes: without it there is no bound at all.
        const least = round === 0 ? 0.2 : 0;
        const seconds = Math.max(least, Math.min(longestPartSeconds, left(), Math.max(0.2, share)));
        if (seconds <= 0.05) return;
        const outcome = await solve(programme, {
          seconds,
          ...(limits.signal === undefined ? {} : { signal: limits.signal }),
        });
        solved += 1;
        bound += Math.max(0, outcome.bound + constant);
        if (outcome.values !== undefined) {
          decode(outcome.values).forEach((counts, g) => {
            taken[part.groups[g] ?? 0] = counts;
          });
        } else {
          for (const g of part.groups) keepGroup(problem.groups[g], taken[g]);
        }
        limits.progress?.({
          seconds: limits.seconds - left(),
          ...(best === undefined ? {} : { best: best.total }),
          ...(Number.isFinite(lowerBound) ? { bound: lowerBound } : {}),
        });
      }
    };
    await Promise.all(Array.from({ length: Math.max(1, threads) }, work));
    if (solved < parts.length) break;
    lowerBound = Math.max(lowerBound, bound);
    const cost = standardCost(problem, taken, levels);
    if (cost.change <= problem.budget && (best === undefined || cost.total < best.total)) {
      // What is left of the budget may buy a little more.
      const until = performance.now() + 1000 * Math.min(2, Math.max(0, left()));
      const shouldStop = (): boolean => performance.now() > until;
      const polished = localSearch(problem, { levels, start: taken, shouldStop });
      best = { taken: polished, total: standardCost(problem, polished, levels).total };
    }
    if (cost.change <= problem.budget && price === 0) break;
    if (best !== undefined && best.total - lowerBound <= best.total * 1e-4) break;
    if (cost.change > problem.budget) low = { price, change: cost.change };
    else high = { price, change: cost.change };
    const dearer: number =
      high === undefined ? Math.max(0.1, price * 1.25) : (low.price + high.price) / 2;
    if (Math.abs(dearer - price) < 1e-4) break;
    price = dearer;
  }
  return { lowerBound, taken: best?.taken };
}

function keepGroup(group: PositionGroup | undefined, counts: Int32Array | undefined): void {
  if (group !== undefined && counts !== undefined) counts[0] = group.count;
}

/** The same problem with money for changes dearer by a price; used to spread a budget. */
export const withPrice = (problem: StandardProblem, price: number): StandardProblem => ({
  ...problem,
  groups: problem.groups.map(({ count, options }) => ({
    count,
    options: options.map((option) => ({ ...option, cost: option.cost * (1 + price) })),
  })),
});

interface Part {
  readonly groups: readonly number[];
  readonly stocks: readonly number[];
  readonly problem: StandardProblem;
}

/** One part as a problem of its own, without budget and suppliers. */
function partOf(problem: StandardProblem, groups: readonly number[]): Part {
  const stocks: number[] = [];
  const place = new Map<number, number>();
  const kits: number[] = [];
  const kitPlace = new Map<number, number>();
  const stockAt = (stock: number): number => {
    const known = place.get(stock);
    if (known !== undefined) return known;
    place.set(stock, stocks.length);
    return stocks.push(stock) - 1;
  };
  const kitAt = (kit: number): number => {
    if (kit < 0 || problem.kits[kit]?.held === true) return -1;
    const known = kitPlace.get(kit);
    if (known !== undefined) return known;
    kitPlace.set(kit, kits.length);
    return kits.push(kit) - 1;
  };
  const own = groups.flatMap((g) => {
    const group = problem.groups[g];
    if (group === undefined) return [];
    const options = group.options.map((option) => ({
      ...option,
      kit: kitAt(option.kit),
      loads: option.loads.map(([stock, mean]) => [stockAt(stock), mean] as const),
    }));
    return [{ count: group.count, options }];
  });
  return {
    groups,
    stocks,
    problem: {
      groups: own,
      stocks: stocks.flatMap((stock) => problem.stocks[stock] ?? []),
      kits: kits.map(() => ({ held: false, sellers: [] })),
      suppliers: 0,
      kitCharge: problem.kitCharge,
      supplierCharge: 0,
      budget: Number.POSITIVE_INFINITY,
    },
  };
}

/** Cost of the touched stocks as gear that stays asks for them: what `rest` counts and the parts count again. */
function touchedStock(
  problem: StandardProblem,
  touched: ReadonlySet<number>,
  levels: ReturnType<typeof levelsOf>,
): number {
  let sum = 0;
  problem.stocks.forEach(({ unitCost, usable, fixedMean }, p) => {
    const own = levels[p];
    if (own !== undefined && touched.has(p))
      sum += unitCost * Math.max(0, own.levelFor(fixedMean) - usable);
  });
  return sum;
}
