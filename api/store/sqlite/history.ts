import type { NodeId } from "../../../graph-schema/index.ts";
import type { GraphStore, WriteNote } from "../graph-store.ts";
import type { Connection } from "./connection.ts";

/**
 * Writes, newest first; see `GraphStore.history`. An import undone by a version of this program that did not yet
 * keep which write undid which is known by the mark on its Import node.
 */
export function readHistory(
  connection: Connection,
  { limit, before = Number.MAX_SAFE_INTEGER }: Parameters<GraphStore["history"]>[0],
): readonly WriteNote[] {
  return connection
    .rows(
      `SELECT o.first, o.last, o.at, o.who, o.what, o.import, u.at, u.who, i.undone, t.last
       FROM occasion o
       LEFT JOIN occasion u ON u.first = o.undone
       LEFT JOIN occasion t ON t.first = o.undoes
       LEFT JOIN node n ON n.id = o.import
       LEFT JOIN "Import" i ON i.n = n.n
       WHERE o.last < ? ORDER BY o.first DESC LIMIT ?`,
      before,
      limit,
    )
    .map((row) => {
      const [first, last, at, who, what, importId, undoneAt, undoneBy, importUndone, undoes] = row;
      const undone = undoneAt ?? importUndone ?? null;
      return {
        sequence: Number(last),
        first: Number(first),
        at: String(at),
        who: String(who),
        ...(typeof what === "string" ? { what } : {}),
        ...(importId === null ? {} : { importId: importId as NodeId }),
        ...(undone === null ? {} : { undone: { at: String(undone), who: String(undoneBy ?? "") } }),
        ...(typeof undoes === "number" ? { undoes } : {}),
      };
    });
}
