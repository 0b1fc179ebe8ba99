import type { NodeId } from "../../../graph-schema/index.ts";
import type { LinkRecord, NodeRecord } from "../../../importers/change-set.ts";
import type { FullEntry } from "./record-state.ts";

/** One write of the journal, with its range of sequence numbers. */
export interface StoredWrite {
  readonly kind: "write";
  readonly first: number;
  readonly last: number;
  readonly at: string;
  readonly who: string;
  readonly what?: string;
  readonly importId?: NodeId;
  /** First sequence number of the write that took this one back, and of the one this took back. */
  readonly undone?: number;
  readonly undoes?: number;
}

/**
 * Everything a store holds, piece by piece and without loss: what a backup is made of. A node or link carries the
 * sequence number of its creation, which is its journal entry until an entry of its own says more.
 */
export type StoredRecord =
  | StoredWrite
  | { readonly kind: "node"; readonly n: number; readonly record: NodeRecord }
  | { readonly kind: "link"; readonly n: number; readonly record: LinkRecord }
  | { readonly kind: "entry"; readonly entry: Omit<FullEntry, "untouched"> };
