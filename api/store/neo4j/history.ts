import type { NodeId } from "../../../graph-schema/index.ts";
import type { GraphStore, WriteNote } from "../graph-store.ts";
import { numberOf, type Transaction } from "./client.ts";

/** Writes, newest first; see `GraphStore.history`. */
export async function readHistory(
  transaction: Transaction,
  { limit, before = Number.MAX_SAFE_INTEGER }: Parameters<GraphStore["history"]>[0],
): Promise<readonly WriteNote[]> {
  const rows = await transaction.rows(
    `MATCH (w:Write) WHERE w.first < $before AND w.last < $before
     WITH w ORDER BY w.first DESC LIMIT toInteger($limit)
     OPTIONAL MATCH (u:Write {first: w.undone})
     OPTIONAL MATCH (t:Write {first: w.undoes})
     RETURN w.first, w.last, w.at, w.who, w.what, w.import, u.at, u.who, t.last ORDER BY w.first DESC`,
    { limit, before },
  );
  return rows.map(([first, last, at, who, what, importId, undoneAt, undoneBy, undoes]) => ({
    sequence: numberOf(last),
    first: numberOf(first),
    at: String(at),
    who: String(who),
    ...(typeof what === "string" ? { what } : {}),
    ...(importId === null ? {} : { importId: importId as NodeId }),
    ...(undoneAt === null ? {} : { undone: { at: String(undoneAt), who: String(undoneBy) } }),
    ...(undoes === null ? {} : { undoes: numberOf(undoes) }),
  }));
}
