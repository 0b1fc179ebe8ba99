import {
  type Assignment,
  kitsNeeded,
  pooledMeans,
  type StandardProblem,
  type StockLevels,
  stockCost,
  suppliersNeeded,
} from "./standard-problem.ts";

/** Some positions of a group change from one option to another. */
export interface SingleMove {
  readonly group: number;
  readonly from: number;
  readonly to: number;
  readonly units: number;
}

/** An assignment that is changed move by move, each move's effect on the cost worked out from what it touches only. */
export class SearchState {
  readonly #problem: StandardProblem;
  readonly #levels: readonly StockLevels[];
  readonly #taken: Int32Array[];
  readonly #means: Float64Array;
  readonly #costs: Float64Array;
  readonly #users: Int32Array;
  readonly #needed: boolean[];
  readonly #supplierCosts = new Map<string, number>();
  #suppliers: number;
  #spent = 0;

  constructor(problem: StandardProblem, start: Assignment, levels: readonly StockLevels[]) {
    this.#problem = problem;
    this.#levels = levels;
    this.#taken = start.map((counts) => counts.slice());
    this.#means = pooledMeans(problem, start);
    this.#costs = Float64Array.from(problem.stocks, (stock, p) => {
      const own = levels[p];
      return own === undefined ? 0 : stockCost(stock, own, this.#means[p] ?? 0);
    });
    this.#users = new Int32Array(problem.kits.length);
    problem.groups.forEach(({ options }, g) => {
      options.forEach(({ kit, cost }, o) => {
        const count = this.count(g, o);
        this.#spent += cost * count;
        if (kit >= 0) this.#users[kit] = (this.#users[kit] ?? 0) + count;
      });
    });
    this.#needed = kitsNeeded(problem, start);
    this.#suppliers = this.#supplierCost(this.#needed);
  }

  get spent(): number {
    return this.#spent;
  }

  count(group: number, option: number): number {
    return this.#taken[group]?.[option] ?? 0;
  }

  taken(): Int32Array[] {
    return this.#taken.map((counts) => counts.slice());
  }

  /** Makes some moves if together they lower the cost by half a minor unit or more, within the budget. */
  improve(moves: readonly SingleMove[]): boolean {
    if (moves.length === 0) return false;
    const { groups, stocks, kits, kitCharge, budget } = this.#problem;
    const shift = new Map<number, number>();
    const users = new Map<number, number>();
    let delta = 0;
    for (const { group, from, to, units } of moves) {
      const options = groups[group]?.options;
      const old = options?.[from];
      const next = options?.[to];
      if (old === undefined || next === undefined) return false;
      delta += units * (next.cost - old.cost);
      for (const [stock, mean] of old.loads)
        shift.set(stock, (shift.get(stock) ?? 0) - units * mean);
      for (const [stock, mean] of next.loads)
        shift.set(stock, (shift.get(stock) ?? 0) + units * mean);
      if (old.kit >= 0) users.set(old.kit, (users.get(old.kit) ?? 0) - units);
      if (next.kit >= 0) users.set(next.kit, (users.get(next.kit) ?? 0) + units);
    }
    const extra = delta;
    if (extra > 0 && this.#spent + extra > budget) return false;
    const costs = new Map<number, number>();
    for (const [p, by] of shift) {
      const stock = stocks[p];
      const own = this.#levels[p];
      if (stock === undefined || own === undefined || by === 0) continue;
      const cost = stockCost(stock, own, Math.max(0, (this.#means[p] ?? 0) + by));
      costs.set(p, cost);
      delta += cost - (this.#costs[p] ?? 0);
    }
    let needed: boolean[] | undefined;
    for (const [kit, by] of users) {
      const isNeeded = kits[kit]?.held === true || (this.#users[kit] ?? 0) + by > 0;
      if (isNeeded === this.#needed[kit]) continue;
      needed ??= this.#needed.slice();
      needed[kit] = isNeeded;
      delta += isNeeded ? kitCharge : -kitCharge;
    }
    const suppliers = needed === undefined ? this.#suppliers : this.#supplierCost(needed);
    if (delta + suppliers - this.#suppliers > -0.5) return false;
    for (const { group, from, to, units } of moves) {
      const counts = this.#taken[group];
      if (counts === undefined) continue;
      counts[from] = (counts[from] ?? 0) - units;
      counts[to] = (counts[to] ?? 0) + units;
    }
    for (const [p, by] of shift) this.#means[p] = Math.max(0, (this.#means[p] ?? 0) + by);
    for (const [p, cost] of costs) this.#costs[p] = cost;
    for (const [kit, by] of users) this.#users[kit] = (this.#users[kit] ?? 0) + by;
    needed?.forEach((isNeeded, kit) => {
      this.#needed[kit] = isNeeded;
    });
    this.#suppliers = suppliers;
    this.#spent += extra;
    return true;
  }

  #supplierCost(kits: readonly boolean[]): number {
    const { supplierCharge } = this.#problem;
    if (supplierCharge === 0) return 0;
    const name = kits.map(Number).join("");
    const known = this.#supplierCosts.get(name) ?? suppliersNeeded(this.#problem, kits).count;
    this.#supplierCosts.set(name, known);
    return known * supplierCharge;
  }
}
