import type { Command } from "commander";
import { commonalityRequest } from "../contract/commonality.contract.ts";
import { measureCommonality } from "../plans/measure-commonality.ts";
import { readRequest } from "../plans/read-request.ts";
import { type GlobalOptions, openForReading } from "./open-graph.ts";
import { given } from "./read-options.ts";
import { runPlan } from "./run-plan.ts";
import { showCommonality } from "./show-commonality.ts";
import {
  addWhatIfOptions,
  type WhatIfOptions,
  whatIfMember,
  whatIfOptionName,
} from "./what-if-options.ts";

interface CommonalityOptions extends GlobalOptions, WhatIfOptions {
  readonly vessel?: string;
  readonly category?: string;
}

export function addCommonalityCommand(program: Command): void {
  addWhatIfOptions(program.command("commonality"))
    .description("how alike the gear is, and how many different spares kits it needs")
    .option("--vessel <name>", "id or name; the whole fleet when absent")
    .option("--category <name>", "one kind of gear only")
    .action(async (_options: unknown, command: Command) => {
      const options = command.optsWithGlobals<CommonalityOptions>();
      const request = readRequest(
        commonalityRequest,
        given({
          vessel: options.vessel,
          category: options.category,
          whatIf: whatIfMember(options),
        }),
        "What was asked",
        (pointer) => whatIfOptionName(pointer) ?? pointer.replace("/", "--"),
      );
      await runPlan(
        options,
        openForReading,
        (store) => measureCommonality(store, request),
        showCommonality,
      );
    });
}
