import type { Command } from "commander";
import { receiveRequest } from "../contract/orders.contract.ts";
import { readRequest } from "../plans/read-request.ts";
import { receiveOrder } from "../plans/receive-order.ts";
import { groupDigits } from "../plans/words.ts";
import { type GlobalOptions, openExisting } from "./open-graph.ts";
import { given } from "./read-options.ts";
import { say, sayCautions, sayDocument, sayNotices, sayWords, terminalWidth } from "./say.ts";
import { renderTable } from "./table.ts";
import { today } from "./today.ts";
import { writerHere } from "./writer-here.ts";

interface ReceiveOptions extends GlobalOptions {
  readonly into?: string;
  readonly vessel?: string;
  readonly on?: string;
  readonly expires?: readonly string[];
}

/** `PART=2029-03-31` in parts; what is no date is left for the contract to refuse. */
const dateOf = (text: string): { part: string; expires: string } => {
  const at = text.lastIndexOf("=");
  return { part: at < 0 ? text : text.slice(0, at), expires: at < 0 ? "" : text.slice(at + 1) };
};

export function addReceiveCommand(program: Command): void {
  program
    .command("receive")
    .argument("<order>", "the order that has come, by its number or id")
    .description("turn an order that has come into stock where it was put")
    .option("--into <locker>", "locker it was put in; aboard without one when absent")
    .option("--vessel <name>", "vessel it was put aboard; the order's own when absent")
    .option("--on <date>", "day it came; today when absent")
    .option("--expires <part=date...>", "use-by date on a packet: 0040-07=2029-03-31")
    .action(async (word: string, _options: unknown, command: Command) => {
      const options = command.optsWithGlobals<ReceiveOptions>();
      const request = readRequest(
        receiveRequest,
        given({
          into: options.into,
          vessel: options.vessel,
          on: options.on,
          dates: options.expires?.map(dateOf),
        }),
        "What was asked",
        (pointer) => (pointer.startsWith("/dates") ? "--expires" : pointer.replace("/", "--")),
      );
      const graph = await openExisting(options);
      try {
        const answer = await receiveOrder(graph.store, word, request, today(), writerHere());
        if (options.json === true) {
          sayDocument(answer);
          return;
        }
        sayWords(answer.sentence);
        say(
          renderTable(
            [
              { header: "Part", align: "left", cell: (lot) => lot.part.name },
              { header: "Description", align: "left", flexible: true, cell: (l) => l.description },
              { header: "Pieces", align: "right", cell: (lot) => groupDigits(lot.pieces) },
              { header: "Put in", align: "left", flexible: true, cell: (lot) => lot.place },
              {
                header: "Lot",
                align: "left",
                dispensable: 1,
                cell: (lot) => (lot.added ? "added to one there" : "new"),
              },
            ],
            answer.lots,
            terminalWidth(),
          ),
        );
        sayNotices(answer.notices);
        sayCautions(answer.cautions);
      } finally {
        await graph.close();
      }
    });
}
