import { readFileSync } from "node:fs";
import { type Command, InvalidArgumentError } from "commander";
import { Problem } from "../errors/problem.ts";
import { readNumber } from "./read-options.ts";

/** What is to be imagined, as commander gives it. */
export interface WhatIfOptions {
  readonly whatIf?: string;
  readonly replace?: readonly Pair[];
  readonly add?: readonly Pair[];
  readonly remove?: readonly string[];
  readonly loseSupplier?: readonly string[];
  readonly times?: readonly Pair[];
}

type Pair = readonly [string, string];

const pairs =
  (example: string) =>
  (text: string, known: readonly Pair[] = []): readonly Pair[] => {
    const at = text.lastIndexOf("=");
    if (at < 1 || at === text.length - 1) {
      throw new InvalidArgumentError(`It must be written as ${example}.`);
    }
    return [...known, [text.slice(0, at).trim(), text.slice(at + 1).trim()]];
  };
const gather = (text: string, known: readonly string[] = []): readonly string[] => [...known, text];

/** Adds the options by which a command answers for a graph as imagined, beside the graph as it is. */
export function addWhatIfOptions(command: Command): Command {
  return command
    .option("--what-if <file>", "changes to imagine, as JSON; nothing is written")
    .option(
      "--replace <item=model>",
      "imagine another model in an item's place",
      pairs('"Port primary=W50"'),
    )
    .option("--add <position=model>", "imagine one more item", pairs('"Spare winch=W50"'))
    .option("--remove <item>", "imagine an item gone", gather)
    .option("--lose-supplier <name>", "imagine a supplier gone", gather)
    .option(
      "--times <part=factor>",
      "imagine a part failing so many times as often",
      pairs('"A-1=2"'),
    );
}

/** What the options ask to imagine, not yet checked; undefined where they ask nothing. */
export function whatIfMember(options: WhatIfOptions): unknown {
  const { replace, add, remove, loseSupplier, times } = options;
  const typed = {
    replace: replace?.map(([item, model]) => ({ item, model })),
    add: add?.map(([position, model]) => ({ position, model })),
    remove: remove?.map((item) => ({ item })),
    loseSuppliers: loseSupplier,
    rates: times?.map(([part, factor]) => ({ part, times: readNumber(factor) })),
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
