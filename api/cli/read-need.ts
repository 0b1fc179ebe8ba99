import { InvalidArgumentError } from "commander";
import { type NeedName, needNames, needOf } from "../../graph-schema/index.ts";
import { readTyped } from "../../importers/index.ts";

const plain = (text: string): string => text.toLowerCase().replace(/[^\p{L}\p{N}]/gu, "");

/** The need a word means: its name, what it is called, or a column name of an import; in any case, with or without spaces. */
export function needByWord(word: string): NeedName | undefined {
  const wanted = plain(word);
  return needNames.find((name) => {
    const { words, headers } = needOf(name);
    return [name, words, ...Object.values(headers).flat()].some((one) => plain(one) === wanted);
  });
}

const allNeeds = needNames
  .map(
    (name) =>
      `${name} (${[needOf(name).words, needOf(name).unitWords].filter((word) => word !== "").join(", ")})`,
  )
  .join(", ");

/** A need and its figure, in the graph's unit: `workingLoadKg=1500`, `working load=1.5 t`, `swl=3300 lb`. */
export function readNeed(text: string): readonly [NeedName, number] {
  const at = text.indexOf("=");
  const name = at < 1 ? undefined : needByWord(text.slice(0, at));
  if (name === undefined)
    throw new InvalidArgumentError(
      `It must be written as "working load=1500 kg"; received "${text}". What can be needed: ${allNeeds}.`,
    );
  const found = readTyped("Model", name, text.slice(at + 1).trim());
  const value = found?.kind === "values" ? found.values[name] : undefined;
  if (typeof value === "number") return [name, value];
  throw new InvalidArgumentError(
    found?.kind === "fault"
      ? `${needOf(name).words}: ${found.rule.replace(/\.$/, "")}. ${found.remedy.replace(/\.$/, "")}.`
      : `${needOf(name).words}: it must be a figure, such as ${name}=12.`,
  );
}
