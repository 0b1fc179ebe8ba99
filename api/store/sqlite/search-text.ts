import { type NodeLabel, nodeDeclaration, type Properties } from "../../../graph-schema/index.ts";
import { nodeColumns } from "./record-columns.ts";

/** Letters and digits only, lower case, without accents: how a number reads when punctuation is ignored. */
export const squash = (text: string): string =>
  text
    .normalize("NFKD")
    .replace(/[^\p{L}\p{N}]+/gu, "")
    .toLowerCase();

/** Which properties of a label are searched, its name first. Imports are found in their own list. */
const searchedNames = new Map<NodeLabel, readonly string[]>();
export function searchedProperties(label: NodeLabel): readonly string[] {
  const known = searchedNames.get(label);
  if (known !== undefined) return known;
  const { nameFrom } = nodeDeclaration(label);
  const names = nodeColumns(label)
    .properties.filter(([, { kind }]) => kind === "text" || kind === "part-number")
    .map(([name]) => name)
    .sort((a, b) => Number(b === nameFrom) - Number(a === nameFrom));
  const searched = label === "Import" ? [] : names;
  searchedNames.set(label, searched);
  return searched;
}

/** Whether a property is also found with its punctuation left out: names and numbers are, prose is not. */
export const isNumberLike = (label: NodeLabel, property: string): boolean => {
  const declaration = nodeDeclaration(label);
  return (
    property === declaration.nameFrom || declaration.properties[property]?.kind === "part-number"
  );
};

/** What the index holds of a node: its words, and its names and numbers squashed. */
export function searchText(
  label: NodeLabel,
  properties: Properties,
): { readonly words: string; readonly numbers: string } | undefined {
  let words = "";
  let numbers = "";
  for (const name of searchedProperties(label)) {
    const value = properties[name];
    if (typeof value !== "string") continue;
    words += words === "" ? value : ` ${value}`;
    if (isNumberLike(label, name)) numbers += ` ${squash(value)}`;
  }
  return words === "" ? undefined : { words, numbers };
}
