import { type NodeId, type NodeLabel, quoteName } from "../../../graph-schema/index.ts";
import type { SearchHit } from "../graph-store.ts";
import { codedRelationships, type FoundCode } from "../shared/search-codes.ts";
import { squash } from "../shared/search-text.ts";
import { bestFirst, weighed, wordsOf } from "../shared/weigh-hits.ts";
import type { Connection } from "./connection.ts";
import { nodesOf } from "./read-records.ts";

const quoted = (word: string): string => `"${word.replaceAll('"', '""')}"`;

const prefixesOf = (words: readonly string[]): string =>
  words.map((word) => `words : ${quoted(word)} *`).join(" AND ");

/** The index's query for nodes that answer to a text by their own words or number; undefined for a text without any. */
export function wordsQuery(text: string): string | undefined {
  const words = wordsOf(text);
  return words.length === 0
    ? undefined
    : `(${prefixesOf(words)}) OR (numbers : ${quoted(squash(text))} *)`;
}

/**
 * Nodes that hold every word of the text as the beginning of a word, or whose name or number begins with
 * the text when punctuation is left out, and parts a supplier's code for which does; best first.
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
  const exactNumber = `numbers : ${quoted(squashed)}`;
  const numberPrefix = `${exactNumber} *`;
  const codes = codesFound(connection, [exactNumber, numberPrefix], labels);
  const ids = new Set<NodeId>(codes.keys());
  const wholeWords = words.map((word) => `words : ${quoted(word)}`).join(" AND ");
  for (const query of [exactNumber, numberPrefix, wholeWords, prefixesOf(words)]) {
    if (query !== exactNumber && ids.size >= weighed) break;
    for (const id of matches(connection, query, labels)) ids.add(id);
  }
  const nodes = nodesOf(connection, [...ids]).map(({ record }) => record);
  return bestFirst(nodes, words, squashed, limit, codes);
}

const amongLabels = (alias: string, labels: readonly NodeLabel[] | undefined): string =>
  labels === undefined ? "" : `AND ${alias}.label IN (${labels.map(() => "?").join(", ")})`;

function matches(
  connection: Connection,
  query: string,
  labels: readonly NodeLabel[] | undefined,
): readonly NodeId[] {
  return connection
    .rows(
      `SELECT node.id FROM search JOIN node ON node.n = search.rowid WHERE search MATCH ? ${amongLabels("node", labels)} LIMIT ${weighed}`,
      query,
      ...(labels ?? []),
    )
    .map((row) => row[0] as NodeId);
}

/** Nodes to which relationships lead whose own number answers: parts, by their suppliers' codes. */
function codesFound(
  connection: Connection,
  queries: readonly string[],
  labels: readonly NodeLabel[] | undefined,
): ReadonlyMap<NodeId, FoundCode> {
  const found = new Map<NodeId, FoundCode>();
  for (const [type, property] of codedRelationships) {
    for (const query of queries) {
      if (found.size >= weighed) break;
      const rows = connection.rows(
        `SELECT b.id, r.${quoteName(property)} FROM search JOIN ${quoteName(type)} r ON r.n = search.rowid JOIN node b ON b.n = r.toNode WHERE search MATCH ? ${amongLabels("b", labels)} LIMIT ${weighed}`,
        query,
        ...(labels ?? []),
      );
      for (const row of rows) {
        const id = row[0] as NodeId;
        if (!found.has(id))
          found.set(id, { property: `${type}.${property}`, code: String(row[1]) });
      }
    }
  }
  return found;
}
