import type { NodeId } from "../../../graph-schema/index.ts";
import type { WriteOccasion, WriteReceipt } from "../graph-store.ts";
import { subjectText } from "../shared/import-fates.ts";
import type { FullEntry } from "../shared/record-state.ts";
import { numberOf, type Transaction, whole } from "./client.ts";
import type { Creation, JournalDraft, JournalHead } from "./journal-draft.ts";
import { pieces } from "./read-records.ts";

const creationsAtOnce = 1000;
const entriesAtOnce = 5000;

/**
 * Takes the write lock of the graph, so that writers take turns and sequence numbers have no gap, and reads the head
 * of the journal. Held until the transaction ends.
 */
export async function lockHead(transaction: Transaction, changeId: string): Promise<JournalHead> {
  const [row] = await transaction.rows(
    "MATCH (j:Journal {name: 'journal'}) SET j.lastWriter = $changeId RETURN j.sequence, j.anyDeleted",
    { changeId },
  );
  return { sequence: numberOf(row?.[0]), anyDeleted: row?.[1] === true };
}

/** The receipt of a write that was committed already: its acknowledgement was lost and it is being run again. */
export async function receiptOf(
  transaction: Transaction,
  changeId: string,
): Promise<WriteReceipt | undefined> {
  const [row] = await transaction.rows("MATCH (w:Write {changeId: $changeId}) RETURN w.receipt", {
    changeId,
  });
  return row && (JSON.parse(String(row[0])) as WriteReceipt);
}

/** Writes a journal draft with its occasion and receipt. Nothing is written where nothing changed. */
export async function writeJournal(
  transaction: Transaction,
  journal: JournalDraft,
  occasion: WriteOccasion,
  write: {
    readonly changeId: string;
    readonly importId?: NodeId;
    readonly receipt: WriteReceipt;
    /** The first sequence number of the write that this one takes back. */
    readonly undoes?: number;
  },
): Promise<void> {
  if (journal.isEmpty) return;
  await writeCreations(transaction, journal.creations);
  await writeEntries(transaction, journal.entries);
  const { importId, undoes } = write;
  await transaction.run(
    `CREATE (w:Write) SET w = $write
     WITH w MATCH (j:Journal {name: 'journal'}) SET j.sequence = $last, j.anyDeleted = $anyDeleted`,
    {
      write: {
        changeId: write.changeId,
        first: whole(journal.head.sequence + 1),
        last: whole(journal.last),
        at: occasion.at,
        who: occasion.who,
        receipt: JSON.stringify(write.receipt),
        ...(importId === undefined ? {} : { import: importId }),
        ...(occasion.what === undefined ? {} : { what: occasion.what }),
        ...(undoes === undefined ? {} : { undoes: whole(undoes) }),
      },
      last: whole(journal.last),
      anyDeleted: journal.anyDeleted,
    },
  );
  if (undoes !== undefined)
    await transaction.run("MATCH (w:Write {first: $undoes}) SET w.undone = $first", {
      undoes,
      first: whole(journal.head.sequence + 1),
    });
}

/** Creations by rising number, in pieces of which each knows its first and last. */
export async function writeCreations(
  transaction: Transaction,
  creations: readonly Creation[],
): Promise<void> {
  for (const piece of pieces(creations, creationsAtOnce))
    await transaction.run(
      "CREATE (b:Creations {first: $first, last: $last, sequences: $sequences, subjects: $subjects})",
      {
        first: whole(piece[0]?.n ?? 0),
        last: whole(piece.at(-1)?.n ?? 0),
        sequences: piece.map(({ n }) => whole(n)),
        subjects: piece.map(creationText),
      },
    );
}

export async function writeEntries(
  transaction: Transaction,
  entries: readonly FullEntry[],
): Promise<void> {
  for (const piece of pieces(entries, entriesAtOnce))
    await transaction.run(
      `UNWIND $rows AS row MERGE (c:Change {sequence: row.sequence})
       ON CREATE SET c += row`,
      { rows: piece.map(entryRow) },
    );
}

/** A subject in one text: an id, or type and both ends. No id and no type holds a space. */
const creationText = (creation: Creation): string =>
  "id" in creation ? creation.id : `${creation.type} ${creation.from} ${creation.to}`;

function entryRow({ sequence, kind, subject, before, after }: FullEntry): Record<string, unknown> {
  return {
    sequence: whole(sequence),
    kind,
    about: subjectText(subject),
    ...(subject.kind === "node"
      ? { from: subject.id }
      : { type: subject.type, from: subject.from, to: subject.to }),
    ...(before === undefined
      ? {}
      : { before: JSON.stringify(before), version: whole(before.version) }),
    ...(after === undefined ? {} : { after: JSON.stringify(after) }),
  };
}
