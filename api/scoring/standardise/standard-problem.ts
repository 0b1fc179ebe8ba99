import { minimumCover } from "../coverage/minimum-cover.ts";
import { carriedMean } from "./carried-mean.ts";

/** What one choice of model for one position brings. */
export interface PositionOption {
  /** Model row; what it stands for is the binder's business. */
  readonly model: number;
  /** Cost of changing to it, minor units; 0 for what is fitted now. */
  readonly cost: number;
  /** Index into `kits`; -1 for a model that needs no spares kit. */
  readonly kit: number;
  /** Mean pieces this item asks for, by stock. */
  readonly loads: readonly (readonly [stock: number, mean: number])[];
}

/** Positions that are alike in every figure: any number of them may take each option. */
export interface PositionGroup {
  readonly count: number;
  /** The first is what is fitted now. */
  readonly options: readonly PositionOption[];
}

/** The spares of one part class on one vessel. */
export interface PartStock {
  /** Minor units of one piece. */
  readonly unitCost: number;
  /** Cost over the price of protection, c / λ (carried-mean.ts). */
  readonly ratio: number;
  /** Usable pieces aboard: free. */
  readonly usable: number;
  /** Mean pieces asked for by gear that stays as it is. */
  readonly fixedMean: number;
}

/**
 * Standardising as a choice of models: minimise change cost within a budget, plus stock at equal protection, plus a
 * charge per distinct spares kit and per supplier needed, both over the horizon.
 */
export interface StandardProblem {
  readonly groups: readonly PositionGroup[];
  readonly stocks: readonly PartStock[];
  /** Distinct spares kits; `held` ones are needed by gear that stays. */
  readonly kits: readonly {
    readonly held: boolean;
    /** Sets of suppliers of which the kit needs at least one each, none within another. */
    readonly sellers: readonly (readonly number[])[];
  }[];
  readonly suppliers: number;
  readonly kitCharge: number;
  readonly supplierCharge: number;
  /** Most that changes may cost; Infinity for no limit. */
  readonly budget: number;
}

/** Of each group, how many positions take each option. */
export type Assignment = readonly Int32Array[];

export interface StandardCost {
  readonly change: number;
  readonly stock: number;
  readonly kits: number;
  readonly suppliers: number;
  readonly total: number;
  readonly kitCount: number;
  readonly supplierCount: number;
}

/** Everything as it is fitted now. */
export const keepAll = ({ groups }: StandardProblem): Int32Array[] =>
  groups.map(({ count, options }) => {
    const taken = new Int32Array(options.length);
    taken[0] = count;
    return taken;
  });

/** Levels of one stock: how many pieces a pooled mean asks for, and the mean each level can carry. */
export class StockLevels {
  readonly #ratio: number;
  readonly #carried: number[] = [];

  constructor(stock: PartStock) {
    this.#ratio = stock.ratio;
  }

  /** Largest mean a level can carry. */
  carried(level: number): number {
    for (let s = this.#carried.length; s <= level; s++) {
      this.#carried.push(carriedMean(s, this.#ratio));
    }
    return this.#carried[level] ?? Number.POSITIVE_INFINITY;
  }

  /** Least level that carries a mean; a hair's excess, by rounding of sums, counts as carried. */
  levelFor(mean: number): number {
    let level = 0;
    while (this.carried(level) * (1 + 1e-9) + 1e-12 < mean) level++;
    return level;
  }
}

export const levelsOf = ({ stocks }: StandardProblem): readonly StockLevels[] =>
  stocks.map((stock) => new StockLevels(stock));

export const stockCost = (
  { unitCost, usable }: PartStock,
  levels: StockLevels,
  mean: number,
): number => unitCost * Math.max(0, levels.levelFor(mean) - usable);

/** Mean pieces asked for of each stock. */
export function pooledMeans(problem: StandardProblem, taken: Assignment): Float64Array {
  const means = Float64Array.from(problem.stocks, ({ fixedMean }) => fixedMean);
  problem.groups.forEach(({ options }, g) => {
    options.forEach(({ loads }, o) => {
      const count = taken[g]?.[o] ?? 0;
      if (count === 0) return;
      for (const [stock, mean] of loads) means[stock] = (means[stock] ?? 0) + count * mean;
    });
  });
  return means;
}

/** The least number of suppliers of whom the given sets hold at least one each. */
export function suppliersNeeded(
  problem: StandardProblem,
  kits: readonly boolean[],
): { readonly count: number; readonly proven: boolean } {
  const sets = problem.kits.flatMap(({ sellers }, kit) => (kits[kit] === true ? sellers : []));
  const unique = [...new Map(sets.map((set) => [set.join(" "), set])).values()];
  const columns = Array.from({ length: problem.suppliers }, (_, supplier) =>
    unique.flatMap((set, row) => (set.includes(supplier) ? [row] : [])),
  );
  const cover = minimumCover({ rowCount: unique.length, columns });
  return { count: cover.chosen.length, proven: cover.status === "optimal" };
}

/** Kits that an assignment needs. */
export function kitsNeeded(problem: StandardProblem, taken: Assignment): boolean[] {
  const needed = problem.kits.map(({ held }) => held);
  problem.groups.forEach(({ options }, g) => {
    options.forEach(({ kit }, o) => {
      if (kit >= 0 && (taken[g]?.[o] ?? 0) > 0) needed[kit] = true;
    });
  });
  return needed;
}

/** Returns what an assignment costs in the planning model; every figure recomputed from the choices. */
export function standardCost(
  problem: StandardProblem,
  taken: Assignment,
  levels: readonly StockLevels[] = levelsOf(problem),
): StandardCost {
  const means = pooledMeans(problem, taken);
  let change = 0;
  problem.groups.forEach(({ options }, g) => {
    options.forEach(({ cost }, o) => {
      change += cost * (taken[g]?.[o] ?? 0);
    });
  });
  const stock = problem.stocks.reduce((sum, one, p) => {
    const own = levels[p];
    return own === undefined ? sum : sum + stockCost(one, own, means[p] ?? 0);
  }, 0);
  const needed = kitsNeeded(problem, taken);
  const kitCount = needed.filter(Boolean).length;
  const supplierCount = suppliersNeeded(problem, needed).count;
  const kits = kitCount * problem.kitCharge;
  const suppliers = supplierCount * problem.supplierCharge;
  return {
    change,
    stock,
    kits,
    suppliers,
    total: change + stock + kits + suppliers,
    kitCount,
    supplierCount,
  };
}
