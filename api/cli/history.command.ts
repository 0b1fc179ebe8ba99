import type { Command } from "commander";
import { historyRequest } from "../contract/history.contract.ts";
import { listChanges, showChange } from "../plans/changes/list-changes.ts";
import { readRequest } from "../plans/read-request.ts";
import { type GlobalOptions, openExisting } from "./open-graph.ts";
import { given, readNumber } from "./read-options.ts";
import { runPlan } from "./run-plan.ts";
import { say, sayWords, terminalWidth } from "./say.ts";
import { showJournal } from "./show-records.ts";
import { renderTable } from "./table.ts";

interface HistoryOptions extends GlobalOptions {
  readonly limit?: number;
  readonly before?: number;
}

const undoneWords = (undone: { readonly at: string } | null): string =>
  undone === null ? "" : undone.at.slice(0, 16).replace("T", " ");

export function addHistoryCommand(program: Command): void {
  program
    .command("history")
    .description("what was changed, newest first; with a number, one change in full")
    .argument("[change]", "number of a change", readNumber)
    .option("--limit <count>", "most changes, 50 when absent", readNumber)
    .option("--before <number>", "only changes before this one", readNumber)
    .action(async (change: number | undefined, _options: unknown, command: Command) => {
      const options = command.optsWithGlobals<HistoryOptions>();
      if (change !== undefined) {
        await runPlan(
          options,
          openExisting,
          (store) => showChange(store, change),
          (answer) => {
            sayWords(`${answer.change.what} (${answer.change.who}, ${answer.change.at})`);
            showJournal(answer.entries);
          },
        );
        return;
      }
      const request = readRequest(
        historyRequest,
        given({ limit: options.limit, before: options.before }),
        "What was asked",
        (pointer) => pointer.replace("/", "--"),
      );
      await runPlan(
        options,
        openExisting,
        (store) => listChanges(store, request),
        (answer) => {
          say(
            renderTable(
              [
                { header: "Change", align: "right", cell: (row) => String(row.sequence) },
                {
                  header: "When",
                  align: "left",
                  cell: (row) => row.at.slice(0, 16).replace("T", " "),
                },
                { header: "Who", align: "left", dispensable: 1, cell: (row) => row.who },
                { header: "What", align: "left", flexible: true, cell: (row) => row.what },
                { header: "Undone", align: "left", cell: (row) => undoneWords(row.undone) },
              ],
              answer.changes,
              terminalWidth(),
            ),
          );
          sayWords("`sparewright undo NUMBER` takes a change back.");
        },
      );
    });
}
