import type { LinkRecord, NodeRecord } from "../../../importers/change-set.ts";
import { type FullEntry, type Numbered, stateOf } from "./record-state.ts";

/** The entry of a node's creation that is not in the journal: the node as it stands is all of it. */
export const nodeCreated = (untouched: Numbered<NodeRecord>): FullEntry => ({
  sequence: untouched.n,
  kind: "created",
  subject: { kind: "node", id: untouched.record.id },
  after: stateOf(untouched.record),
  untouched,
});

/** The same of a relationship. */
export function linkCreated(untouched: Numbered<LinkRecord>): FullEntry {
  const { type, from, to } = untouched.record;
  return {
    sequence: untouched.n,
    kind: "created",
    subject: { kind: "link", type, from, to },
    after: stateOf(untouched.record),
    untouched,
  };
}
