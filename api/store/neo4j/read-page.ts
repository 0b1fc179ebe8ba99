import {
  type NodeId,
  type NodeLabel,
  type PropertyDeclaration,
  type PropertyValue,
  relationshipDeclaration,
} from "../../../graph-schema/index.ts";
import type { LinkRecord } from "../../../importers/change-set.ts";
import type { NodePage, PageQuery, PropertyTest } from "../graph-store.ts";
import { declaredProperty } from "../shared/declared-property.ts";
import { typesFrom } from "../shared/link-types.ts";
import type { Transaction } from "./client.ts";
import { whole } from "./client.ts";
import { decodeNode, isWhole } from "./codec.ts";
import { searchIndex } from "./migrate.ts";
import { linksAt, nodesById, ticked } from "./read-records.ts";
import { wordsQuery } from "./search.ts";

/** One page of a label's nodes; see `GraphStore.page`. */
export async function readPage(transaction: Transaction, query: PageQuery): Promise<NodePage> {
  const { label, offset, limit } = query;
  const { match, parameters } = conditionOf(query);
  const order = orderOf(query);
  const [counted] = await transaction.rows(`${match} RETURN count(n)`, parameters);
  const rows = await transaction.rows(
    `${match} WITH n ORDER BY ${order} SKIP toInteger($offset) LIMIT toInteger($limit) RETURN properties(n)`,
    { ...parameters, offset, limit },
  );
  const nodes = rows.map(([values]) => decodeNode(values).record);
  const owning = await owningOf(
    transaction,
    label,
    nodes.map(({ id }) => id),
  );
  const owners = await nodesById(transaction, new Set(owning.map(({ to }) => to)));
  return {
    total: Number(counted?.[0] ?? 0),
    nodes,
    owning,
    owners: owners.map(({ record }) => record),
  };
}

interface Condition {
  /** Binds `n` to the nodes that meet all conditions. */
  readonly match: string;
  readonly parameters: Record<string, unknown>;
}

function conditionOf({ label, text, where = [] }: PageQuery): Condition {
  const parameters: Record<string, unknown> = {};
  // Every node has a key; saying so lets the server walk its index, in order.
  const tests = ["n.key IS NOT NULL"];
  for (const [at, test] of where.entries()) {
    const declared = declaredProperty(label, test.property);
    tests.push(testOf(declared, test, `value${at}`));
    if (test.value !== undefined) parameters[`value${at}`] = encoded(declared, test.value);
  }
  const condition = tests.join(" AND ");
  if (text === undefined || text.trim() === "")
    return { match: `MATCH (n:${ticked(label)}) WHERE ${condition}`, parameters };
  const query = wordsQuery(text);
  if (query === undefined)
    return { match: `MATCH (n:${ticked(label)}) WHERE false AND ${condition}`, parameters };
  parameters["text"] = query;
  return {
    match: `CALL db.index.fulltext.queryNodes('${searchIndex}', $text) YIELD node AS n WITH n WHERE n:${ticked(label)} AND ${condition}`,
    parameters,
  };
}

const encoded = (declared: PropertyDeclaration, value: PropertyValue): unknown =>
  isWhole(declared) && Number.isSafeInteger(value)
    ? whole(Number(value))
    : typeof value === "object"
      ? JSON.stringify(value)
      : value;

const isText = ({ kind }: PropertyDeclaration): boolean =>
  kind === "text" || kind === "part-number";

function testOf(
  declared: PropertyDeclaration,
  { property, is }: PropertyTest,
  name: string,
): string {
  const column = `n.${ticked(property)}`;
  switch (is) {
    case "present":
      return `${column} IS NOT NULL`;
    case "absent":
      return `${column} IS NULL`;
    case "holds":
      return `toLower(toString(${column})) CONTAINS toLower(toString($${name}))`;
    case "equal":
      return isText(declared) ? `toLower(${column}) = toLower($${name})` : `${column} = $${name}`;
    case "at least":
      return `${column} >= $${name}`;
    case "at most":
      return `${column} <= $${name}`;
  }
}

function orderOf({ label, sortBy, descending = false }: PageQuery): string {
  const way = descending ? "DESC" : "ASC";
  if (sortBy === undefined) return `n.key ${way}`;
  const column = `n.${ticked(sortBy)}`;
  const folded = isText(declaredProperty(label, sortBy)) ? `toLower(${column})` : column;
  return `${column} IS NULL, ${folded} ${way}, n.key`;
}

async function owningOf(
  transaction: Transaction,
  label: NodeLabel,
  ids: readonly NodeId[],
): Promise<readonly LinkRecord[]> {
  const types = typesFrom(label).filter((type) => relationshipDeclaration(type).each === "one");
  if (types.length === 0) return [];
  const links = await linksAt(transaction, ids, { side: "from", types });
  return links.map(({ record }) => record);
}
