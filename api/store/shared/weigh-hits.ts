import { type NodeId, nodeDeclaration } from "../../../graph-schema/index.ts";
import type { NodeRecord } from "../../../importers/change-set.ts";
import type { SearchHit } from "../graph-store.ts";
import type { FoundCode } from "./search-codes.ts";
import { fold, isNumberLike, searchedProperties, squash } from "./search-text.ts";

/** How many matches are weighed against each other; more are found only for very short texts. */
export const weighed = 500;

export const wordsOf = (text: string): readonly string[] =>
  fold(text)
    .split(/[^\p{L}\p{N}]+/u)
    .filter((word) => word !== "");

/**
 * The nodes found as hits: exact numbers first, then exact suppliers' codes, names and codes that begin so, then the
 * rest; at most `limit`.
 *
 * @param codes numbers of relationships by which nodes were found, by node
 */
export function bestFirst(
  nodes: Iterable<NodeRecord>,
  words: readonly string[],
  squashed: string,
  limit: number,
  codes: ReadonlyMap<NodeId, FoundCode> = new Map(),
): readonly SearchHit[] {
  return Array.from(nodes, (node) => weigh(node, words, squashed, codes.get(node.id)))
    .sort(
      (a, b) =>
        a.weight - b.weight ||
        a.name.length - b.name.length ||
        (a.name < b.name ? -1 : Number(a.name > b.name)),
    )
    .slice(0, limit)
    .map(({ hit }) => hit);
}

/** 0 a number or name equal to the text, 0.5 a code, 1 a number that begins so, 1.5 a code, 2 + the rest. */
function weigh(
  node: NodeRecord,
  words: readonly string[],
  squashed: string,
  code: FoundCode | undefined,
) {
  let best = { weight: Number.POSITIVE_INFINITY, property: "", matched: "" };
  searchedProperties(node.label).forEach((property, position) => {
    const value = node.properties[property];
    if (typeof value !== "string") return;
    const weight = weightOf(value, isNumberLike(node.label, property), position, words, squashed);
    if (weight < best.weight) best = { weight, property, matched: value };
  });
  if (code !== undefined) {
    const weight = squash(code.code) === squashed ? 0.5 : 1.5;
    if (weight < best.weight) best = { weight, property: code.property, matched: code.code };
  }
  const { weight, property, matched } = best;
  const name = String(node.properties[nodeDeclaration(node.label).nameFrom] ?? "");
  return { hit: { node, property, matched }, weight, name };
}

function weightOf(
  value: string,
  numberLike: boolean,
  position: number,
  words: readonly string[],
  squashed: string,
): number {
  if (numberLike) {
    const own = squash(value);
    if (own === squashed) return 0;
    if (own.startsWith(squashed)) return 1;
  }
  const own = wordsOf(value);
  const missing = words.filter((word) => !own.some((piece) => piece.startsWith(word)));
  return 2 + position / 10 + missing.length;
}
