import { plural } from "../words.ts";

interface PutBack {
  readonly nodesDeleted: number;
  readonly linksDeleted: number;
  readonly nodesRestored: number;
  readonly linksRestored: number;
}

/** What an undo did, as a sentence; what it did not touch is not spoken of. */
export function putBackWords(counts: PutBack): string {
  const both = (records: number, relationships: number): string =>
    [
      ...(records > 0 ? [plural(records, "record")] : []),
      ...(relationships > 0 ? [plural(relationships, "relationship")] : []),
    ].join(" and ");
  const removed = both(counts.nodesDeleted, counts.linksDeleted);
  const restored = both(counts.nodesRestored, counts.linksRestored);
  const parts = [
    ...(removed === "" ? [] : [`${removed} removed`]),
    ...(restored === "" ? [] : [`${restored} as before`]),
  ];
  return parts.length === 0 ? "Nothing had to be put back." : `${parts.join(", ")}.`;
}
