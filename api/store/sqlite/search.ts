import { type NodeId, type NodeLabel, nodeDeclaration } from "../../../graph-schema/index.ts";
import type { NodeRecord } from "../../../importers/change-set.ts";
import type { SearchHit } from "../graph-store.ts";
import type { Connection } from "./connection.ts";
import { readNode } from "./read-records.ts";
import { fold, isNumberLike, searchedProperties, squash } from "./search-text.ts";

/** How many matches are weighed against each other; more are found only for very short texts. */
const weighed = 500;

const wordsOf = (text: string): readonly string[] =>
  fold(text)
    .split(/[^\p{L}\p{N}]+/u)
    .filter((word) => word !== "");
const quoted = (word: string): string => `"${word.replaceAll('"', '""')}"`;

/**
 * Nodes that hold every word of the text as the beginning of a word, or whose name or number begins with
 * the text when punctuation is left out; exact numbers first, then names that begin so, then the rest.
 */
export function searchNodes(
  connection: Connection,
  text: string,
  limit: number,
  labels?: readonly NodeLabel[],
): readonly SearchHit[] {
  const words = wordsOf(text);
  if (words.length === 0 || limit < 1) return [];
  const squashed = squash(text);
  const whole = words.map(quoted).join(" AND ");
  const prefixes = words.map((word) => `${quoted(word)} *`).join(" AND ");
  const queries = [
    `numbers : ${quoted(squashed)}`,
    whole,
    `(${prefixes}) OR (numbers : ${quoted(squashed)} *)`,
  ];
  const ids = new Set<NodeId>();
  for (const query of queries) {
    if (ids.size >= weighed) break;
    for (const id of matches(connection, query, labels)) ids.add(id);
  }
  const hits: { readonly hit: SearchHit; readonly weight: number; readonly name: string }[] = [];
  for (const id of ids) {
    const node = readNode(connection, id)?.record;
    if (node !== undefined) hits.push(weigh(node, words, squashed));
  }
  return hits
    .sort(
      (a, b) =>
        a.weight - b.weight ||
        a.name.length - b.name.length ||
        (a.name < b.name ? -1 : Number(a.name > b.name)),
    )
    .slice(0, limit)
    .map(({ hit }) => hit);
}

function matches(
  connection: Connection,
  query: string,
  labels: readonly NodeLabel[] | undefined,
): readonly NodeId[] {
  const among =
    labels === undefined ? "" : `AND node.label IN (${labels.map(() => "?").join(", ")})`;
  return connection
    .rows(
      `SELECT node.id FROM search JOIN node ON node.n = search.rowid WHERE search MATCH ? ${among} LIMIT ${weighed}`,
      query,
      ...(labels ?? []),
    )
    .map((row) => row[0] as NodeId);
}

/** 0 a number or name equal to the text, 1 one that begins so, 2 a name with the words, 3 + the rest. */
function weigh(node: NodeRecord, words: readonly string[], squashed: string) {
  let best = { weight: Number.POSITIVE_INFINITY, property: "", matched: "" };
  searchedProperties(node.label).forEach((property, position) => {
    const value = node.properties[property];
    if (typeof value !== "string") return;
    const weight = weightOf(value, isNumberLike(node.label, property), position, words, squashed);
    if (weight < best.weight) best = { weight, property, matched: value };
  });
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
