import { isCurrency, importFile as proposeFile } from "../../importers/index.ts";
import type { ImportAnswer, ImportOptions } from "../contract/import.contract.ts";
import { Problem } from "../errors/problem.ts";
import type { GraphStore, WriteOccasion, WriteReceipt } from "../store/graph-store.ts";
import { askKnownGraph } from "./ask-known-graph.ts";
import { hashFile, reportProposal } from "./import/report-proposal.ts";

const delimiterOf = { comma: ",", semicolon: ";", tab: "\t", pipe: "|" } as const;

export interface ImportSource {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** Told as the work goes on: reading, then writing; `done` never falls within a stage. */
export type ImportProgress = (
  stage: "rows read" | "changes written" | "demo files",
  done: number,
  total: number,
) => void;

/**
 * Takes a file in, or on a dry run only says what it would change. Committing applies exactly the changes the
 * answer tells of, in one transaction; a graph that has moved on in between is refused, not guessed at.
 * Errors: `file-empty`, `file-binary`, `columns-unmatched`, `input-invalid`, `write-stale`, `key-taken`, those of
 * the store. Faults of single rows stand in the answer.
 */
export async function importFile(
  store: GraphStore,
  source: ImportSource,
  options: ImportOptions,
  occasion: Pick<WriteOccasion, "who" | "at">,
  progress?: ImportProgress,
): Promise<ImportAnswer> {
  const { dryRun = false, delimiter, ...settings } = options;
  if (settings.currency !== undefined && !isCurrency(settings.currency)) {
    throw new Problem(
      "input-invalid",
      `A currency must be one of ISO 4217; received "${settings.currency}". Write its three-letter code, such as EUR.`,
      { places: [{ pointer: "/currency", detail: "no currency of ISO 4217" }] },
    );
  }
  let furthest = 0;
  const proposal = await askKnownGraph(store, async (known) => {
    const proposed = await proposeFile(source.bytes, known, {
      ...settings,
      delimiter: delimiter === undefined ? undefined : delimiterOf[delimiter],
      progress: (done, total) => {
        // The file may be read again; what is told never falls.
        if (done <= furthest) return;
        furthest = done;
        progress?.("rows read", done, total);
      },
    });
    // The changes are made when first asked for, and must ask the graph while it can still catch up.
    if (known.catchUp !== undefined && !dryRun) void proposed.changeSet;
    return proposed;
  });
  const sha256 = hashFile(source.bytes);
  let receipt: WriteReceipt | undefined;
  if (!dryRun && proposal.changeSet.changes.length > 0) {
    const { rows, matching } = proposal;
    const importOf = {
      fileName: source.name,
      fileHash: sha256,
      listKind: matching.kind,
      read: rows.read,
      accepted: rows.accepted,
      rejected: rows.rejected,
      skipped: rows.skipped,
    };
    receipt = await store.apply(proposal.changeSet, { ...occasion, importOf }, (done, total) =>
      progress?.("changes written", done, total),
    );
  }
  const report = reportProposal(proposal, { ...source, sha256 }, dryRun);
  return {
    ...report,
    committed: !dryRun,
    ...(receipt?.importId === undefined
      ? {}
      : { import: { id: receipt.importId, name: source.name } }),
  };
}
