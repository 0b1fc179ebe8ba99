import {
  type Assignment,
  keepAll,
  kitsNeeded,
  levelsOf,
  pooledMeans,
  type StandardProblem,
  type StockLevels,
  standardCost,
  stockCost,
  suppliersNeeded,
} from "./standard-problem.ts";

export interface LocalSearchLimits {
  readonly shouldStop?: () => boolean;
  readonly levels?: readonly StockLevels[];
}

/**
 * Returns a good assignment of a standardising problem, never worse than keeping everything, within the budget.
 *
 * First whole sweeps (every position that admits a model takes it), kept where they pay; then single moves, one position
 * or a whole group from one option to another, as long as any lowers the cost. Deterministic. It proves nothing: the bound
 * comes from the programme. Cost per pass O(moves × loads).
 */
export function localSearch(
  problem: StandardProblem,
  { shouldStop = () => false, levels = levelsOf(problem) }: LocalSearchLimits = {},
): Int32Array[] {
  let best = keepAll(problem);
  let cost = standardCost(problem, best, levels).total;
  const models = [...new Set(problem.groups.flatMap((g) => g.options.map(({ model }) => model)))];
  for (let improved = true; improved && !shouldStop(); ) {
    improved = false;
    for (const model of models) {
      if (shouldStop()) break;
      const swept = sweep(problem, best, model);
      if (swept === undefined) continue;
      const total = standardCost(problem, swept, levels).total;
      if (total < cost) {
        best = swept;
        cost = total;
        improved = true;
      }
    }
    if (singleMoves(problem, best, levels, shouldStop)) improved = true;
    cost = standardCost(problem, best, levels).total;
  }
  return best;
}

/** Every position that admits a model takes it, as far as the budget goes; undefined where nothing changes. */
function sweep(
  problem: StandardProblem,
  taken: Assignment,
  model: number,
): Int32Array[] | undefined {
  const next = taken.map((counts) => counts.slice());
  let spent = spentOn(problem, taken);
  let changed = false;
  problem.groups.forEach(({ options }, g) => {
    const to = options.findIndex((option) => option.model === model);
    const counts = next[g];
    if (to < 0 || counts === undefined) return;
    options.forEach(({ cost }, o) => {
      const extra = (options[to]?.cost ?? 0) - cost;
      const afford =
        extra <= 0 ? (counts[o] ?? 0) : Math.floor((problem.budget - spent) / extra + 1e-9);
      const moving = o === to ? 0 : Math.min(counts[o] ?? 0, Math.max(0, afford));
      if (moving === 0) return;
      counts[o] = (counts[o] ?? 0) - moving;
      counts[to] = (counts[to] ?? 0) + moving;
      spent += moving * extra;
      changed = true;
    });
  });
  return changed ? next : undefined;
}

const spentOn = ({ groups }: StandardProblem, taken: Assignment): number =>
  groups.reduce(
    (sum, { options }, g) =>
      options.reduce((own, { cost }, o) => own + cost * (taken[g]?.[o] ?? 0), sum),
    0,
  );

/** Moves one position, or all of a group's option, while any move pays; changes `taken` in place. */
function singleMoves(
  problem: StandardProblem,
  taken: readonly Int32Array[],
  levels: readonly StockLevels[],
  shouldStop: () => boolean,
): boolean {
  const means = pooledMeans(problem, taken);
  const users = new Int32Array(problem.kits.length);
  problem.groups.forEach(({ options }, g) => {
    options.forEach(({ kit }, o) => {
      if (kit >= 0) users[kit] = (users[kit] ?? 0) + (taken[g]?.[o] ?? 0);
    });
  });
  let spent = spentOn(problem, taken);
  const supplierCosts = new Map<string, number>();
  const supplierCost = (kits: readonly boolean[]): number => {
    if (problem.supplierCharge === 0) return 0;
    const name = kits.map(Number).join("");
    const known = supplierCosts.get(name) ?? suppliersNeeded(problem, kits).count;
    supplierCosts.set(name, known);
    return known * problem.supplierCharge;
  };
  const needed = kitsNeeded(problem, taken);
  let suppliersNow = supplierCost(needed);
  let improvedEver = false;
  for (let improved = true; improved && !shouldStop(); ) {
    improved = false;
    for (const [g, { options }] of problem.groups.entries()) {
      if (shouldStop()) return improvedEver;
      const counts = taken[g];
      if (counts === undefined) continue;
      for (const [o, from] of options.entries()) {
        for (const [t, to] of options.entries()) {
          const held = counts[o] ?? 0;
          if (t === o || held === 0) continue;
          for (const units of held > 1 ? [held, 1] : [1]) {
            if ((counts[o] ?? 0) < units) continue;
            const extra = units * (to.cost - from.cost);
            if (extra > 0 && spent + extra > problem.budget) continue;
            const shift = new Map<number, number>();
            for (const [stock, mean] of from.loads)
              shift.set(stock, (shift.get(stock) ?? 0) - units * mean);
            for (const [stock, mean] of to.loads)
              shift.set(stock, (shift.get(stock) ?? 0) + units * mean);
            let delta = extra;
            for (const [p, by] of shift) {
              const stock = problem.stocks[p];
              const own = levels[p];
              if (stock === undefined || own === undefined || by === 0) continue;
              const now = means[p] ?? 0;
              delta += stockCost(stock, own, Math.max(0, now + by)) - stockCost(stock, own, now);
            }
            const leaves = from.kit >= 0 && from.kit !== to.kit && (users[from.kit] ?? 0) === units;
            const enters = to.kit >= 0 && from.kit !== to.kit && (users[to.kit] ?? 0) === 0;
            const drops = leaves && problem.kits[from.kit]?.held !== true;
            const adds = enters && problem.kits[to.kit]?.held !== true;
            delta += problem.kitCharge * ((adds ? 1 : 0) - (drops ? 1 : 0));
            // Suppliers change only where a spares kit comes or goes.
            if (delta > -0.5 && !adds && !drops) continue;
            let suppliersThen = suppliersNow;
            if (adds || drops) {
              const then = needed.slice();
              if (drops) then[from.kit] = false;
              if (adds) then[to.kit] = true;
              suppliersThen = supplierCost(then);
            }
            if (delta + suppliersThen - suppliersNow > -0.5) continue;
            counts[o] = (counts[o] ?? 0) - units;
            counts[t] = (counts[t] ?? 0) + units;
            for (const [p, by] of shift) means[p] = Math.max(0, (means[p] ?? 0) + by);
            if (from.kit >= 0) users[from.kit] = (users[from.kit] ?? 0) - units;
            if (to.kit >= 0) users[to.kit] = (users[to.kit] ?? 0) + units;
            if (drops) needed[from.kit] = false;
            if (adds) needed[to.kit] = true;
            suppliersNow = suppliersThen;
            spent += extra;
            improved = true;
            improvedEver = true;
          }
        }
      }
    }
  }
  return improvedEver;
}
