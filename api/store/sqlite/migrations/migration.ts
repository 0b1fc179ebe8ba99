import type { DatabaseSync } from "node:sqlite";

/** One numbered step from the shape before it to its own. Runs inside a transaction; never edited once released. */
export interface Migration {
  readonly version: number;
  readonly effect: string;
  apply(db: DatabaseSync): void;
  /** What is left to do once the tables of labels and relationships are as declared. */
  afterTables?(db: DatabaseSync): void;
}
