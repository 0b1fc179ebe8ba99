import type { UndoChangeAnswer } from "../../contract/history.contract.ts";
import type { GraphStore } from "../../store/graph-store.ts";
import type { Writer } from "../records/write-record.ts";
import { changeLine, newestChange } from "./list-changes.ts";
import { putBackWords } from "./put-back-words.ts";

/**
 * Takes back one change whole, by its number; the newest still in force when none is named. An undo is a change too,
 * and taking it back does the first one again. Errors: `not-found`; `undo-blocked` where later changes stand on it.
 */
export async function undoChange(
  store: GraphStore,
  wanted: number | undefined,
  writer: Writer,
  progress?: (stage: "records put back", done: number, total: number) => void,
): Promise<UndoChangeAnswer> {
  const change = wanted === undefined ? await newestChange(store) : await changeLine(store, wanted);
  const what =
    change.undoes === undefined
      ? `Undo: ${change.what}`
      : `Done again: ${change.what.replace(/^Undo: /, "")}`;
  const receipt = await store.undo(
    change.sequence,
    { ...writer, what: what.slice(0, 500) },
    (done, total) => progress?.("records put back", done, total),
  );
  const nodesRestored = receipt.nodesCreated + receipt.nodesChanged;
  const linksRestored = receipt.linksCreated + receipt.linksChanged;
  return {
    change: await changeLine(store, change.sequence),
    sequence: receipt.sequence,
    nodesDeleted: receipt.nodesDeleted,
    nodesRestored,
    linksDeleted: receipt.linksDeleted,
    linksRestored,
    sentence: `${change.undoes === undefined ? "Taken back" : "Done again"}: ${change.what.replace(/\.$/, "").replace(/^Undo: /, "")}. ${putBackWords({ ...receipt, nodesRestored, linksRestored })}`,
  };
}
