import type { NodeLabel } from "../../../graph-schema/index.ts";
import type { NodeRecord } from "../../../importers/change-set.ts";
import type { SearchHit } from "../graph-store.ts";
import { squash } from "../shared/search-text.ts";
import { bestFirst, weighed, wordsOf } from "../shared/weigh-hits.ts";
import type { Transaction } from "./client.ts";
import { decodeNode } from "./codec.ts";
import { searchIndex } from "./migrate.ts";

/** Letters and digits only, so nothing a person types is read as the index's query language. */
const either = (word: string, end = ""): string =>
  `(searchWords:${word}${end} OR searchNumbers:${word}${end})`;

/** As `sqlite/search.ts`, by the server's full-text index over the same folded words and squashed numbers. */
export async function searchNodes(
  transaction: Transaction,
  text: string,
  limit: number,
  labels?: readonly NodeLabel[],
): Promise<readonly SearchHit[]> {
  const words = wordsOf(text);
  if (words.length === 0 || limit < 1) return [];
  const squashed = squash(text);
  const prefixes = words.map((word) => either(word, "*")).join(" AND ");
  const queries = [
    `searchNumbers:${squashed}`,
    words.map((word) => either(word)).join(" AND "),
    `(${prefixes}) OR searchNumbers:${squashed}*`,
  ];
  const nodes = new Map<string, NodeRecord>();
  for (const query of queries) {
    if (nodes.size >= weighed) break;
    for (const [values] of await transaction.rows(
      `CALL db.index.fulltext.queryNodes('${searchIndex}', $query) YIELD node
       WHERE $labels IS NULL OR any(label IN labels(node) WHERE label IN $labels)
       RETURN properties(node) LIMIT ${weighed}`,
      { query, labels: labels ?? null },
    )) {
      const { record } = decodeNode(values);
      nodes.set(record.id, record);
    }
  }
  return bestFirst(nodes.values(), words, squashed, limit);
}
