import type { Command } from "commander";
import { chooseRequest } from "../contract/choose.contract.ts";
import { chooseGear } from "../plans/choose-gear.ts";
import { readRequest } from "../plans/read-request.ts";
import { addKitOptions, type KitOptions, kitMembers, kitOptionName } from "./kit-options.ts";
import { openForReading } from "./open-graph.ts";
import { readNeed } from "./read-need.ts";
import { given, readNumber } from "./read-options.ts";
import { runPlan } from "./run-plan.ts";
import { showChoice } from "./show-choice.ts";
import { today } from "./today.ts";
import { typedMake } from "./typed-make.ts";

interface ChooseOptions extends KitOptions {
  readonly for?: readonly string[];
  readonly new?: string;
  readonly category?: string;
  readonly count?: number;
  readonly serves?: readonly string[];
  readonly hours?: number;
  readonly operations?: number;
  readonly need?: Readonly<Record<string, number>>;
  readonly candidate?: readonly string[];
  readonly leaveOut?: readonly string[];
  readonly typed?: readonly string[];
  readonly turning: boolean;
}

const gather = (text: string, known: readonly string[] = []): readonly string[] => [...known, text];

/** `--need "working load=1500 kg"`, gathered. */
function gatherNeed(
  text: string,
  known: Readonly<Record<string, number>> = {},
): Readonly<Record<string, number>> {
  const [name, figure] = readNeed(text);
  return { ...known, [name]: figure };
}

/** The option that a place in the request came from. */
const optionNames: Readonly<Record<string, string>> = {
  "": "--for or --new",
  "/position": "--new",
  "/position/name": "--new",
  "/position/category": "--category",
  "/position/count": "--count",
  "/position/serves": "--serves",
  "/position/hoursPerDay": "--hours",
  "/position/operationsPerDay": "--operations",
  "/candidates": "--candidate",
  "/without": "--leave-out",
};

export function addChooseCommand(program: Command): void {
  addKitOptions(
    program
      .command("choose")
      .description("which make a position should have: price, spares, suppliers, survival"),
  )
    .option("--for <item>", "fitted item to replace; repeat it for several", gather)
    .option("--new <position>", "a new position instead; needs --category")
    .option("--category <name>", "kind of gear of the new position")
    .option("--count <units>", "how many new units, 1 when absent", readNumber)
    .option("--serves <function>", "function the new gear serves; repeat it for several", gather)
    .option("--hours <hours>", "running hours a day of the new gear", readNumber)
    .option("--operations <number>", "operations a day of the new gear", readNumber)
    .option(
      "--need <figure>",
      'what it must meet, such as "working load=1500 kg"; by default what is fitted now can do',
      gatherNeed,
    )
    .option("--candidate <model>", "a model to weigh; all of the kind when absent", gather)
    .option("--leave-out <model>", "a model not to weigh; repeat it for several", gather)
    .option(
      "--typed <make>",
      'a make on no list here: "Maker / OX-1; 1500 EUR; working load=1000 kg; parts=FILE.csv", or a JSON file',
      gather,
    )
    .option("--no-turning", "do not look for what would turn the verdict")
    .action(async (_options: unknown, command: Command) => {
      const options = command.optsWithGlobals<ChooseOptions>();
      const { objective: _objective, rule: _rule, ...terms } = kitMembers(options);
      const request = readRequest(
        chooseRequest,
        {
          ...terms,
          ...given({
            replace: options.for,
            position:
              options.new === undefined && options.category === undefined
                ? undefined
                : given({
                    name: options.new,
                    category: options.category,
                    count: options.count,
                    serves: options.serves,
                    hoursPerDay: options.hours,
                    operationsPerDay: options.operations,
                  }),
            needs: options.need,
            candidates: options.candidate,
            without: options.leaveOut,
            typed: options.typed?.map(typedMake),
            turning: options.turning ? undefined : false,
          }),
        },
        "The choice asked for",
        (pointer) => optionNames[pointer] ?? kitOptionName(pointer),
      );
      await runPlan(
        options,
        openForReading,
        (store) => chooseGear(store, request, today()),
        showChoice,
      );
    });
}
