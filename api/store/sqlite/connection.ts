import type { DatabaseSync, SQLInputValue, SQLOutputValue, StatementSync } from "node:sqlite";

export type Row = readonly SQLOutputValue[];

/** One open database with its prepared statements: each text is compiled once and kept. */
export class Connection {
  readonly db: DatabaseSync;
  readonly #prepared = new Map<string, StatementSync>();

  constructor(db: DatabaseSync) {
    this.db = db;
  }

  /** The prepared statement of this text; its rows come as arrays in the order of the selected columns. */
  prepare(sql: string): StatementSync {
    const known = this.#prepared.get(sql);
    if (known !== undefined) return known;
    const statement = this.db.prepare(sql);
    statement.setReturnArrays(true);
    this.#prepared.set(sql, statement);
    return statement;
  }

  rows(sql: string, ...values: readonly SQLInputValue[]): readonly Row[] {
    return this.prepare(sql).all(...values) as unknown as readonly Row[];
  }

  row(sql: string, ...values: readonly SQLInputValue[]): Row | undefined {
    return this.prepare(sql).get(...values) as unknown as Row | undefined;
  }

  run(sql: string, ...values: readonly SQLInputValue[]): void {
    this.prepare(sql).run(...values);
  }

  /**
   * Runs `work` in one transaction: all of it is durable on return, or none of it happened. Without end checks SQLite
   * does not look whether the ends of relationships exist; then `work` has to.
   */
  transaction<T>(kind: "read" | "write" | "write without end checks", work: () => T): T {
    const isUnchecked = kind === "write without end checks";
    if (isUnchecked) this.db.exec("PRAGMA foreign_keys = OFF");
    try {
      this.db.exec(kind === "read" ? "BEGIN" : "BEGIN IMMEDIATE");
      return this.#toItsEnd(work);
    } finally {
      if (isUnchecked) this.db.exec("PRAGMA foreign_keys = ON");
    }
  }

  #toItsEnd<T>(work: () => T): T {
    try {
      const result = work();
      this.db.exec("COMMIT");
      return result;
    } catch (cause) {
      // SQLite rolls back by itself after some failures (a full disk, say); then there is nothing left to do.
      if (this.db.isTransaction) this.db.exec("ROLLBACK");
      throw cause;
    }
  }

  close(): void {
    this.#prepared.clear();
    if (this.db.isOpen) this.db.close();
  }
}
