/** A mixed-integer linear programme: rows in compressed form, row r owns entries start[r] .. start[r + 1] - 1. */
export interface MilpProgramme {
  readonly sense: "minimise" | "maximise";
  /** A proof is good enough once the best solution is this near its bound. */
  readonly goodEnough: number;
  readonly columns: {
    readonly cost: Float64Array;
    readonly lower: Float64Array;
    readonly upper: Float64Array;
    readonly isInteger: Uint8Array;
  };
  readonly rows: {
    readonly lower: Float64Array;
    readonly upper: Float64Array;
    readonly start: Int32Array;
    readonly column: Int32Array;
    readonly value: Float64Array;
  };
}

export interface MilpProgress {
  readonly seconds: number;
  /** Objective of the best solution so far; absent until there is one. */
  readonly best?: number;
  readonly bound?: number;
}

/** What the caller allows: a limit in seconds, a signal that cancels, and an ear for progress. */
export interface MilpLimits {
  readonly seconds: number;
  readonly signal?: AbortSignal;
  readonly progress?: (at: MilpProgress) => void;
}

/** `stopped`: time ran out; `values` is then the best solution found, if any. */
export interface MilpOutcome {
  readonly status: "optimal" | "infeasible" | "stopped";
  readonly values?: Float64Array;
  /** Proven bound on the objective, within the solver's tolerances. */
  readonly bound: number;
}

/** A solver of mixed-integer programmes, handed in from outside: the core runs none itself. */
export type SolveMilp = (programme: MilpProgramme, limits: MilpLimits) => Promise<MilpOutcome>;

/** Gathers a programme row by row. */
export class MilpBuilder {
  readonly #cost: number[] = [];
  readonly #lower: number[] = [];
  readonly #upper: number[] = [];
  readonly #isInteger: number[] = [];
  readonly #rowLower: number[] = [];
  readonly #rowUpper: number[] = [];
  readonly #start: number[] = [0];
  readonly #column: number[] = [];
  readonly #value: number[] = [];

  /** Adds a column and returns its number. */
  column(cost: number, lower: number, upper: number, isInteger = true): number {
    this.#cost.push(cost);
    this.#lower.push(lower);
    this.#upper.push(upper);
    this.#isInteger.push(isInteger ? 1 : 0);
    return this.#cost.length - 1;
  }

  /** Adds a row lower <= sum of value × column <= upper; a column may be named once. */
  row(
    lower: number,
    upper: number,
    terms: readonly (readonly [column: number, value: number])[],
  ): void {
    this.#rowLower.push(lower);
    this.#rowUpper.push(upper);
    for (const [column, value] of terms) {
      if (value === 0) continue;
      this.#column.push(column);
      this.#value.push(value);
    }
    this.#start.push(this.#column.length);
  }

  build(sense: MilpProgramme["sense"], goodEnough = 1e-6): MilpProgramme {
    return {
      sense,
      goodEnough,
      columns: {
        cost: Float64Array.from(this.#cost),
        lower: Float64Array.from(this.#lower),
        upper: Float64Array.from(this.#upper),
        isInteger: Uint8Array.from(this.#isInteger),
      },
      rows: {
        lower: Float64Array.from(this.#rowLower),
        upper: Float64Array.from(this.#rowUpper),
        start: Int32Array.from(this.#start),
        column: Int32Array.from(this.#column),
        value: Float64Array.from(this.#value),
      },
    };
  }
}
