import type {
  DeleteAnswer,
  DeleteRequest,
  DependantsAnswer,
} from "../../contract/records.contract.ts";
import { Problem } from "../../errors/problem.ts";
import type { GraphStore } from "../../store/graph-store.ts";
import { plural } from "../words.ts";
import { recordById, refuseJournal } from "./find-record.ts";
import { RecordNames, referenceTo } from "./record-names.ts";
import { type Writer, writeChange } from "./write-record.ts";

const mostShown = 200;

const counted = (names: readonly string[]): readonly (readonly [string, number])[] =>
  [...Map.groupBy(names, (name) => name)]
    .map(([name, some]) => [name, some.length] as const)
    .sort((a, b) => b[1] - a[1] || (a[0] < b[0] ? -1 : 1));

/** What would go with a record if it were deleted: records that cannot be without it, and relationships. Errors: `not-found`. */
export async function showDependants(store: GraphStore, id: string): Promise<DependantsAnswer> {
  const node = await recordById(store, id);
  refuseJournal(node);
  const { nodes, links } = await store.dependants(node.id);
  const record = await new RecordNames(store).document(node);
  const byLabel = counted(nodes.map(({ label }) => label));
  const which = byLabel.map(([label, count]) => `${count} ${label}`).join(", ");
  return {
    record,
    sentence:
      nodes.length === 0
        ? `Deleting ${node.label} ${record.title} takes no other record with it, and ${plural(links.length, "relationship")}.`
        : `Deleting ${node.label} ${record.title} takes ${plural(nodes.length, "other record")} with it (${which}), and ${plural(links.length, "relationship")}. It can be undone.`,
    records: nodes.length,
    links: links.length,
    byLabel: byLabel.map(([label, count]) => ({ label, count })),
    byType: counted(links.map(({ type }) => type)).map(([type, count]) => ({ type, count })),
    shown: nodes.slice(0, mostShown).map(referenceTo),
  };
}

/**
 * Deletes a record with everything that cannot be without it, as one change that can be undone.
 * Errors: `not-found`; `write-stale` where it has changed since it was looked at; `has-dependants` where more would go
 * with it than the caller was shown (facts: what).
 */
export async function deleteRecord(
  store: GraphStore,
  id: string,
  request: DeleteRequest,
  writer: Writer,
): Promise<DeleteAnswer> {
  const shown = await showDependants(store, id);
  const known = request.records ?? 0;
  if (shown.records > known) {
    throw new Problem(
      "has-dependants",
      `What goes with a record must have been seen; ${plural(shown.records, "other record")} would go with ${shown.record.title}, ${known} were named. Nothing was deleted. Look at them and repeat with their number.`,
      { facts: { records: shown.records, byLabel: shown.byLabel } },
    );
  }
  const { record } = shown;
  const what = `${record.label} ${record.title} deleted${shown.records === 0 ? "" : `, with ${plural(shown.records, "other record")}`}`;
  const node = await recordById(store, id);
  const { receipt } = await writeChange(
    store,
    [{ kind: "delete-node", id: node.id, basedOn: request.version }],
    writer,
    what,
  );
  return {
    sentence: `${what}. Undo takes it back.`,
    sequence: receipt.sequence,
    record: { id: record.id, label: record.label, name: record.name },
    nodesDeleted: receipt.nodesDeleted,
    linksDeleted: receipt.linksDeleted,
  };
}
