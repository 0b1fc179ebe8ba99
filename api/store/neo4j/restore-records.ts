import { randomUUID } from "node:crypto";
import { labelOf, type NodeId } from "../../../graph-schema/index.ts";
import { checkProperties } from "../shared/check-properties.ts";
import { leadsNowhere, storeOccupied } from "../shared/occupied.ts";
import { linkText, refuseForeignId, refuseWrongEnds } from "../shared/refusals.ts";
import type { StoredRecord, StoredWrite } from "../shared/stored-record.ts";
import { type Client, type Transaction, whole } from "./client.ts";
import { declaredLink, declaredNode, encodeLink, encodeNode } from "./codec.ts";
import type { Creation } from "./journal-draft.ts";
import { ticked } from "./read-records.ts";
import { lockHead, writeCreations, writeEntries } from "./write-journal.ts";

const recordsAtOnce = 2000;

/** Fills an empty database in one transaction. Errors: `store-occupied`, `input-invalid`, those of the server. */
export async function restoreRecords(
  client: Client,
  records: AsyncIterable<StoredRecord>,
): Promise<void> {
  const transaction = await client.open();
  try {
    await client.guard(async () => {
      const head = await lockHead(transaction, "restore");
      if (head.sequence > 0) throw storeOccupied(client.settings.uri, head.sequence);
      await fill(transaction, records);
      await transaction.commit();
    });
  } finally {
    await transaction.end();
  }
}

async function fill(transaction: Transaction, records: AsyncIterable<StoredRecord>): Promise<void> {
  const creations: Creation[] = [];
  const ids = new Set<NodeId>();
  let last = 0;
  let anyDeleted = false;
  let batch: StoredRecord[] = [];
  let batchOf = "";
  const flush = async () => {
    await restoreBatch(transaction, batch);
    batch = [];
  };
  for await (const stored of records) {
    if (stored.kind === "node") {
      refuseNode(stored);
      ids.add(stored.record.id);
      creations.push({ n: stored.n, id: stored.record.id });
    } else if (stored.kind === "link") {
      const { type, from, to } = refuseLink(stored, ids);
      creations.push({ n: stored.n, type, from, to });
    } else if (stored.kind === "write") last = Math.max(last, stored.last);
    else anyDeleted ||= stored.entry.kind === "deleted";
    const group = groupOf(stored);
    if (group !== batchOf || batch.length >= recordsAtOnce) await flush();
    batchOf = group;
    batch.push(stored);
  }
  await flush();
  creations.sort((a, b) => a.n - b.n);
  await writeCreations(transaction, creations);
  await transaction.run(
    "MATCH (j:Journal {name: 'journal'}) SET j.sequence = $last, j.anyDeleted = $anyDeleted",
    { last: whole(last), anyDeleted },
  );
}

const groupOf = (stored: StoredRecord): string =>
  stored.kind === "node"
    ? stored.record.label
    : stored.kind === "link"
      ? `${stored.record.type} ${labelOf(stored.record.from)} ${labelOf(stored.record.to)}`
      : stored.kind;

function refuseNode({ record }: StoredRecord & { kind: "node" }): void {
  refuseForeignId(record.label, record.id);
  checkProperties(declaredNode(record.label), record.properties, () => record.id);
}

function refuseLink({ record }: StoredRecord & { kind: "link" }, ids: ReadonlySet<NodeId>) {
  const { type, from, to, properties } = record;
  const subject = () => linkText(type, from, to);
  refuseWrongEnds(type, from, to);
  checkProperties(declaredLink(type), properties, subject);
  if (!ids.has(from) || !ids.has(to)) throw leadsNowhere(subject());
  return record;
}

/** Records of one kind, one label, one type between two labels. */
async function restoreBatch(
  transaction: Transaction,
  batch: readonly StoredRecord[],
): Promise<void> {
  const [first] = batch;
  if (first === undefined) return;
  if (first.kind === "node")
    await transaction.run(
      `UNWIND $rows AS row CREATE (n:${ticked(first.record.label)}) SET n = row`,
      {
        rows: batch.flatMap((stored) => (stored.kind === "node" ? [encodeNode(stored)] : [])),
      },
    );
  else if (first.kind === "link")
    await transaction.run(
      `UNWIND $rows AS row
       MATCH (a:${ticked(labelOf(first.record.from))} {id: row[0]})
       MATCH (b:${ticked(labelOf(first.record.to))} {id: row[1]})
       CREATE (a)-[r:${ticked(first.record.type)}]->(b) SET r = row[2]`,
      {
        rows: batch.flatMap((stored) =>
          stored.kind === "link"
            ? [[stored.record.from, stored.record.to, encodeLink(stored)]]
            : [],
        ),
      },
    );
  else if (first.kind === "write")
    await transaction.run("UNWIND $rows AS row CREATE (w:Write) SET w = row", {
      rows: batch.flatMap((stored) => (stored.kind === "write" ? [writeRow(stored)] : [])),
    });
  else
    await writeEntries(
      transaction,
      batch.flatMap((stored) => (stored.kind === "entry" ? [stored.entry] : [])),
    );
}

const writeRow = ({ kind: _, first, last, importId, undone, undoes, ...rest }: StoredWrite) => ({
  ...rest,
  changeId: randomUUID(),
  first: whole(first),
  last: whole(last),
  ...(importId === undefined ? {} : { import: importId }),
  ...(undone === undefined ? {} : { undone: whole(undone) }),
  ...(undoes === undefined ? {} : { undoes: whole(undoes) }),
});
