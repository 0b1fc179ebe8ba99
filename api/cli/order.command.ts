import type { Command } from "commander";
import { orderRequest } from "../contract/order.contract.ts";
import { readTerms } from "../plans/order/read-terms.ts";
import { orderKit } from "../plans/order-kit.ts";
import { readRequest } from "../plans/read-request.ts";
import { addKitOptions, type KitOptions, kitMembers, kitOptionName } from "./kit-options.ts";
import { openForReading } from "./open-graph.ts";
import { bytesOf } from "./read-file.ts";
import { given, readNumber } from "./read-options.ts";
import { sayAside, sayDocument } from "./say.ts";
import { showOrder } from "./show-order.ts";
import { today } from "./today.ts";

interface OrderOptions extends KitOptions {
  readonly neededBy?: string;
  readonly orderedOn?: string;
  readonly unknownLead?: boolean;
  readonly terms?: string;
  readonly without?: readonly string[];
  readonly ratesOf?: string;
  readonly seconds?: number;
}

const optionNames: Readonly<Record<string, string>> = {
  "/neededBy": "--needed-by",
  "/orderedOn": "--ordered-on",
  "/ratesAsOf": "--rates-of",
};

export function addOrderCommand(program: Command): void {
  addKitOptions(
    program
      .command("order")
      .description("what to order from whom, so that the kit is aboard in time at least cost"),
  )
    .option("--needed-by <date>", "day by which it must be aboard, YYYY-MM-DD")
    .option("--ordered-on <date>", "day of ordering; today when absent")
    .option("--unknown-lead", "with --needed-by: count offers whose lead time is not known")
    .option(
      "--terms <file>",
      "suppliers' terms, a CSV: Supplier, Delivery, Free from, Least order, Duty %, Currency",
    )
    .option("--without <supplier...>", "leave a supplier out")
    .option("--rates-of <date>", "day of the exchange rates given with --rate")
    .option("--seconds <number>", "time allowed for the proof, 20 when absent", readNumber)
    .action(async (_options: unknown, command: Command) => {
      const options = command.optsWithGlobals<OrderOptions>();
      const request = readRequest(
        orderRequest,
        {
          ...kitMembers(options),
          ...given({
            neededBy: options.neededBy,
            orderedOn: options.orderedOn,
            unknownLead: options.unknownLead,
            terms:
              options.terms === undefined ? undefined : readTerms(await bytesOf(options.terms)),
            without: options.without,
            ratesAsOf: options.ratesOf,
            seconds: options.seconds,
          }),
        },
        "The order asked for",
        (pointer) =>
          optionNames[pointer] ??
          (pointer.startsWith("/terms") ? "--terms" : kitOptionName(pointer)),
      );
      const graph = await openForReading(options);
      try {
        if (graph.notice !== undefined) sayAside(graph.notice);
        const answer = await orderKit(graph.store, request, today());
        if (options.json === true) sayDocument(answer);
        else showOrder(answer);
      } finally {
        await graph.close();
      }
    });
}
