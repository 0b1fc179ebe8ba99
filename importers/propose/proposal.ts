import type { NodeLabel, RelationshipType } from "../../graph-schema/index.ts";
import type { ChangeSet } from "../change-set.ts";
import type { Matching } from "../matching/match-columns.ts";
import type { Table } from "../reading/read-table.ts";
import type { ImportNotice, RowFault } from "../row-fault.ts";

/** How many records of a label or type a file would create, change, leave alone or cannot settle. */
export interface RecordCount {
  readonly label: NodeLabel | RelationshipType;
  readonly created: number;
  readonly changed: number;
  readonly unchanged: number;
  /** Rows rejected because they contradict an earlier row about such a record. */
  readonly conflict: number;
}

/** One change in words, for the eye. */
export interface ChangeInWords {
  readonly subject: string;
  readonly kind: "created" | "changed" | "deleted";
  readonly before?: string;
  readonly after?: string;
}

/** What a file would do to the graph, and the account of every one of its rows. */
export interface Proposal {
  readonly table: Table;
  readonly matching: Matching;
  /** The changes themselves; built when first asked for, since a dry run only counts them. */
  readonly changeSet: ChangeSet;
  /** How many changes `changeSet` holds, known without building it. */
  readonly changeCount: number;
  readonly rows: {
    readonly read: number;
    readonly accepted: number;
    readonly rejected: number;
    readonly skipped: number;
  };
  readonly records: readonly RecordCount[];
  /** The first changes in words, at most 200. */
  readonly sample: readonly ChangeInWords[];
  /** All faults in order of lines. */
  readonly faults: readonly RowFault[];
  /** Rows rejected, in order; `table.row` gives their cells. */
  readonly rejectedRows: readonly number[];
  readonly notices: readonly ImportNotice[];
}
