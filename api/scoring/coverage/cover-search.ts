import { type CoverNode, multiplierBound } from "./multiplier-bound.ts";
import { withoutRedundant } from "./without-redundant.ts";

const stepsAtRoot = 600;
const stepsBelow = 60;

interface Found {
  readonly chosen: readonly number[];
  readonly lowerBound: number;
  readonly proven: boolean;
  readonly nodes: number;
}

/** Depth-first branch and bound for one reduced cover problem in which every row has a column. Used once. */
export class CoverSearch {
  readonly #columns: readonly Int32Array[];
  readonly #covering: readonly number[][];
  readonly #lists: readonly number[][];
  readonly #costs: Float64Array;
  readonly #nodeLimit: number;
  /** Covers of whole costs differ by at least 1. */
  readonly #isWhole: boolean;
  #best: readonly number[] = [];
  #upper = Number.POSITIVE_INFINITY;
  #nodes = 0;
  #stopped = false;

  constructor(
    rowCount: number,
    columns: readonly Int32Array[],
    costs: Float64Array,
    nodeLimit: number,
  ) {
    const covering = Array.from({ length: rowCount }, (): number[] => []);
    columns.forEach((rows, column) => {
      for (const row of rows) covering[row]?.push(column);
    });
    this.#columns = columns;
    this.#lists = columns.map((rows) => [...rows]);
    this.#covering = covering;
    this.#costs = costs;
    this.#nodeLimit = nodeLimit;
    this.#isWhole = costs.every(Number.isInteger);
  }

  run(): Found {
    const rowCount = this.#covering.length;
    const root: CoverNode = {
      standing: new Uint8Array(this.#columns.length),
      covered: new Uint8Array(rowCount),
      multipliers: new Float64Array(rowCount),
      taken: 0,
    };
    this.#covering.forEach((list, row) => {
      const shares = list.map((j) => (this.#costs[j] ?? 0) / (this.#columns[j]?.length ?? 1));
      root.multipliers[row] = Math.min(...shares);
    });
    this.#tryCover(root, this.#costs);
    const lowerBound = this.#explore(root, Number.NEGATIVE_INFINITY);
    return { chosen: this.#best, lowerBound, proven: !this.#stopped, nodes: this.#nodes };
  }

  /** Bounds above this hold nothing better than the best cover known. */
  #cutoff(): number {
    return this.#isWhole ? this.#upper - 1 + 1e-6 : this.#upper - 1e-9 * Math.max(1, this.#upper);
  }

  /** Returns a bound proven for the whole subtree. */
  #explore(node: CoverNode, inherited: number): number {
    if (this.#stopped || this.#nodes >= this.#nodeLimit) {
      this.#stopped = true;
      return inherited;
    }
    this.#nodes += 1;
    const reduced = new Float64Array(this.#columns.length);
    let bound = inherited;
    for (let steps = this.#nodes === 1 ? stepsAtRoot : stepsBelow; ; steps = stepsBelow) {
      if (!this.#settleForced(node)) return this.#upper;
      if (node.covered.every((is) => is === 1)) return this.#keepNode(node);
      const own = multiplierBound(
        {
          columns: this.#columns,
          costs: this.#costs,
          node,
          upper: this.#upper,
          enough: this.#cutoff(),
          steps,
          tryCover: (prices) => this.#tryCover(node, prices),
        },
        reduced,
      );
      bound = Math.max(bound, own);
      this.#tryCover(node, reduced);
      if (bound > this.#cutoff()) return bound;
      if (!this.#fixByReducedCost(node, reduced, own)) break;
    }
    const branch = this.#branchColumn(node, reduced);
    const with_ = this.#child(node);
    this.#take(with_, branch);
    const boundWith = this.#explore(with_, bound);
    const without = this.#child(node);
    without.standing[branch] = 2;
    return Math.max(bound, Math.min(boundWith, this.#explore(without, bound)));
  }

  #child(node: CoverNode): CoverNode {
    return {
      standing: node.standing.slice(),
      covered: node.covered.slice(),
      multipliers: node.multipliers.slice(),
      taken: node.taken,
    };
  }

  #take(node: CoverNode, column: number): void {
    node.standing[column] = 1;
    node.taken += this.#costs[column] ?? 0;
    for (const row of this.#columns[column] ?? []) node.covered[row] = 1;
  }

  /** Takes the one free column of every row that has but one; false where a row has none left. */
  #settleForced(node: CoverNode): boolean {
    for (let changed = true; changed; ) {
      changed = false;
      for (let row = 0; row < node.covered.length; row++) {
        if (node.covered[row] === 1) continue;
        const free = (this.#covering[row] ?? []).filter((column) => node.standing[column] === 0);
        const [only] = free;
        if (only === undefined) return false;
        if (free.length > 1) continue;
        this.#take(node, only);
        changed = true;
      }
    }
    return true;
  }

  #keepNode(node: CoverNode): number {
    this.#keep([...node.standing.keys()].filter((column) => node.standing[column] === 1));
    return node.taken;
  }

  #keep(chosen: readonly number[]): void {
    const cover = withoutRedundant(
      chosen,
      this.#lists,
      (column) => this.#costs[column] ?? 0,
      this.#covering.length,
    );
    const cost = cover.reduce((sum, column) => sum + (this.#costs[column] ?? 0), 0);
    if (cost >= this.#upper) return;
    this.#upper = cost;
    this.#best = cover;
  }

  /** A cover from prices: what is taken, then for each row still open its cheapest free column. */
  #tryCover(node: CoverNode, prices: Float64Array): void {
    const chosen = [...node.standing.keys()].filter((column) => node.standing[column] === 1);
    const covered = node.covered.slice();
    for (let row = 0; row < covered.length; row++) {
      if (covered[row] === 1) continue;
      let best = -1;
      for (const column of this.#covering[row] ?? []) {
        if (node.standing[column] !== 0) continue;
        if (best < 0 || (prices[column] ?? 0) < (prices[best] ?? 0)) best = column;
      }
      if (best < 0) return;
      chosen.push(best);
      for (const at of this.#columns[best] ?? []) covered[at] = 1;
    }
    this.#keep(chosen);
  }

  /** Settles columns whose other choice would raise the bound past the best cover. True if any was. */
  #fixByReducedCost(node: CoverNode, reduced: Float64Array, bound: number): boolean {
    const cutoff = this.#cutoff();
    const free = [...node.standing.keys()].filter((column) => node.standing[column] === 0);
    let changed = false;
    for (const column of free) {
      const price = reduced[column] ?? 0;
      if (bound + Math.abs(price) <= cutoff) continue;
      if (price > 0) node.standing[column] = 2;
      else this.#take(node, column);
      changed = true;
    }
    return changed;
  }

  /** The cheapest free column, by reduced cost, of the open row with the greatest multiplier. */
  #branchColumn(node: CoverNode, reduced: Float64Array): number {
    let row = -1;
    for (let at = 0; at < node.covered.length; at++) {
      if (node.covered[at] === 1) continue;
      if (row < 0 || (node.multipliers[at] ?? 0) > (node.multipliers[row] ?? 0)) row = at;
    }
    let best = -1;
    for (const column of this.#covering[row] ?? []) {
      if (node.standing[column] !== 0) continue;
      if (best < 0 || (reduced[column] ?? 0) < (reduced[best] ?? 0)) best = column;
    }
    return best;
  }
}
