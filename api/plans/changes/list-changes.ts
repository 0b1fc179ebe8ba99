import type { NodeId } from "../../../graph-schema/index.ts";
import type {
  ChangeDetail,
  ChangeLine,
  HistoryAnswer,
  HistoryRequest,
} from "../../contract/history.contract.ts";
import { Problem } from "../../errors/problem.ts";
import type { GraphStore, WriteNote } from "../../store/graph-store.ts";
import { plural } from "../words.ts";
import { journalLines } from "./journal-lines.ts";

const usualLimit = 50;
const mostEntries = 500;

async function importName(store: GraphStore, id: NodeId): Promise<string> {
  const run = await store.node(id);
  return String(run?.properties["fileName"] ?? run?.properties["reference"] ?? id);
}

async function lineOf(store: GraphStore, note: WriteNote): Promise<ChangeLine> {
  const records = note.sequence - note.first + 1;
  const file = note.importId === undefined ? undefined : await importName(store, note.importId);
  return {
    sequence: note.sequence,
    at: note.at,
    who: note.who,
    what:
      note.what ??
      (file !== undefined
        ? `Import of ${file}`
        : note.undoes === undefined
          ? plural(records, "record")
          : `Undo of change ${note.undoes}`),
    records,
    ...(note.importId === undefined || file === undefined
      ? {}
      : { import: { id: note.importId, name: file } }),
    undone: note.undone === undefined ? null : { ...note.undone },
    ...(note.undoes === undefined ? {} : { undoes: note.undoes }),
  };
}

/** What was changed, newest first: edits, deletions, pieces used, imports, undos; each can be undone by its number. */
export async function listChanges(
  store: GraphStore,
  request: HistoryRequest,
): Promise<HistoryAnswer> {
  const { limit = usualLimit, before } = request;
  const notes = await store.history({
    limit: limit + 1,
    ...(before === undefined ? {} : { before }),
  });
  const changes: ChangeLine[] = [];
  for (const note of notes.slice(0, limit)) changes.push(await lineOf(store, note));
  return { changes, more: notes.length > limit };
}

const noSuchChange = (sequence: number): Problem =>
  new Problem(
    "not-found",
    `A change is named by its number; there is none by the number ${sequence}. The list of changes (\`sparewright history\`) shows them.`,
    { facts: { sequence } },
  );

/** The note of the change that wrote a sequence number. Errors: `not-found`. */
async function noteOf(store: GraphStore, sequence: number): Promise<WriteNote> {
  // The change that wrote this number is the last one that begins at or before it: look from the newest back.
  for (let before: number | undefined; ; ) {
    const notes = await store.history({ limit: 500, ...(before === undefined ? {} : { before }) });
    const found = notes.find((note) => note.first <= sequence);
    if (found !== undefined && found.sequence >= sequence) return found;
    if (found !== undefined || notes.length === 0) throw noSuchChange(sequence);
    before = notes.at(-1)?.sequence;
  }
}

/** One change as the list tells it. Errors: `not-found`. */
export const changeLine = async (store: GraphStore, sequence: number): Promise<ChangeLine> =>
  lineOf(store, await noteOf(store, sequence));

/** The newest change still in force that is not itself an undo. Errors: `not-found`. */
export async function newestChange(store: GraphStore): Promise<ChangeLine> {
  for (let before: number | undefined; ; ) {
    const notes = await store.history({ limit: 100, ...(before === undefined ? {} : { before }) });
    const found = notes.find((note) => note.undone === undefined && note.undoes === undefined);
    if (found !== undefined) return lineOf(store, found);
    if (notes.length === 0) {
      throw new Problem(
        "not-found",
        "An undo needs a change still in force, and there is none. Take a file in first, or edit something.",
      );
    }
    before = notes.at(-1)?.sequence;
  }
}

/** One change with the records it wrote, before and after. Errors: `not-found`. */
export async function showChange(store: GraphStore, sequence: number): Promise<ChangeDetail> {
  const note = await noteOf(store, sequence);
  const entries = await store.journal({
    limit: mostEntries,
    since: note.first,
    before: note.sequence + 1,
  });
  return { change: await lineOf(store, note), entries: await journalLines(store, entries) };
}
