import type { Command } from "commander";
import { type KitRequest, kitRequest } from "../contract/kit.contract.ts";
import { planKit } from "../plans/plan-kit.ts";
import { readRequest } from "../plans/read-request.ts";
import { type GlobalOptions, openForReading } from "./open-graph.ts";
import { gatherRate, given, readNumber } from "./read-options.ts";
import { sayAside, sayDocument } from "./say.ts";
import { showKit } from "./show-kit.ts";
import { today } from "./today.ts";

interface KitOptions extends GlobalOptions {
  readonly vessel?: string;
  readonly crossing?: string;
  readonly days?: number;
  readonly longest?: number;
  readonly departs?: string;
  readonly margin?: number;
  readonly targetSafety?: number;
  readonly targetPassage?: number;
  readonly targetComfort?: number;
  readonly objective?: string;
  readonly rule?: string;
  readonly robbing: boolean;
  readonly currency?: string;
  readonly rate?: Readonly<Record<string, number>>;
  readonly why?: boolean;
}

/** Option of each member of the request, so that a fault names what was typed. */
const optionNames: Readonly<Record<string, string>> = {
  "/daysExpected": "--days",
  "/daysLongest": "--longest",
  "/marginDays": "--margin",
  "/targets/safety": "--target-safety",
  "/targets/passage": "--target-passage",
  "/targets/comfort": "--target-comfort",
};

const optionName = (pointer: string): string =>
  optionNames[pointer] ??
  (pointer.startsWith("/rates") ? "--rate" : pointer.replace(/^\/(\w+).*/, "--$1"));

function requestOf(options: KitOptions): KitRequest {
  const targets = given({
    safety: options.targetSafety,
    passage: options.targetPassage,
    comfort: options.targetComfort,
  });
  const request = given({
    vessel: options.vessel,
    crossing: options.crossing,
    departs: options.departs,
    daysExpected: options.days,
    daysLongest: options.longest,
    marginDays: options.margin,
    targets: Object.keys(targets).length === 0 ? undefined : targets,
    objective: options.objective,
    rule: options.rule,
    robbing: options.robbing ? undefined : false,
    currency: options.currency?.toUpperCase(),
    rates: options.rate,
  });
  return readRequest(kitRequest, request, "The kit asked for", optionName);
}

export function addKitCommand(program: Command): void {
  program
    .command("kit")
    .description("the least kit that carries a vessel over a crossing, and why")
    .option("--vessel <name>", "id or name; the first that sails when absent")
    .option("--crossing <name>", "id or name; the next crossing when absent")
    .option("--days <days>", "days the crossing should take", readNumber)
    .option("--longest <days>", "days of the longest case; the kit is sized on it", readNumber)
    .option("--departs <date>", "day of departure, YYYY-MM-DD")
    .option("--margin <days>", "days after arrival for which dates must still hold", readNumber)
    .option("--target-safety <chance>", "chance of not running short, .99 when absent", readNumber)
    .option("--target-passage <chance>", "the same, .95 when absent", readNumber)
    .option("--target-comfort <chance>", "the same, .80 when absent", readNumber)
    .option("--objective <what>", "what to keep least: cost, mass, volume or pieces")
    .option("--rule <rule>", '"kit" (the whole tier) or "each part"')
    .option("--no-robbing", "parts are not taken from redundant gear")
    .option("--currency <code>", "currency to reckon in, such as EUR")
    .option("--rate <pair>", "what another currency is worth, such as USD=0.92", gatherRate)
    .option("--why", "say for every line which gear asks for it, and on what evidence")
    .action(async (_options: unknown, command: Command) => {
      const options = command.optsWithGlobals<KitOptions>();
      const request = requestOf(options);
      const graph = await openForReading(options);
      try {
        if (graph.notice !== undefined) sayAside(graph.notice);
        const answer = await planKit(graph.store, request, today());
        if (options.json === true) sayDocument(answer);
        else showKit(answer, options.why === true);
      } finally {
        await graph.close();
      }
    });
}
