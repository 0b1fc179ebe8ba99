import {
  type NodeId,
  nodeLabelNames,
  type RelationshipType,
  relationshipTypeNames,
} from "../../../graph-schema/index.ts";
import type { StoredRecord } from "../shared/stored-record.ts";
import { type Client, numberOf } from "./client.ts";
import { decodeLink, decodeNode } from "./codec.ts";
import { toEntry } from "./journal.ts";
import { ticked } from "./read-records.ts";
import { lockHead } from "./write-journal.ts";

/** Everything on the server, under the lock that writers take turns by: they wait, so the backup shows one moment. */
export async function* backupRecords(client: Client): AsyncGenerator<StoredRecord> {
  const transaction = await client.open();
  try {
    await lockHead(transaction, "backup");
    for await (const row of transaction.stream(
      `MATCH (w:Write) WITH w ORDER BY w.first
       RETURN [w.first, w.last, w.at, w.who, w.what, w.import, w.undone, w.undoes]`,
    ))
      yield toWrite(row.get(0) as unknown[]);
    for (const label of nodeLabelNames)
      for await (const row of transaction.stream(
        `MATCH (n:${ticked(label)}) WITH n ORDER BY n.sequence RETURN properties(n)`,
      ))
        yield { kind: "node", ...decodeNode(row.get(0)) };
    for (const type of relationshipTypeNames)
      for await (const row of transaction.stream(
        `MATCH (a)-[r:${ticked(type)}]->(b) WITH a, r, b ORDER BY r.sequence
         RETURN a.id, b.id, properties(r)`,
      ))
        yield {
          kind: "link",
          ...decodeLink(
            type satisfies RelationshipType,
            row.get(0) as NodeId,
            row.get(1) as NodeId,
            row.get(2),
          ),
        };
    for await (const row of transaction.stream(
      `MATCH (c:Change) WITH c ORDER BY c.sequence
       RETURN [c.sequence, c.kind, c.type, c.from, c.to, c.before, c.after]`,
    ))
      yield { kind: "entry", entry: toEntry(row.get(0) as unknown[]) };
  } catch (cause) {
    await client.guard(() => Promise.reject(cause));
  } finally {
    await transaction.end();
  }
}

function toWrite(row: readonly unknown[]): StoredRecord {
  const [first, last, at, who, what, importId, undone, undoes] = row;
  return {
    kind: "write",
    first: numberOf(first),
    last: numberOf(last),
    at: String(at),
    who: String(who),
    ...(typeof what === "string" ? { what } : {}),
    ...(typeof importId === "string" ? { importId: importId as NodeId } : {}),
    ...(undone === null || undone === undefined ? {} : { undone: numberOf(undone) }),
    ...(undoes === null || undoes === undefined ? {} : { undoes: numberOf(undoes) }),
  };
}
