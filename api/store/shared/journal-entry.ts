import type { NodeId, Properties, RelationshipType } from "../../../graph-schema/index.ts";

/** One entry of the journal: what one record was before and after one change. */
export interface JournalEntry {
  readonly sequence: number;
  readonly at: string;
  readonly who: string;
  readonly importId?: NodeId;
  readonly kind: "created" | "changed" | "deleted";
  readonly subject:
    | { readonly kind: "node"; readonly id: NodeId }
    | {
        readonly kind: "link";
        readonly type: RelationshipType;
        readonly from: NodeId;
        readonly to: NodeId;
      };
  readonly before?: Properties;
  readonly after?: Properties;
}
