import { randomUUID } from "node:crypto";
import { keyPiece, mintNodeId, type NodeId, type Properties } from "../../../graph-schema/index.ts";
import type { ChangeSet } from "../../../importers/change-set.ts";
import type { WriteOccasion, WriteReceipt } from "../graph-store.ts";
import { applyChange } from "../shared/apply-change.ts";
import type { Client, Transaction } from "./client.ts";
import { loadWorkingGraph, wantedBy } from "./load-working-graph.ts";
import { nodesById, nodesByKey } from "./read-records.ts";
import type { WorkingGraph } from "./working-graph.ts";
import { lockHead, receiptOf, writeJournal } from "./write-journal.ts";
import { writeWorkingGraph } from "./write-working-graph.ts";

type Progress = (done: number, total: number) => void;

/**
 * Applies a change set in one transaction, journalled. The driver may run it again after a failure that passes: each
 * run begins from what it reads, and a run whose commit had arrived after all finds its receipt by the change's id.
 */
export async function applyChanges(
  client: Client,
  { changes }: ChangeSet,
  occasion: WriteOccasion,
  progress?: Progress,
): Promise<WriteReceipt> {
  const changeId = randomUUID();
  let reported = 0;
  const report = (done: number, total: number) => {
    // A run that starts again must not make progress fall.
    const scaled = total === 0 ? 0 : Math.floor((changes.length * done) / total);
    if (scaled <= reported || scaled >= changes.length) return;
    reported = scaled;
    progress?.(scaled, changes.length);
  };
  const receipt = await client.write(async (transaction) => {
    const head = await lockHead(transaction, changeId);
    const acknowledged = await receiptOf(transaction, changeId);
    if (acknowledged !== undefined) return acknowledged;
    const graph = await loadWorkingGraph(transaction, head, wantedBy(changes));
    for (const change of changes) applyChange(graph, change);
    const counts = { ...graph.counts };
    const importId = await recordImport(transaction, graph, occasion);
    const { journal } = graph;
    const made: WriteReceipt = {
      sequence: journal.isEmpty ? 0 : journal.last,
      ...(importId === undefined ? {} : { importId }),
      ...counts,
    };
    await writeWorkingGraph(transaction, graph, report);
    await writeJournal(transaction, journal, occasion, {
      changeId,
      receipt: made,
      ...(importId === undefined ? {} : { importId }),
    });
    return made;
  });
  progress?.(changes.length, changes.length);
  return receipt;
}

/** As `sqlite/record-import.ts`: the Import node of a write that takes a file in and changed something. */
async function recordImport(
  transaction: Transaction,
  graph: WorkingGraph,
  occasion: WriteOccasion,
): Promise<NodeId | undefined> {
  if (occasion.importOf === undefined || graph.journal.isEmpty) return undefined;
  const properties: Properties = {
    reference: await nextReference(transaction, graph),
    at: occasion.at,
    who: occasion.who,
    ...occasion.importOf,
  };
  const key = keyPiece(String(properties["reference"]));
  for (const node of await nodesByKey(transaction, "Import", [key])) graph.keepNode(node);
  let attempt = 0;
  let id = mintNodeId("Import", key);
  for (;;) {
    for (const node of await nodesById(transaction, [id])) graph.keepNode(node);
    if (graph.node(id) === undefined) break;
    id = mintNodeId("Import", key, ++attempt);
  }
  graph.createNode("Import", id, { key, properties, extra: {} });
  return id;
}

async function nextReference(transaction: Transaction, graph: WorkingGraph): Promise<string> {
  const [counted] = await transaction.rows("MATCH (n:Import) RETURN count(n)");
  let number = Number(counted?.[0] ?? 0) + 1;
  for (;;) {
    const key = String(number);
    const [held] = await nodesByKey(transaction, "Import", [key]);
    if (held === undefined && graph.holder("Import", key) === undefined) return key;
    number++;
  }
}
