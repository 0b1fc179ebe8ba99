import type { NodeId, NodeLabel } from "../../../graph-schema/index.ts";
import type { NodeRecord } from "../../../importers/change-set.ts";
import type { SearchHit } from "../graph-store.ts";
import { codedRelationships, type FoundCode } from "../shared/search-codes.ts";
import { squash } from "../shared/search-text.ts";
import { bestFirst, weighed, wordsOf } from "../shared/weigh-hits.ts";
import type { Transaction } from "./client.ts";
import { decodeNode } from "./codec.ts";
import { searchIndex } from "./migrate.ts";
import { nodesById, ticked } from "./read-records.ts";

// Words and squashed numbers hold letters and digits only, so nothing a person types is read as the index's language.
const prefixesOf = (words: readonly string[]): string =>
  words.map((word) => `searchWords:${word}*`).join(" AND ");

/** The index's query for nodes that answer to a text by their own words or number; undefined for a text without any. */
export function wordsQuery(text: string): string | undefined {
  const words = wordsOf(text);
  return words.length === 0
    ? undefined
    : `(${prefixesOf(words)}) OR searchNumbers:${squash(text)}*`;
}

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
  const codes = await codesFound(transaction, squashed, labels);
  const nodes = new Map<NodeId, NodeRecord>();
  for (const { record } of await nodesById(transaction, codes.keys())) nodes.set(record.id, record);
  const exactNumber = `searchNumbers:${squashed}`;
  const wholeWords = words.map((word) => `searchWords:${word}`).join(" AND ");
  for (const query of [exactNumber, `${exactNumber}*`, wholeWords, prefixesOf(words)]) {
    if (query !== exactNumber && nodes.size >= weighed) break;
    for (const record of await matches(transaction, query, labels)) nodes.set(record.id, record);
  }
  return bestFirst(nodes.values(), words, squashed, limit, codes);
}

const among = (alias: string): string =>
  `($labels IS NULL OR any(label IN labels(${alias}) WHERE label IN $labels))`;

async function matches(
  transaction: Transaction,
  query: string,
  labels: readonly NodeLabel[] | undefined,
): Promise<readonly NodeRecord[]> {
  const rows = await transaction.rows(
    `CALL db.index.fulltext.queryNodes('${searchIndex}', $query) YIELD node
     WHERE ${among("node")} RETURN properties(node) LIMIT ${weighed}`,
    { query, labels: labels ?? null },
  );
  return rows.map(([values]) => decodeNode(values).record);
}

/** Nodes to which relationships lead whose own number answers: parts, by their suppliers' codes. */
async function codesFound(
  transaction: Transaction,
  squashed: string,
  labels: readonly NodeLabel[] | undefined,
): Promise<ReadonlyMap<NodeId, FoundCode>> {
  const found = new Map<NodeId, FoundCode>();
  if (squashed === "") return found;
  for (const [type, property] of codedRelationships)
    for (const test of ["=", "STARTS WITH"]) {
      if (found.size >= weighed) break;
      const rows = await transaction.rows(
        `MATCH ()-[r:${ticked(type)}]->(b) WHERE r.searchCode ${test} $squashed AND ${among("b")}
         RETURN b.id, r.${ticked(property)} LIMIT ${weighed}`,
        { squashed, labels: labels ?? null },
      );
      for (const [id, code] of rows)
        if (!found.has(id as NodeId))
          found.set(id as NodeId, { property: `${type}.${property}`, code: String(code) });
    }
  return found;
}
