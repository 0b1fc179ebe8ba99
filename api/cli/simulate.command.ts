import type { Command } from "commander";
import { simulationRequest } from "../contract/simulation.contract.ts";
import { readRequest } from "../plans/read-request.ts";
import { simulateCrossing } from "../plans/simulate-crossing.ts";
import {
  addCapOptions,
  addKitOptions,
  type KitOptions,
  kitMembers,
  kitOptionName,
} from "./kit-options.ts";
import { openForReading } from "./open-graph.ts";
import { given, readNumber } from "./read-options.ts";
import { runPlan } from "./run-plan.ts";
import { showSimulation } from "./show-simulation.ts";
import { today } from "./today.ts";

interface SimulateOptions extends KitOptions {
  readonly crossings?: number;
  readonly seed?: number;
}

export function addSimulateCommand(program: Command): void {
  addCapOptions(
    addKitOptions(
      program
        .command("simulate")
        .description("play a crossing many times with what is aboard and with the kit"),
    ),
  )
    .option("--crossings <count>", "how often to play it, 100000 when absent", readNumber)
    .option("--seed <number>", "the same seed gives the same figures; 1 when absent", readNumber)
    .action(async (_options: unknown, command: Command) => {
      const options = command.optsWithGlobals<SimulateOptions>();
      const request = readRequest(
        simulationRequest,
        {
          ...kitMembers(options),
          ...given({ crossings: options.crossings, seed: options.seed }),
        },
        "The simulation asked for",
        kitOptionName,
      );
      await runPlan(
        options,
        openForReading,
        (store, progress) =>
          simulateCrossing(store, request, today(), {
            progress: (done, total) => progress("crossings played", done, total),
          }),
        showSimulation,
      );
    });
}
