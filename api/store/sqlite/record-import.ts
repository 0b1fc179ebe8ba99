import { keyPiece, mintNodeId, type NodeId, type Properties } from "../../../graph-schema/index.ts";
import type { WriteOccasion } from "../graph-store.ts";
import type { Connection } from "./connection.ts";
import type { GraphWriter } from "./graph-writer.ts";

/**
 * Creates the Import node of a write that takes a file in and changed something. Where the caller gives no
 * reference, imports are numbered 1, 2, 3 ...; the moment and the person are the occasion's.
 */
export function recordImport(
  connection: Connection,
  writer: GraphWriter,
  occasion: WriteOccasion,
): NodeId | undefined {
  if (occasion.importOf === undefined || writer.journal.isEmpty) return undefined;
  const properties: Properties = {
    reference: nextReference(connection),
    at: occasion.at,
    who: occasion.who,
    ...occasion.importOf,
  };
  const key = keyPiece(String(properties["reference"]));
  let attempt = 0;
  let id = mintNodeId("Import", key);
  while (writer.numberOf(id) !== undefined) id = mintNodeId("Import", key, ++attempt);
  writer.createNode("Import", id, { key, properties, extra: {} });
  return id;
}

function nextReference(connection: Connection): string {
  let number = Number(connection.row(`SELECT count(*) FROM "Import"`)?.[0] ?? 0) + 1;
  while (connection.row(`SELECT 1 FROM "Import" WHERE key = ?`, String(number)) !== undefined)
    number++;
  return String(number);
}
