import type { LinkRecord, NodeRecord } from "../../../importers/change-set.ts";
import type { FullEntry, Numbered, RecordState, Subject } from "./record-state.ts";
import { linkText } from "./refusals.ts";

/** What one import did to one record, on balance: how it found it and how it left it; absent where it was not there. */
export interface Fate {
  readonly subject: Subject;
  readonly before?: RecordState;
  readonly after?: RecordState;
  /** The record itself, where nothing but its creation ever happened to it. */
  readonly untouched?: Numbered<NodeRecord> | Numbered<LinkRecord>;
}

export const subjectText = (subject: Subject): string =>
  subject.kind === "node" ? subject.id : linkText(subject.type, subject.from, subject.to);

/** The balance of an import's journal entries, given newest first, by the record's text. */
export function fatesOf(newestFirst: readonly FullEntry[]): ReadonlyMap<string, Fate> {
  const fates = new Map<string, Fate>();
  for (const { subject, before, after, untouched } of newestFirst) {
    const text = subjectText(subject);
    const newer = fates.get(text);
    const left = newer === undefined ? after : newer.after;
    fates.set(text, {
      subject,
      ...(before === undefined ? {} : { before }),
      ...(left === undefined ? {} : { after: left }),
      ...(untouched === undefined ? {} : { untouched }),
    });
  }
  return fates;
}
