import type { Command } from "commander";
import { orderRequest } from "../contract/order.contract.ts";
import { readTerms } from "../plans/order/read-terms.ts";
import { type OrderWork, orderKit } from "../plans/order-kit.ts";
import { readRequest } from "../plans/read-request.ts";
import { saveOrders } from "../plans/save-orders.ts";
import { addKitOptions, type KitOptions, kitMembers, kitOptionName } from "./kit-options.ts";
import { openExisting, openForReading } from "./open-graph.ts";
import { bytesOf } from "./read-file.ts";
import { given, readNumber } from "./read-options.ts";
import { sayAside, sayDocument } from "./say.ts";
import { showOrder } from "./show-order.ts";
import { showProgress } from "./show-progress.ts";
import { today } from "./today.ts";
import { writerHere } from "./writer-here.ts";

interface OrderOptions extends KitOptions {
  readonly neededBy?: string;
  readonly orderedOn?: string;
  readonly unknownLead?: boolean;
  readonly terms?: string;
  readonly without?: readonly string[];
  readonly ratesOf?: string;
  readonly seconds?: number;
  readonly save?: boolean;
  readonly papers?: boolean;
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
    .option("--save", "keep the order, one per supplier; receive turns it into stock")
    .option("--papers", "print a line per part for the parcel's papers")
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
      const isKept = options.save === true;
      const graph = await (isKept ? openExisting : openForReading)(options);
      const { progress, finish } = showProgress();
      const work: OrderWork = {
        progress: (spent) => progress("seconds of proof at most", spent, request.seconds ?? 20),
      };
      try {
        if (graph.notice !== undefined) sayAside(graph.notice);
        const saved = isKept
          ? await saveOrders(graph.store, request, today(), writerHere(), work)
          : undefined;
        const answer = saved?.order ?? (await orderKit(graph.store, request, today(), work));
        finish();
        if (options.json === true) sayDocument(saved ?? answer);
        else {
          showOrder(answer, options.papers === true);
          if (saved !== undefined) sayAside(saved.sentence);
        }
      } finally {
        finish();
        await graph.close();
      }
    });
}
