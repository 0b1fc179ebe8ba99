import type { ChangeSet } from "../../../importers/change-set.ts";
import type { WriteOccasion, WriteReceipt } from "../graph-store.ts";
import { applyChange } from "../shared/apply-change.ts";
import type { Connection } from "./connection.ts";
import { GraphWriter } from "./graph-writer.ts";
import { recordImport } from "./record-import.ts";

type Progress = (done: number, total: number) => void;
const changesPerReport = 2000;

/**
 * Applies a change set in one transaction, journalled, durable on return. A change that alters nothing is
 * not written; an import that alters nothing leaves no Import node.
 */
export function applyChanges(
  connection: Connection,
  { changes }: ChangeSet,
  occasion: WriteOccasion,
  progress?: Progress,
): WriteReceipt {
  return connection.transaction("write", () => {
    const writer = new GraphWriter(connection);
    let done = 0;
    for (const change of changes) {
      applyChange(writer, change);
      if (++done % changesPerReport === 0) progress?.(done, changes.length);
    }
    const counts = { ...writer.counts };
    const importId = recordImport(connection, writer, occasion);
    const sequence = writer.journal.close(occasion, importId);
    progress?.(changes.length, changes.length);
    return { sequence, ...(importId === undefined ? {} : { importId }), ...counts };
  });
}
