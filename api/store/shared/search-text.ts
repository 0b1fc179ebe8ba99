import { type NodeLabel, nodeDeclaration, type Properties } from "../../../graph-schema/index.ts";

/** Letters that decomposition leaves whole, as they are written without their own key. */
const spelledOut: Readonly<Record<string, string>> = {
  ß: "ss",
  æ: "ae",
  œ: "oe",
  ø: "o",
  ł: "l",
  đ: "d",
  ð: "d",
  þ: "th",
  ı: "i",
};
const beyondAscii = /\P{ASCII}/u;

/** Lower case without accents, the same for what is searched and for what is looked for. */
export function fold(text: string): string {
  const lower = text.toLowerCase();
  if (!beyondAscii.test(lower)) return lower;
  return lower
    .normalize("NFKD")
    .replace(/\p{M}+/gu, "")
    .replace(/[ßæœøłđðþı]/g, (letter) => spelledOut[letter] ?? letter);
}

/** Letters and digits only, folded: how a number reads when punctuation is ignored. */
export const squash = (text: string): string => fold(text).replace(/[^\p{L}\p{N}]+/gu, "");

/** Which properties of a label are searched, its name first. Imports are found in their own list. */
const searchedNames = new Map<NodeLabel, readonly string[]>();
export function searchedProperties(label: NodeLabel): readonly string[] {
  const known = searchedNames.get(label);
  if (known !== undefined) return known;
  const { nameFrom, properties } = nodeDeclaration(label);
  const names = Object.entries(properties)
    .filter(([, { kind }]) => kind === "text" || kind === "part-number")
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
    const folded = fold(value);
    words += words === "" ? folded : ` ${folded}`;
    if (isNumberLike(label, name)) numbers += ` ${squash(value)}`;
  }
  return words === "" ? undefined : { words, numbers };
}
