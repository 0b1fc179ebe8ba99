import type { Command } from "commander";
import { kitRequest } from "../contract/kit.contract.ts";
import { usualSeconds } from "../plans/kit/provide-kit.ts";
import { planKit } from "../plans/plan-kit.ts";
import { readRequest } from "../plans/read-request.ts";
import {
  addCapOptions,
  addKitOptions,
  type KitOptions,
  kitMembers,
  kitOptionName,
} from "./kit-options.ts";
import { openForReading } from "./open-graph.ts";
import { runPlan } from "./run-plan.ts";
import { showKit } from "./show-kit.ts";
import { today } from "./today.ts";

export function addKitCommand(program: Command): void {
  addCapOptions(
    addKitOptions(
      program
        .command("kit")
        .description("the least kit that carries a vessel over a crossing, and why"),
    ),
  )
    .option("--why", "say for every line which gear asks for it, and on what evidence")
    .action(async (_options: unknown, command: Command) => {
      const options = command.optsWithGlobals<KitOptions & { readonly why?: boolean }>();
      const request = readRequest(
        kitRequest,
        kitMembers(options),
        "The kit asked for",
        kitOptionName,
      );
      await runPlan(
        options,
        openForReading,
        (store, progress) =>
          planKit(store, request, today(), {
            progress: ({ seconds }) =>
              progress("seconds of proof", Math.round(seconds), request.seconds ?? usualSeconds),
          }),
        (answer) => showKit(answer, options.why === true),
      );
    });
}
