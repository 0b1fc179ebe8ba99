import type { NodeId, NodeLabel } from "../../../graph-schema/index.ts";
import type { SearchHit } from "../graph-store.ts";
import { squash } from "../shared/search-text.ts";
import { bestFirst, weighed, wordsOf } from "../shared/weigh-hits.ts";
import type { Connection } from "./connection.ts";
import { readNode } from "./read-records.ts";

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
  const nodes = [...ids].flatMap((id) => readNode(connection, id)?.record ?? []);
  return bestFirst(nodes, words, squashed, limit);
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
