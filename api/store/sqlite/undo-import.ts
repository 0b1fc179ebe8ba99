import { labelOf, type NodeId } from "../../../graph-schema/index.ts";
import type { WriteOccasion, WriteReceipt } from "../graph-store.ts";
import { fatesOf } from "../shared/import-fates.ts";
import {
  noSuchImport,
  putBack,
  refuseStandings,
  refuseUndoneBefore,
} from "../shared/undo-rules.ts";
import type { Connection } from "./connection.ts";
import { GraphWriter } from "./graph-writer.ts";
import { entriesIn, importRange } from "./journal.ts";
import { readNode } from "./read-records.ts";
import { standingOn } from "./standing-on.ts";

/**
 * Puts every record an import touched back to how the import found it, in one transaction that is journalled
 * like any other; the Import node stays, marked undone. Refused where a record it touched is no longer as it
 * left it, or where something new is linked to a node it created. Changes that were themselves taken back do not
 * stand in the way.
 */
export function undoImport(
  connection: Connection,
  importId: NodeId,
  occasion: WriteOccasion,
): WriteReceipt {
  return connection.transaction("write", () => {
    const run = labelOf(importId) === "Import" ? readNode(connection, importId) : undefined;
    const range = importRange(connection, importId);
    if (run === undefined || range === undefined) throw noSuchImport(importId);
    refuseUndoneBefore(run.record);
    const entries = entriesIn(connection, { ...range, limit: Number.MAX_SAFE_INTEGER }).filter(
      ({ subject }) => subject.kind === "link" || subject.id !== importId,
    );
    const fates = fatesOf(entries);
    const createdNodes = new Set(
      entries.flatMap(({ kind, subject }) =>
        kind === "created" && subject.kind === "node" ? [subject.id] : [],
      ),
    );
    refuseStandings(standingOn(connection, fates, createdNodes, range.last));
    const writer = new GraphWriter(connection);
    putBack(writer, [...fates.values()]);
    const counts = { ...writer.counts };
    writer.changeNode(run, {
      key: run.record.key,
      properties: { ...run.record.properties, undone: occasion.at },
      extra: run.record.extra,
    });
    return { sequence: writer.journal.close(occasion, undefined), importId, ...counts };
  });
}
