import type { KnownGraph } from "../change-set.ts";
import type { ReadColumns } from "../columns/read-columns.ts";
import type { ListKindName } from "../list-kinds.ts";
import type { RowFault } from "../row-fault.ts";
import type { RecordTable } from "./record-table.ts";

export interface RowReaderOptions {
  readonly kind: ListKindName;
  readonly graph: KnownGraph;
  readonly columns: ReadColumns;
  readonly rowCount: number;
  /** Vessel of rows that name none. */
  readonly vessel: string | undefined;
  /** Supplier, and maker, of rows that name none. */
  readonly supplier?: string | undefined;
  readonly maker?: string | undefined;
  readonly isFaulty: (row: number) => boolean;
  /** Line of the file on which a row begins. */
  readonly lineOf: (row: number) => number;
}

/** What is wrong with a row as a whole; line and value are added by the caller. */
export type RowRefusal = Omit<RowFault, "line" | "value"> & { readonly value?: string };

/** One record a row speaks of. */
export interface Mention {
  table: RecordTable;
  record: number;
}

/** No record. */
export const absent = -1;
