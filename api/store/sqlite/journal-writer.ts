import type { SQLInputValue } from "node:sqlite";
import type { LinkRecord, NodeRecord } from "../../../importers/change-set.ts";
import type { JournalEntry, WriteOccasion } from "../graph-store.ts";
import { type RecordState, type Subject, stateOf } from "../shared/record-state.ts";
import type { Connection } from "./connection.ts";

/** The three columns by which the journal names a subject. */
export const subjectColumns = (
  subject: Subject,
): readonly [type: string | null, subject: string, other: string | null] =>
  subject.kind === "node" ? [null, subject.id, null] : [subject.type, subject.from, subject.to];

/** Hands out sequence numbers and writes journal entries within one transaction. */
export class JournalWriter {
  readonly #connection: Connection;
  readonly #first: number;
  #next: number;
  readonly #waiting: SQLInputValue[] = [];
  /** Whether anything was ever deleted; while not, no record can be a second one of its id. */
  #anyDeleted: boolean;

  constructor(connection: Connection) {
    this.#connection = connection;
    this.#first = lastSequence(connection) + 1;
    this.#next = this.#first;
    this.#anyDeleted =
      connection.row("SELECT 1 FROM entry WHERE kind = 'deleted' LIMIT 1") !== undefined;
  }

  nextSequence(): number {
    return this.#next++;
  }

  /** The version a new record begins with: 1, or one above its last where it existed before and was deleted. */
  firstVersion(subject: Subject): number {
    if (!this.#anyDeleted) return 1;
    this.#flush();
    const [type, id, other] = subjectColumns(subject);
    const last = this.#connection.row(
      "SELECT before ->> '$.version' FROM entry WHERE kind = 'deleted' AND subject = ? AND other IS ? AND type IS ? ORDER BY sequence DESC LIMIT 1",
      id,
      other,
      type,
    )?.[0];
    return typeof last === "number" ? last + 1 : 1;
  }

  changed(subject: Subject, n: number, before: NodeRecord | LinkRecord, after: RecordState): void {
    const state = JSON.stringify(stateOf(before));
    this.#keepCreation(subject, n, state);
    this.#write(this.nextSequence(), "changed", subject, state, JSON.stringify(after));
  }

  deleted(subject: Subject, n: number, before: NodeRecord | LinkRecord): void {
    const state = JSON.stringify(stateOf(before));
    this.#keepCreation(subject, n, state);
    this.#write(this.nextSequence(), "deleted", subject, state, null);
    this.#anyDeleted = true;
  }

  /**
   * Closes the write: names its occasion, and the write it takes back by that one's first number, if it does.
   * Returns its last sequence number, 0 when nothing was written.
   */
  close(occasion: WriteOccasion, importId: string | undefined, undoes?: number): number {
    this.#flush();
    const last = this.#next - 1;
    if (last < this.#first) return 0;
    this.#connection.run(
      "INSERT INTO occasion (first, last, at, who, import, what, undoes) VALUES (?, ?, ?, ?, ?, ?, ?)",
      this.#first,
      last,
      occasion.at,
      occasion.who,
      importId ?? null,
      occasion.what ?? null,
      undoes ?? null,
    );
    if (undoes !== undefined)
      this.#connection.run("UPDATE occasion SET undone = ? WHERE first = ?", this.#first, undoes);
    return last;
  }

  get isEmpty(): boolean {
    return this.#next === this.#first;
  }

  /** Until its first change a record is its own journal entry; this writes the entry out before the row moves on. */
  #keepCreation(subject: Subject, n: number, state: string): void {
    this.#write(n, "created", subject, null, state);
  }

  #write(
    sequence: number,
    kind: JournalEntry["kind"],
    subject: Subject,
    before: string | null,
    after: string | null,
  ): void {
    this.#waiting.push(sequence, kind, ...subjectColumns(subject), before, after);
    if (this.#waiting.length === entriesPerStatement * entryColumns) {
      this.#connection.run(insertSeveral, ...this.#waiting);
      this.#waiting.length = 0;
    }
  }

  /** Writes out the entries that wait for a statement of several. */
  #flush(): void {
    const count = this.#waiting.length / entryColumns;
    if (count > 0) this.#connection.run(insertEntries(count), ...this.#waiting);
    this.#waiting.length = 0;
  }
}

const entryColumns = 7;
const entriesPerStatement = 8;

/** OR FAIL: a failure ends the whole transaction anyway, so that SQLite need not keep each statement's own undo. */
const insertEntries = (count: number): string =>
  `INSERT OR FAIL INTO entry (sequence, kind, type, subject, other, before, after) VALUES ${Array(count).fill("(?, ?, ?, ?, ?, ?, ?)").join(", ")} ON CONFLICT (sequence) DO NOTHING`;

const insertSeveral = insertEntries(entriesPerStatement);

/** The sequence number of the newest journal entry; 0 in an empty graph. */
export function lastSequence(connection: Connection): number {
  return Number(connection.row("SELECT last FROM occasion ORDER BY first DESC LIMIT 1")?.[0] ?? 0);
}
