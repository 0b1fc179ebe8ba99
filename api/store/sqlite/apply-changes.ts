import type { ChangeSet } from "../../../importers/change-set.ts";
import { Problem } from "../../errors/problem.ts";
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
  // Where nothing is deleted, no relationship can lose an end: both were found when it was made. So SQLite need not
  // look for them once more, which takes a fifth of the time, and records may go in several at a time, in any order.
  const onlyAdds = changes.every(({ kind }) => kind !== "delete-node" && kind !== "delete-link");
  return connection.transaction(onlyAdds ? "write without end checks" : "write", () => {
    const writer = new GraphWriter(connection, onlyAdds);
    let done = 0;
    for (const change of changes) {
      if (!change.kind.startsWith("create")) writer.flush();
      try {
        applyChange(writer, change);
      } catch (cause) {
        // Of two changes that cannot be made the earlier one is told.
        if (cause instanceof Problem && connection.db.isTransaction) writer.flush();
        throw cause;
      }
      if (++done % changesPerReport === 0) progress?.(done, changes.length);
    }
    const counts = { ...writer.counts };
    writer.flush();
    const importId = recordImport(connection, writer, occasion);
    writer.flush();
    const sequence = writer.journal.close(occasion, importId);
    progress?.(changes.length, changes.length);
    return { sequence, ...(importId === undefined ? {} : { importId }), ...counts };
  });
}
