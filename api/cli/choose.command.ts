import { readFileSync } from "node:fs";
import { type Command, InvalidArgumentError } from "commander";
import { needNames } from "../../graph-schema/index.ts";
import { chooseRequest } from "../contract/choose.contract.ts";
import { Problem } from "../errors/problem.ts";
import { chooseGear } from "../plans/choose-gear.ts";
import { readRequest } from "../plans/read-request.ts";
import { addKitOptions, type KitOptions, kitMembers, kitOptionName } from "./kit-options.ts";
import { openForReading } from "./open-graph.ts";
import { given, readNumber } from "./read-options.ts";
import { sayAside, sayDocument } from "./say.ts";
import { showChoice } from "./show-choice.ts";
import { today } from "./today.ts";
import { readDocument } from "./what-if-options.ts";

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
  readonly typed?: readonly string[];
  readonly turning: boolean;
}

const gather = (text: string, known: readonly string[] = []): readonly string[] => [...known, text];

/** `--need workingLoadKg=1500`, gathered. */
function gatherNeed(
  text: string,
  known: Readonly<Record<string, number>> = {},
): Readonly<Record<string, number>> {
  const [name = "", figure = ""] = text.split("=").map((piece) => piece.trim());
  if (!needNames.some((need) => need === name) || figure === "") {
    throw new InvalidArgumentError(
      `It must be written as workingLoadKg=1500; the needs are ${needNames.join(", ")}.`,
    );
  }
  return { ...known, [name]: readNumber(figure) };
}

/** A candidate's JSON, in which `partsFile` and `offersFile` may stand for lists kept beside it. */
function typedCandidate(path: string): unknown {
  const document = readDocument(path, "A candidate typed in");
  if (typeof document !== "object" || document === null || Array.isArray(document)) return document;
  const { partsFile, offersFile, ...rest } = document as Record<string, unknown>;
  return {
    ...rest,
    ...(typeof partsFile === "string" ? { partsCsv: textOf(partsFile) } : {}),
    ...(typeof offersFile === "string" ? { offersCsv: textOf(offersFile) } : {}),
  };
}

function textOf(path: string): string {
  try {
    return readFileSync(path, "utf8");
  } catch (cause) {
    throw new Problem(
      "file-unreadable",
      `A candidate's list is read from a file, and ${path} cannot be read. Check the name.`,
      { cause },
    );
  }
}

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
      "what it must meet, such as workingLoadKg=1500; by default what is fitted now can do",
      gatherNeed,
    )
    .option("--candidate <model>", "a model to weigh; all of the kind when absent", gather)
    .option(
      "--typed <file>",
      "a candidate that is in no catalogue, as JSON; partsFile names its parts list",
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
            typed: options.typed?.map(typedCandidate),
            turning: options.turning ? undefined : false,
          }),
        },
        "The choice asked for",
        (pointer) => (pointer === "" ? "--for or --new" : kitOptionName(pointer)),
      );
      const graph = await openForReading(options);
      try {
        if (graph.notice !== undefined) sayAside(graph.notice);
        const answer = await chooseGear(graph.store, request, today());
        if (options.json === true) sayDocument(answer);
        else showChoice(answer);
      } finally {
        await graph.close();
      }
    });
}
