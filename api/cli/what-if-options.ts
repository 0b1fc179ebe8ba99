import { readFileSync } from "node:fs";
import { type Command, InvalidArgumentError } from "commander";
import type { WhatIf } from "../contract/what-if.contract.ts";
import { Problem } from "../errors/problem.ts";
import { readNumber } from "./read-options.ts";

/** What is to be imagined, as commander gives it. */
export interface WhatIfOptions {
  readonly whatIf?: string;
  readonly replace?: readonly Pair[];
  readonly add?: readonly Added[];
  readonly remove?: readonly string[];
  readonly loseSupplier?: readonly string[];
  readonly times?: readonly Rated[];
}

type Added = NonNullable<WhatIf["add"]>[number];
type Rated = NonNullable<WhatIf["rates"]>[number];

type Pair = readonly [string, string];

/** Both sides of the last `=`; names may hold one themselves. */
function split(text: string, example: string): Pair {
  const at = text.lastIndexOf("=");
  const pair = [text.slice(0, Math.max(0, at)).trim(), text.slice(at + 1).trim()] as const;
  if (at < 1 || pair.includes("")) {
    throw new InvalidArgumentError(
      `It must be written as ${example}, with something on both sides of the =.`,
    );
  }
  return pair;
}

const gatherPair = (text: string, known: readonly Pair[] = []): readonly Pair[] => [
  ...known,
  split(text, '"Port primary=Oakhollow W50"'),
];

/** `"Spare winch=W50 for Trim sails; Hoist sails"`. */
function gatherAdded(text: string, known: readonly Added[] = []): readonly Added[] {
  const [position, rest] = split(text, '"Spare winch=Oakhollow W50 for Trim sails"');
  const [model = "", functions] = rest.split(/ for (.*)/s);
  const serves = functions
    ?.split(";")
    .map((name) => name.trim())
    .filter((name) => name !== "");
  return [...known, { position, model: model.trim(), ...(serves === undefined ? {} : { serves }) }];
}

/** `"0040-07=2"`, or `"0040-07 in W40=2"` for one model only. */
function gatherRated(text: string, known: readonly Rated[] = []): readonly Rated[] {
  const [name, factor] = split(text, '"0040-07=2"');
  const [part = "", model] = name.split(/ in (.*)/s);
  const times = readNumber(factor);
  return [
    ...known,
    { part: part.trim(), times, ...(model === undefined ? {} : { model: model.trim() }) },
  ];
}

function gather(text: string, known: readonly string[] = []): readonly string[] {
  if (text.trim() === "") throw new InvalidArgumentError("It must name something.");
  return [...known, text.trim()];
}

const optionOf: Readonly<Record<string, string>> = {
  replace: "--replace",
  add: "--add",
  remove: "--remove",
  loseSuppliers: "--lose-supplier",
  rates: "--times",
};

/** The option that a place in what is imagined came from; undefined for places outside it. */
export function whatIfOptionName(pointer: string): string | undefined {
  const [, member, list] = pointer.split("/");
  if (member !== "whatIf") return undefined;
  const inFile = `--what-if ${pointer.slice("/whatIf".length)}`.trim();
  const option = optionOf[list ?? ""];
  return option === undefined ? inFile : `${option} or ${inFile}`;
}

/** Adds the options by which a command answers for a graph as imagined, beside the graph as it is. */
export function addWhatIfOptions(command: Command): Command {
  return command
    .option("--what-if <file>", "changes to imagine, as JSON; nothing is written")
    .option(
      "--replace <item=model>",
      'imagine another model, new, in an item\'s place: "Port primary=Oakhollow W50"',
      gatherPair,
    )
    .option(
      "--add <position=model>",
      'imagine one more item: "Spare winch=W50 for Trim sails"; functions after a ;',
      gatherAdded,
    )
    .option("--remove <item>", 'imagine an item taken out; "Vessel: position" where needed', gather)
    .option("--lose-supplier <name>", "imagine that a supplier no longer sells", gather)
    .option(
      "--times <part=factor>",
      'imagine a part failing so many times as often: "0040-07=2", or "0040-07 in W40=2"',
      gatherRated,
    );
}

/** What the options ask to imagine, not yet checked; undefined where they ask nothing. */
export function whatIfMember(options: WhatIfOptions): unknown {
  const { replace, add, remove, loseSupplier, times } = options;
  const typed = {
    replace: replace?.map(([item, model]) => ({ item, model })),
    add,
    remove: remove?.map((item) => ({ item })),
    loseSuppliers: loseSupplier,
    rates: times,
  };
  const asked = Object.entries(typed).filter(([, list]) => list !== undefined);
  if (options.whatIf === undefined) {
    return asked.length === 0 ? undefined : Object.fromEntries(asked);
  }
  const document: unknown = readDocument(options.whatIf, "What is to be imagined");
  if (typeof document !== "object" || document === null || Array.isArray(document)) return document;
  const merged: Record<string, unknown> = { ...document };
  for (const [name, list] of asked) {
    const known = merged[name];
    merged[name] = [...(Array.isArray(known) ? known : []), ...(list ?? [])];
  }
  return merged;
}

/** A JSON document from a file. Errors: `file-unreadable`, `input-invalid`. */
export function readDocument(path: string, what: string): unknown {
  let text: string;
  try {
    text = readFileSync(path, "utf8");
  } catch (cause) {
    throw new Problem(
      "file-unreadable",
      `${what} is read from a file, and ${path} cannot be read. Check the name.`,
      {
        cause,
      },
    );
  }
  try {
    return JSON.parse(text.replace(/^\uFEFF/, ""));
  } catch (cause) {
    throw new Problem(
      "input-invalid",
      `${what} must be one JSON document; ${path} is none (${(cause as Error).message}). Correct the file.`,
      { cause },
    );
  }
}
