import type { Command } from "commander";
import { minorDigits } from "../../graph-schema/index.ts";
import { standardiseRequest } from "../contract/standardise.contract.ts";
import { readRequest } from "../plans/read-request.ts";
import { standardiseGear } from "../plans/standardise-gear.ts";
import { addKitOptions, type KitOptions, kitMembers, kitOptionName } from "./kit-options.ts";
import { openForReading } from "./open-graph.ts";
import { given, readNumber } from "./read-options.ts";
import { runPlan } from "./run-plan.ts";
import { showStandard } from "./show-standard.ts";
import { today } from "./today.ts";

interface StandardiseOptions extends KitOptions {
  readonly budget?: number;
  readonly years?: number;
  readonly supplierYearly?: number;
  readonly kitYearly?: number;
  readonly fitting?: number;
  readonly category?: readonly string[];
  readonly seconds?: number;
}

const gather = (text: string, known: readonly string[] = []): readonly string[] => [...known, text];

const optionNames: Readonly<Record<string, string>> = {
  "/budgetMinor": "--budget",
  "/horizonYears": "--years",
  "/supplierYearlyMinor": "--supplier-yearly",
  "/kitYearlyMinor": "--kit-yearly",
  "/fittingMinor": "--fitting",
};

export function addStandardiseCommand(program: Command): void {
  addKitOptions(
    program
      .command("standardise")
      .description("what to keep and what to change, so that fewer makes cost less"),
  )
    .option(
      "--budget <amount>",
      "most that changes may cost, in whole units such as 5000",
      readNumber,
    )
    .option("--years <years>", "horizon of the yearly charges, 5 when absent", readNumber)
    .option(
      "--supplier-yearly <amount>",
      "what one supplier costs a year, 100 when absent",
      readNumber,
    )
    .option("--kit-yearly <amount>", "what one spares kit costs a year, 25 when absent", readNumber)
    .option("--fitting <amount>", "what fitting one item costs beside its price", readNumber)
    .option("--category <name>", "a kind of gear that may change; repeat it for several", gather)
    .option("--seconds <seconds>", "time for the search and its proof, 20 when absent", readNumber)
    .action(async (_options: unknown, command: Command) => {
      const options = command.optsWithGlobals<StandardiseOptions>();
      const { objective: _objective, rule: _rule, ...terms } = kitMembers(options);
      // Amounts are typed in whole units of the currency; the document holds minor ones.
      const digits = minorDigits(options.currency?.toUpperCase() ?? "EUR");
      const minor = (amount: number | undefined): number | undefined =>
        amount === undefined ? undefined : Math.round(amount * 10 ** digits);
      const request = readRequest(
        standardiseRequest,
        {
          ...terms,
          ...given({
            budgetMinor: minor(options.budget),
            horizonYears: options.years,
            supplierYearlyMinor: minor(options.supplierYearly),
            kitYearlyMinor: minor(options.kitYearly),
            fittingMinor: minor(options.fitting),
            categories: options.category,
            seconds: options.seconds,
          }),
        },
        "What was asked",
        (pointer) => optionNames[pointer] ?? kitOptionName(pointer),
      );
      await runPlan(
        options,
        openForReading,
        (store, progress) => standardiseGear(store, request, today(), { progress }),
        showStandard,
      );
    });
}
