import type { Command } from "commander";
import { suppliersRequest } from "../contract/suppliers.contract.ts";
import { rankSuppliers } from "../plans/rank-suppliers.ts";
import { readRequest } from "../plans/read-request.ts";
import { type GlobalOptions, openForReading } from "./open-graph.ts";
import { given } from "./read-options.ts";
import { runPlan } from "./run-plan.ts";
import { showSuppliers } from "./show-suppliers.ts";
import {
  addWhatIfOptions,
  type WhatIfOptions,
  whatIfMember,
  whatIfOptionName,
} from "./what-if-options.ts";

interface SuppliersOptions extends GlobalOptions, WhatIfOptions {
  readonly vessel?: string;
  readonly weigh?: readonly string[];
}

export function addSuppliersCommand(program: Command): void {
  addWhatIfOptions(program.command("suppliers"))
    .description("which suppliers cover the most gear, and what only one or nobody sells")
    .option("--vessel <name>", "id or name; the whole fleet when absent")
    .option(
      "--weigh <supplier=number...>",
      "what dealing with a supplier costs, 1 for the others; asks for the least total too",
    )
    .action(async (_options: unknown, command: Command) => {
      const options = command.optsWithGlobals<SuppliersOptions>();
      const request = readRequest(
        suppliersRequest,
        given({
          vessel: options.vessel,
          weights: options.weigh?.map(weightOf),
          whatIf: whatIfMember(options),
        }),
        "What was asked",
        (pointer) =>
          whatIfOptionName(pointer) ??
          (pointer.startsWith("/weights") ? "--weigh" : pointer.replace("/", "--")),
      );
      await runPlan(
        options,
        openForReading,
        (store) => rankSuppliers(store, request),
        showSuppliers,
      );
    });
}

/** `Nordquay=2.5` in parts; what is no number is left for the contract to refuse. */
const weightOf = (text: string): { supplier: string; weight: number | string } => {
  const at = text.lastIndexOf("=");
  const figure = at < 0 ? "" : text.slice(at + 1).trim();
  const weight = figure === "" ? Number.NaN : Number(figure.replace(",", "."));
  return {
    supplier: (at < 0 ? text : text.slice(0, at)).trim(),
    weight: Number.isNaN(weight) ? figure : weight,
  };
};
