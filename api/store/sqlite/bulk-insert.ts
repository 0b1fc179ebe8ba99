import type { SQLInputValue } from "node:sqlite";
import { quoteName } from "../../../graph-schema/index.ts";
import type { Connection } from "./connection.ts";
import { constraintBroken } from "./sqlite-problem.ts";

/** Rows put in by one statement: measured, more gain nothing. */
const rowsPerStatement = 8;

/** A table and the columns that rows put into it fill; the first is `n`, by which a row is found again. */
export interface InsertInto {
  readonly table: string;
  readonly one: string;
  readonly many: string;
}

export function insertInto(table: string, columns: readonly string[]): InsertInto {
  const places = `(${columns.map(() => "?").join(", ")})`;
  const head = `INTO ${quoteName(table)} (${columns.map(quoteName).join(", ")}) VALUES`;
  return {
    table,
    one: `INSERT ${head} ${places}`,
    // OR FAIL: a broken rule ends the whole transaction anyway, so that SQLite need not keep each statement's own undo.
    many: `INSERT OR FAIL ${head} ${Array(rowsPerStatement).fill(places).join(", ")}`,
  };
}

/** What to throw where a row breaks a rule of the database. */
type Refusal = (cause: unknown) => unknown;

interface Waiting {
  readonly values: SQLInputValue[];
  readonly numbers: number[];
  readonly refusals: Refusal[];
}

/**
 * Rows on their way into the database. In bulk they wait until there are enough for one statement, so nothing may be
 * read of them before `flush`; otherwise they go in at once.
 */
export class BulkInsert {
  readonly #connection: Connection;
  readonly #isBulk: boolean;
  readonly #waiting = new Map<InsertInto, Waiting>();

  constructor(connection: Connection, isBulk: boolean) {
    this.#connection = connection;
    this.#isBulk = isBulk;
  }

  add(into: InsertInto, n: number, values: readonly SQLInputValue[], refusal: Refusal): void {
    if (!this.#isBulk) {
      this.#one(into, values, refusal);
      return;
    }
    let waiting = this.#waiting.get(into);
    if (waiting === undefined) {
      waiting = { values: [], numbers: [], refusals: [] };
      this.#waiting.set(into, waiting);
    }
    for (const value of values) waiting.values.push(value);
    waiting.refusals.push(refusal);
    if (waiting.numbers.push(n) === rowsPerStatement) this.#many(into, waiting);
  }

  /** Puts in what waits. */
  flush(): void {
    for (const [into, { values, numbers, refusals }] of this.#waiting) {
      const width = values.length / numbers.length;
      refusals.forEach((refusal, row) => {
        this.#one(into, values.slice(row * width, (row + 1) * width), refusal);
      });
    }
    this.#waiting.clear();
  }

  #one({ one }: InsertInto, values: readonly SQLInputValue[], refusal: Refusal): void {
    try {
      this.#connection.run(one, ...values);
    } catch (cause) {
      throw refusal(cause);
    }
  }

  #many(into: InsertInto, { values, numbers, refusals }: Waiting): void {
    try {
      this.#connection.run(into.many, ...values);
    } catch (cause) {
      if (constraintBroken(cause) === undefined) throw cause;
      // Rows go in by order, so the one that was refused is the first that is not there.
      const there = `SELECT 1 FROM ${quoteName(into.table)} WHERE n = ?`;
      const row = numbers.findIndex((n) => this.#connection.row(there, n) === undefined);
      throw refusals[row]?.(cause) ?? cause;
    }
    values.length = 0;
    numbers.length = 0;
    refusals.length = 0;
  }
}
