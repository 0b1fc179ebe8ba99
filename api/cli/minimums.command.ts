import { basename } from "node:path";
import type { Command } from "commander";
import { decodeText } from "../../importers/index.ts";
import { minimumsRequest } from "../contract/minimums.contract.ts";
import { checkMinimums } from "../plans/check-minimums.ts";
import { readRequest } from "../plans/read-request.ts";
import {
  addCapOptions,
  addKitOptions,
  type KitOptions,
  kitMembers,
  kitOptionName,
} from "./kit-options.ts";
import { openForReading } from "./open-graph.ts";
import { bytesOf } from "./read-file.ts";
import { given } from "./read-options.ts";
import { runPlan } from "./run-plan.ts";
import { showMinimums } from "./show-minimums.ts";
import { today } from "./today.ts";

interface MinimumsOptions extends KitOptions {
  readonly own?: string;
}

export function addMinimumsCommand(program: Command): void {
  addCapOptions(
    addKitOptions(
      program
        .command("minimums")
        .argument("[lists...]", "ids of published minimum lists; all of them when none is named")
        .description("hold what is aboard and the kit against published minimum lists")
        .option("--own <file>", "a list of your own, a CSV in the columns of a published one"),
    ),
  ).action(async (lists: readonly string[], _options: unknown, command: Command) => {
    const options = command.optsWithGlobals<MinimumsOptions>();
    const own =
      options.own === undefined
        ? undefined
        : { name: basename(options.own), text: decodeText(await bytesOf(options.own)).text };
    const request = readRequest(
      minimumsRequest,
      { ...kitMembers(options), ...given({ lists: lists.length > 0 ? lists : undefined, own }) },
      "What was asked",
      (pointer) => (pointer.startsWith("/own") ? "--own" : kitOptionName(pointer)),
    );
    await runPlan(
      options,
      openForReading,
      (store) => checkMinimums(store, request, today()),
      showMinimums,
    );
  });
}
