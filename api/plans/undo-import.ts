import type { NodeId } from "../../graph-schema/index.ts";
import type { ImportHistory, UndoAnswer } from "../contract/import.contract.ts";
import { Problem } from "../errors/problem.ts";
import type { GraphStore, WriteOccasion } from "../store/graph-store.ts";
import { putBackWords } from "./changes/put-back-words.ts";
import { listImports } from "./list-imports.ts";

type Listed = ImportHistory["imports"][number];

/** The import meant by an id or a file name, or, when nothing is said, the latest one still in force. */
async function chooseImport(store: GraphStore, wanted: string | undefined): Promise<Listed> {
  const { imports } = await listImports(store);
  const inForce = imports.filter((listed) => listed.undone === null);
  const chosen =
    wanted === undefined
      ? inForce[0]
      : (imports.find((listed) => listed.id === wanted) ??
        inForce.find((listed) => listed.name === wanted) ??
        imports.find((listed) => listed.name === wanted));
  if (chosen !== undefined) return chosen;
  throw new Problem(
    "not-found",
    wanted === undefined
      ? "An undo needs an import still in force, and there is none. Take a file in first."
      : `An undo needs the id or the file name of an import; received "${wanted.slice(0, 200)}". The list of changes (\`sparewright history\`) shows them.`,
  );
}

/**
 * Takes back a whole import, by id or file name; the latest in force when none is named.
 * Errors: `not-found`, `undo-blocked` (also when it was undone before), those of the store.
 */
export async function undoImport(
  store: GraphStore,
  wanted: string | undefined,
  occasion: WriteOccasion,
  progress?: (stage: "records put back", done: number, total: number) => void,
): Promise<UndoAnswer> {
  const { id, name, undone } = await chooseImport(store, wanted);
  if (undone !== null) {
    throw new Problem(
      "undo-blocked",
      `An import can be undone once, and "${name}" was undone on ${undone}. Take the file in again if you want it back.`,
    );
  }
  const receipt = await store.undoImport(id as NodeId, occasion, (done, total) =>
    progress?.("records put back", done, total),
  );
  const nodesRestored = receipt.nodesCreated + receipt.nodesChanged;
  const linksRestored = receipt.linksCreated + receipt.linksChanged;
  return {
    import: { id, name },
    nodesDeleted: receipt.nodesDeleted,
    nodesRestored,
    linksDeleted: receipt.linksDeleted,
    linksRestored,
    sentence: `“${name}” is taken back: ${putBackWords({ ...receipt, nodesRestored, linksRestored })}`,
  };
}
