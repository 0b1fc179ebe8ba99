import { normaliseHeader } from "../normalise-header.ts";

/** A header taken apart once: its forms in normal form, with what stood in brackets or after "in". */
export interface HeaderForms {
  /** All of it: "weight g". */
  readonly whole: string;
  /** Without brackets, and without a trailing "/ unit", ", unit" or "in unit": "weight". */
  readonly base: string;
  /** What was taken off, as written: "g"; empty if nothing was. */
  readonly aside: string;
  /** All but the last word, and that word as written: "weight" and "g" of "Weight g". */
  readonly butLast: string;
  readonly last: string;
  readonly wholeUnspaced: string;
  readonly baseUnspaced: string;
  /** The base without fillers and plurals, and its words. */
  readonly essence: string;
  readonly words: readonly string[];
}

/** The forms in which a column name is compared with the declared ones. */
export function headerForms(header: string): HeaderForms {
  const spaced = header
    .replace(/_/g, " ")
    .replace(/([\p{Ll}\d])(\p{Lu}\p{Ll})/gu, "$1 $2")
    .trim();
  const bracket = /[([{]\s*([^)\]}]*?)\s*[)\]}]/.exec(spaced);
  const tail = /^(.*\S)(?:\s+(?:in|en|à)\s+|\s*[,/]\s*)([^\s,/]+(?:\/[^\s,/]+)?)$/iu.exec(spaced);
  const aside = bracket?.[1] ?? tail?.[2] ?? "";
  const base = bracket ? spaced.replace(bracket[0], " ") : (tail?.[1] ?? spaced);
  const last = /\s(\S+)$/.exec(spaced)?.[1] ?? "";
  const normalWhole = normaliseHeader(spaced);
  const normalBase = normaliseHeader(base);
  return {
    whole: normalWhole,
    base: normalBase,
    aside,
    butLast: last === "" ? "" : normaliseHeader(spaced.slice(0, -last.length)),
    last,
    wholeUnspaced: unspaced(normalWhole),
    baseUnspaced: unspaced(normalBase),
    essence: essenceOf(normalBase),
    words: normalBase.split(" "),
  };
}

const unspaced = (text: string): string => text.replaceAll(" ", "");

/** Words that carry no meaning of their own in a column name. */
const fillers = new Set(
  "the of a an de la le les du des der die das del el los el van het".split(" "),
);

/** Words for "number", which tells a number from the thing numbered: "item no" is not "item". */
const numberWords = new Set(["number", "nummer", "numero", "num", "nr", "no", "nro", "n"]);

const singular = (word: string): string =>
  word.length > 3 ? word.replace(/(?<=[a-z]{3})(?:s|e|n|en|es)$/, "") : word;

/** True if one letter more, less or other makes the two words equal, or two neighbours are swapped. */
function isOneSlipAway(a: string, b: string): boolean {
  if (Math.abs(a.length - b.length) > 1) return false;
  let start = 0;
  while (start < a.length && start < b.length && a[start] === b[start]) start += 1;
  let end = 0;
  while (end < Math.min(a.length, b.length) - start && a.at(-1 - end) === b.at(-1 - end)) end += 1;
  const left = a.slice(start, a.length - end);
  const right = b.slice(start, b.length - end);
  if (left.length <= 1 && right.length <= 1) return true;
  return left.length === 2 && right.length === 2 && left[0] === right[1] && left[1] === right[0];
}

/** What is left of a name without fillers and plurals; a filler at its end says something: "part of" is no part. */
const essenceOf = (text: string): string =>
  text
    .split(" ")
    .filter((word, at, all) => !fillers.has(word) || at === all.length - 1)
    .map((word) => (numberWords.has(word) ? "no" : singular(word)))
    .join(" ");

interface NameForms {
  readonly unspaced: string;
  readonly essence: string;
  readonly words: readonly string[];
}

const formsByName = new Map<string, NameForms>();

/** The forms of a declared name; worked out once, there are a few hundred. */
function nameForms(name: string): NameForms {
  const before = formsByName.get(name);
  if (before) return before;
  const forms = { unspaced: unspaced(name), essence: essenceOf(name), words: name.split(" ") };
  formsByName.set(name, forms);
  return forms;
}

/**
 * How sure it is that a header means a name, 0 to 1: 1 the same words, .97 the same but for brackets,
 * .95 but for spaces, .9 but for plural or filler words, .75 but for one slip of the pen in a name of seven
 * letters or more, .65 if all words of the name are the header's but one further. Own scale, no source.
 */
export function nameLikeness(header: HeaderForms, name: string): number {
  if (header.whole === name) return 1;
  if (header.base === name) return 0.97;
  const forms = nameForms(name);
  if (header.wholeUnspaced === forms.unspaced) return 0.95;
  if (header.baseUnspaced === forms.unspaced) return 0.94;
  // "Los-Nr.": what is left after the article is no name.
  if (forms.essence === "" || forms.essence === "no") return 0;
  if (header.essence === forms.essence) return 0.9;
  if (name.length >= 7 && header.base.length >= 7 && isOneSlipAway(header.base, name)) return 0.75;
  const { words } = forms;
  if (
    words.length >= 2 &&
    header.words.length === words.length + 1 &&
    words.every((word) => header.words.includes(word))
  ) {
    return 0.65;
  }
  return 0;
}
