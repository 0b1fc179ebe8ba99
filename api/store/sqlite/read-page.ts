import type { SQLInputValue } from "node:sqlite";
import { type NodeLabel, quoteName, relationshipDeclaration } from "../../../graph-schema/index.ts";
import type { LinkRecord, NodeRecord } from "../../../importers/change-set.ts";
import type { NodePage, PageQuery, PropertyTest } from "../graph-store.ts";
import { declaredProperty } from "../shared/declared-property.ts";
import { typesFrom } from "../shared/link-types.ts";
import type { Connection } from "./connection.ts";
import { linksWhere, nodesOf, nodesWhere } from "./read-records.ts";
import { toColumn } from "./record-columns.ts";
import { wordsQuery } from "./search.ts";

interface Condition {
  readonly sql: string;
  readonly values: readonly SQLInputValue[];
}

/**
 * One page of a label's nodes; see `GraphStore.page`. Row numbers are chosen first and records read for the page
 * alone, so a far page costs a walk along one index (or a sort of one column), not the reading of all before it.
 */
export function readPage(connection: Connection, query: PageQuery): NodePage {
  const { label } = query;
  const condition = conditionOf(query);
  const table = `${quoteName(label)} r`;
  const total = Number(
    connection.row(`SELECT count(*) FROM ${table} ${condition.sql}`, ...condition.values)?.[0] ?? 0,
  );
  const numbers = connection
    .rows(
      `SELECT r.n FROM ${table} ${condition.sql} ORDER BY ${orderOf(query)} LIMIT ? OFFSET ?`,
      ...condition.values,
      query.limit,
      query.offset,
    )
    .map((row) => Number(row[0]));
  const wanted = JSON.stringify(numbers);
  const byNumber = new Map(
    nodesWhere(connection, label, "WHERE r.n IN (SELECT value FROM json_each(?))", wanted).map(
      ({ n, record }) => [n, record],
    ),
  );
  const owning = owningOf(connection, label, wanted);
  return {
    total,
    nodes: numbers.flatMap((n) => byNumber.get(n) ?? []),
    owning,
    owners: ownersOf(connection, owning),
  };
}

function conditionOf({ label, text, where = [] }: PageQuery): Condition {
  const parts = where.map((test) => testOf(label, test));
  if (text !== undefined && text.trim() !== "") {
    const query = wordsQuery(text);
    parts.push(
      query === undefined
        ? { sql: "0", values: [] }
        : { sql: "r.n IN (SELECT rowid FROM search WHERE search MATCH ?)", values: [query] },
    );
  }
  return {
    sql: parts.length === 0 ? "" : `WHERE ${parts.map(({ sql }) => sql).join(" AND ")}`,
    values: parts.flatMap(({ values }) => values),
  };
}

function testOf(label: NodeLabel, { property, is, value }: PropertyTest): Condition {
  const declared = declaredProperty(label, property);
  const column = `r.${quoteName(property)}`;
  if (is === "present") return { sql: `${column} IS NOT NULL`, values: [] };
  if (is === "absent") return { sql: `${column} IS NULL`, values: [] };
  const values = [toColumn(value)];
  const isText = declared.kind === "text" || declared.kind === "part-number";
  if (is === "holds") return { sql: `instr(lower(${column}), lower(?)) > 0`, values };
  if (is === "equal") return { sql: `${column} = ?${isText ? " COLLATE NOCASE" : ""}`, values };
  return { sql: `${column} ${is === "at least" ? ">=" : "<="} ?`, values };
}

function orderOf({ label, sortBy, descending = false }: PageQuery): string {
  const way = descending ? "DESC" : "ASC";
  if (sortBy === undefined) return `r.key ${way}`;
  const { kind } = declaredProperty(label, sortBy);
  const column = `r.${quoteName(sortBy)}`;
  const folded = kind === "text" || kind === "part-number" ? " COLLATE NOCASE" : "";
  return `${column} IS NULL, ${column}${folded} ${way}, r.key`;
}

function owningOf(
  connection: Connection,
  label: NodeLabel,
  numbers: string,
): readonly LinkRecord[] {
  return typesFrom(label)
    .filter((type) => relationshipDeclaration(type).each === "one")
    .flatMap((type) =>
      linksWhere(
        connection,
        type,
        "WHERE r.fromNode IN (SELECT value FROM json_each(?))",
        numbers,
      ).map(({ record }) => record),
    );
}

function ownersOf(connection: Connection, owning: readonly LinkRecord[]): readonly NodeRecord[] {
  return nodesOf(connection, [...new Set(owning.map(({ to }) => to))]).map(({ record }) => record);
}
