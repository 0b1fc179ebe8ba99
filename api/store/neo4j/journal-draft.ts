import type { NodeId, RelationshipType } from "../../../graph-schema/index.ts";
import type { LinkRecord, NodeRecord } from "../../../importers/change-set.ts";
import { subjectText } from "../shared/import-fates.ts";
import { type FullEntry, type RecordState, type Subject, stateOf } from "../shared/record-state.ts";

/** The state of the journal before a write: its last number, and whether anything was ever deleted. */
export interface JournalHead {
  readonly sequence: number;
  readonly anyDeleted: boolean;
}

export type Creation =
  | { readonly n: number; readonly id: NodeId }
  | {
      readonly n: number;
      readonly type: RelationshipType;
      readonly from: NodeId;
      readonly to: NodeId;
    };

/**
 * Hands out sequence numbers and collects the entries of one write. A creation is kept as number and subject only:
 * until its first change the record itself says how it was created, as in SQLite.
 */
export class JournalDraft {
  readonly head: JournalHead;
  readonly creations: Creation[] = [];
  readonly entries: FullEntry[] = [];
  /** Versions at which records were deleted, by subject: those read beforehand and those of this write. */
  readonly lastVersions: Map<string, number>;
  readonly #kept = new Set<number>();
  #next: number;
  anyDeleted: boolean;

  constructor(head: JournalHead, lastVersions: Map<string, number>) {
    this.head = head;
    this.lastVersions = lastVersions;
    this.#next = head.sequence + 1;
    this.anyDeleted = head.anyDeleted;
  }

  get last(): number {
    return this.#next - 1;
  }

  get isEmpty(): boolean {
    return this.last === this.head.sequence;
  }

  /** The version a new record begins with: 1, or one above its last where it existed before and was deleted. */
  firstVersion(subject: Subject): number {
    if (!this.anyDeleted) return 1;
    return (this.lastVersions.get(subjectText(subject)) ?? 0) + 1;
  }

  created(subject: Subject): number {
    const n = this.#next++;
    const { kind, ...what } = subject;
    this.creations.push({ n, ...what } as Creation);
    return n;
  }

  changed(subject: Subject, n: number, before: NodeRecord | LinkRecord, after: RecordState): void {
    this.#keepCreation(subject, n, before);
    const state = stateOf(before);
    this.entries.push({ sequence: this.#next++, kind: "changed", subject, before: state, after });
  }

  deleted(subject: Subject, n: number, before: NodeRecord | LinkRecord): void {
    this.#keepCreation(subject, n, before);
    const state = stateOf(before);
    this.entries.push({ sequence: this.#next++, kind: "deleted", subject, before: state });
    this.lastVersions.set(subjectText(subject), before.version);
    this.anyDeleted = true;
  }

  /** Until its first change a record is its own journal entry; this writes the entry out before the record moves on. */
  #keepCreation(subject: Subject, n: number, record: NodeRecord | LinkRecord): void {
    if (this.#kept.has(n)) return;
    this.#kept.add(n);
    this.entries.push({ sequence: n, kind: "created", subject, after: stateOf(record) });
  }
}
