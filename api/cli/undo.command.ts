import type { Command } from "commander";
import { undoChange } from "../plans/changes/undo-change.ts";
import { listImports } from "../plans/list-imports.ts";
import { undoImport } from "../plans/undo-import.ts";
import { groupDigits } from "../plans/words.ts";
import { type GlobalOptions, openExisting } from "./open-graph.ts";
import { commandWriter, runPlan } from "./run-plan.ts";
import { say, sayWords, terminalWidth } from "./say.ts";
import { showProgress } from "./show-progress.ts";
import { renderTable } from "./table.ts";

interface UndoOptions extends GlobalOptions {
  readonly list?: boolean;
}

const saySentence = (answer: { readonly sentence: string }): void => sayWords(answer.sentence);

export function addUndoCommand(program: Command): void {
  program
    .command("undo")
    .description("take back a change whole: an edit, a deletion, pieces used, an import")
    .argument(
      "[change]",
      "its number (see `history`), or an import's file name; the newest when absent",
    )
    .option("--list", "only list the imports")
    .action(async (wanted: string | undefined, _options: unknown, command: Command) => {
      const options = command.optsWithGlobals<UndoOptions>();
      if (options.list === true) {
        await runPlan(options, openExisting, listImports, (history) => {
          say(
            renderTable(
              [
                { header: "File", align: "left", flexible: true, cell: (row) => row.name },
                { header: "Import", align: "left", cell: (row) => row.id },
                { header: "When", align: "left", cell: (row) => row.at },
                { header: "Rows", align: "right", cell: (row) => groupDigits(row.read) },
                { header: "Rejected", align: "right", cell: (row) => groupDigits(row.rejected) },
                { header: "Undone", align: "left", cell: (row) => row.undone ?? "" },
              ],
              history.imports,
              terminalWidth(),
            ),
          );
        });
        return;
      }
      const { progress, finish } = showProgress();
      if (wanted === undefined || /^\d{1,15}$/.test(wanted)) {
        const sequence = wanted === undefined ? undefined : Number(wanted);
        await runPlan(
          options,
          openExisting,
          (store) => undoChange(store, sequence, commandWriter(), progress).finally(finish),
          saySentence,
        );
        return;
      }
      await runPlan(
        options,
        openExisting,
        (store) => undoImport(store, wanted, commandWriter(), progress).finally(finish),
        saySentence,
      );
    });
}
