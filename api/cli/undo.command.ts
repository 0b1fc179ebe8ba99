import type { Command } from "commander";
import { listImports } from "../plans/list-imports.ts";
import { undoImport } from "../plans/undo-import.ts";
import { groupDigits } from "../plans/words.ts";
import { type GlobalOptions, openExisting } from "./open-graph.ts";
import { say, sayDocument, sayWords, terminalWidth } from "./say.ts";
import { showProgress } from "./show-progress.ts";
import { renderTable } from "./table.ts";

interface UndoOptions extends GlobalOptions {
  readonly list?: boolean;
}

export function addUndoCommand(program: Command): void {
  program
    .command("undo")
    .description("take back a whole import; the latest when none is named")
    .argument("[import]", "id or file name")
    .option("--list", "only list the imports")
    .action(async (wanted: string | undefined, _options: unknown, command: Command) => {
      const options = command.optsWithGlobals<UndoOptions>();
      const graph = await openExisting(options);
      try {
        if (options.list === true) {
          const history = await listImports(graph.store);
          if (options.json === true) sayDocument(history);
          else {
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
          }
          return;
        }
        const { progress, finish } = showProgress();
        const occasion = { who: "command line", at: new Date().toISOString() };
        const answer = await undoImport(graph.store, wanted, occasion, progress).finally(finish);
        if (options.json === true) sayDocument(answer);
        else sayWords(answer.sentence);
      } finally {
        await graph.close();
      }
    });
}
