import type { NodeKey, Properties } from "../../../graph-schema/index.ts";
import type { LinkRecord, NodeRecord } from "../../../importers/change-set.ts";
import type { JournalEntry } from "./journal-entry.ts";

export type Extra = Readonly<Record<string, string>>;
export type Subject = JournalEntry["subject"];

/** What can change of a record, besides its version. */
export interface Content {
  readonly properties: Properties;
  readonly extra: Extra;
}
export interface NodeContent extends Content {
  readonly key: NodeKey;
}

/** A record and its number, which is the sequence number of its creation. */
export interface Numbered<R> {
  readonly n: number;
  readonly record: R;
}

/** A record's content and version at one moment, as the journal keeps it. */
export interface RecordState {
  readonly key?: string;
  readonly version: number;
  readonly properties: JournalEntry["before"] & object;
  readonly extra: Extra;
}

export const stateOf = (record: NodeRecord | LinkRecord): RecordState => ({
  ...("key" in record ? { key: record.key } : {}),
  version: record.version,
  properties: record.properties,
  extra: record.extra,
});

/** A journal entry with the whole state of its record before and after, as undo needs it. */
export interface FullEntry {
  readonly sequence: number;
  readonly kind: JournalEntry["kind"];
  readonly subject: Subject;
  readonly before?: RecordState;
  readonly after?: RecordState;
  /** The record itself, where this is its only entry: nothing has changed it since its creation. */
  readonly untouched?: Numbered<NodeRecord> | Numbered<LinkRecord>;
}

/** A record or a state of one, cut down to what undo compares. */
export const contentOf = (state: Pick<RecordState, "properties" | "extra" | "key">) => ({
  ...(state.key === undefined ? {} : { key: state.key }),
  properties: state.properties,
  extra: state.extra,
});
