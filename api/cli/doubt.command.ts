import type { Command } from "commander";
import { doubtRequest } from "../contract/doubt.contract.ts";
import { readRequest } from "../plans/read-request.ts";
import { weighDoubt } from "../plans/weigh-doubt.ts";
import { addKitOptions, type KitOptions, kitMembers, kitOptionName } from "./kit-options.ts";
import { openForReading } from "./open-graph.ts";
import { given, readNumber } from "./read-options.ts";
import { runPlan } from "./run-plan.ts";
import { showDoubt } from "./show-doubt.ts";
import { today } from "./today.ts";

interface DoubtOptions extends KitOptions {
  readonly rough?: number;
  readonly most?: number;
}

export function addDoubtCommand(program: Command): void {
  addKitOptions(
    program
      .command("doubt")
      .description("how far a kit rests on guesses, and which rates would change it"),
  )
    .option(
      "--rough <shape>",
      "how alike passages are in roughness (gamma shape); 1.283 when absent, more = more alike",
      readNumber,
    )
    .option("--most <count>", "rates listed, widest swing first; 25 when absent", readNumber)
    .action(async (_options: unknown, command: Command) => {
      const options = command.optsWithGlobals<DoubtOptions>();
      const request = readRequest(
        doubtRequest,
        { ...kitMembers(options), ...given({ roughShape: options.rough, most: options.most }) },
        "What was asked",
        (pointer) => (pointer === "/roughShape" ? "--rough" : kitOptionName(pointer)),
      );
      await runPlan(
        options,
        openForReading,
        (store, progress) =>
          weighDoubt(store, request, today(), {
            progress: (done, total) => progress("rates halved and doubled", done, total),
          }),
        showDoubt,
      );
    });
}
