import { z } from "zod";
import {
  nodeDeclaration,
  nodeLabelNames,
  relationshipDeclaration,
  relationshipTypeNames,
} from "../catalogue.ts";
import type { ColumnKind, PropertyDeclaration } from "../property.ts";

/** One table of the graph: what to create it from, and what to add to an older one that lacks a column. */
export interface SqliteTable {
  readonly name: string;
  readonly columns: readonly SqliteColumn[];
  readonly createTable: string;
  readonly createIndexes: readonly string[];
}

export interface SqliteColumn {
  readonly name: string;
  /** Without NOT NULL, so that it can be added to a table that already holds rows. */
  readonly addDefinition: string;
}

const sqliteTypes: Readonly<Record<ColumnKind, "TEXT" | "INTEGER" | "REAL">> = {
  text: "TEXT",
  "part-number": "TEXT",
  integer: "INTEGER",
  real: "REAL",
  boolean: "INTEGER",
  date: "TEXT",
  moment: "TEXT",
  choice: "TEXT",
  money: "INTEGER",
  document: "TEXT",
};

const digit = "[0-9]";
const dayPattern = [4, 2, 2].map((length) => digit.repeat(length)).join("-");

export const quoteName = (name: string): string => `"${name.replaceAll('"', '""')}"`;
const quoteText = (text: string): string => `'${text.replaceAll("'", "''")}'`;

/** The rule a value must keep, in SQL, as far as it is cheap to check on every write; "" where there is none. */
function checkOf(name: string, declared: PropertyDeclaration): string {
  const column = quoteName(name);
  // Equalities, not IN: SQLite builds a temporary index for an IN list on every single insert.
  const oneOf = (values: readonly (string | number)[]) =>
    `CHECK (${values.map((value) => `${column} = ${value}`).join(" OR ")})`;
  if (declared.choices !== undefined) return oneOf(declared.choices.map(quoteText));
  if (declared.kind === "boolean") return oneOf([0, 1]);
  if (declared.kind === "date") return `CHECK (${column} GLOB '${dayPattern}')`;
  if (!(declared.schema instanceof z.ZodNumber)) return "";
  const { minValue, maxValue } = declared.schema;
  const bounds = [
    minValue !== null && minValue > Number.MIN_SAFE_INTEGER ? `${column} >= ${minValue}` : "",
    maxValue !== null && maxValue < Number.MAX_SAFE_INTEGER ? `${column} <= ${maxValue}` : "",
  ].filter((bound) => bound !== "");
  return bounds.length === 0 ? "" : `CHECK (${bounds.join(" AND ")})`;
}

function propertyColumns(properties: Readonly<Record<string, PropertyDeclaration>>) {
  return Object.entries(properties).map(([name, declared]) => {
    const type = sqliteTypes[declared.kind];
    const check = checkOf(name, declared);
    const words = (notNull: string) =>
      [quoteName(name), type, notNull, check].filter((word) => word !== "").join(" ");
    return {
      name,
      addDefinition: words(""),
      definition: words(declared.required ? "NOT NULL" : ""),
    };
  });
}

function table(
  name: string,
  fixed: readonly (readonly [name: string, definition: string])[],
  properties: Readonly<Record<string, PropertyDeclaration>>,
  constraints: readonly string[],
  createIndexes: readonly string[],
): SqliteTable {
  const declared = propertyColumns(properties);
  const lines = [
    ...fixed.map(([column, definition]) => `${quoteName(column)} ${definition}`),
    ...declared.map((column) => column.definition),
    ...constraints,
  ];
  return {
    name,
    columns: declared.map(({ name: column, addDefinition }) => ({ name: column, addDefinition })),
    createTable: `CREATE TABLE IF NOT EXISTS ${quoteName(name)} (\n  ${lines.join(",\n  ")}\n) STRICT`,
    createIndexes,
  };
}

/**
 * A table per node label and per relationship type. `n` is the record's number: the sequence number of
 * the journal entry that created it, so records of every kind share one rising count. The table `node`
 * (number, id, label), which the ends of relationships refer to, is the store's own and must exist first.
 */
export function sqliteTables(): readonly SqliteTable[] {
  const nodes = nodeLabelNames.map((label) =>
    table(
      label,
      [
        ["n", "INTEGER PRIMARY KEY REFERENCES node (n)"],
        ["key", "TEXT NOT NULL UNIQUE"],
        ["version", "INTEGER NOT NULL"],
        ["extra", "TEXT"],
      ],
      nodeDeclaration(label).properties,
      [],
      [],
    ),
  );
  const relationships = relationshipTypeNames.map((type) => {
    const { each, properties } = relationshipDeclaration(type);
    return table(
      type,
      [
        ["n", "INTEGER PRIMARY KEY"],
        ["fromNode", "INTEGER NOT NULL REFERENCES node (n)"],
        ["toNode", "INTEGER NOT NULL REFERENCES node (n)"],
        ["version", "INTEGER NOT NULL"],
        ["extra", "TEXT"],
      ],
      properties,
      [each === "one" ? `UNIQUE ("fromNode")` : `UNIQUE ("fromNode", "toNode")`],
      [
        `CREATE INDEX IF NOT EXISTS ${quoteName(`${type} by target`)} ON ${quoteName(type)} ("toNode")`,
      ],
    );
  });
  return [...nodes, ...relationships];
}
