import type { SQLInputValue, SQLOutputValue } from "node:sqlite";
import {
  type NodeLabel,
  nodeDeclaration,
  nodeLabelNames,
  type Properties,
  type PropertyDeclaration,
  type PropertyValue,
  quoteName,
  type RelationshipType,
  relationshipDeclaration,
  relationshipTypeNames,
} from "../../../graph-schema/index.ts";
import type { Extra } from "../shared/record-state.ts";
import { type InsertInto, insertInto } from "./bulk-insert.ts";
import type { Row } from "./connection.ts";

/** A label's or a relationship's declared properties as columns, with the statements they make. */
export interface RecordColumns {
  readonly table: string;
  readonly properties: readonly (readonly [name: string, declared: PropertyDeclaration])[];
  /** The property columns, each quoted and preceded by a comma and the alias `r`. */
  readonly selected: string;
  /** What every row has: n, key, version, extra of a node; n, fromNode, toNode, version, extra of a link. */
  readonly fixed: readonly string[];
  /** Statements of `insertOf`, by which properties are present. */
  readonly inserts: Map<number, InsertInto>;
  /** For nodes: key, version, extra, properties, then n. For links the same without key. */
  readonly update: string;
}

function columnsOf(
  table: string,
  declared: Readonly<Record<string, PropertyDeclaration>>,
  fixed: readonly string[],
  updated: readonly string[],
): RecordColumns {
  const properties = Object.entries(declared);
  const names = properties.map(([name]) => name);
  const assignments = [...updated, ...names].map((name) => `${quoteName(name)} = ?`).join(", ");
  return {
    table,
    properties,
    selected: names.map((name) => `, r.${quoteName(name)}`).join(""),
    fixed,
    inserts: new Map(),
    update: `UPDATE ${quoteName(table)} SET ${assignments} WHERE n = ?`,
  };
}

const ofLabels = new Map(
  nodeLabelNames.map((label) => [
    label,
    columnsOf(
      label,
      nodeDeclaration(label).properties,
      ["n", "key", "version", "extra"],
      ["key", "version", "extra"],
    ),
  ]),
);
const ofTypes = new Map(
  relationshipTypeNames.map((type) => [
    type,
    columnsOf(
      type,
      relationshipDeclaration(type).properties,
      ["n", "fromNode", "toNode", "version", "extra"],
      ["version", "extra"],
    ),
  ]),
);

function known<K, V>(map: ReadonlyMap<K, V>, key: K): V {
  const value = map.get(key);
  if (value === undefined) throw new Error(`No such label or relationship: ${String(key)}`);
  return value;
}
export const nodeColumns = (label: NodeLabel): RecordColumns => known(ofLabels, label);
export const linkColumns = (type: RelationshipType): RecordColumns => known(ofTypes, type);

export function toColumn(value: PropertyValue | undefined): SQLInputValue {
  if (value === undefined) return null;
  if (typeof value === "boolean") return value ? 1 : 0;
  return typeof value === "object" ? JSON.stringify(value) : value;
}

/**
 * The statement that inserts the properties present, and appends their values to those of the fixed columns.
 * Leaving absent columns out, rather than binding null, halves the time of a parts-list line.
 */
export function insertOf(
  values: SQLInputValue[],
  columns: RecordColumns,
  properties: Properties,
): InsertInto {
  let present = 0;
  let bit = 1;
  for (const [name] of columns.properties) {
    const value = properties[name];
    if (value !== undefined) {
      present += bit;
      values.push(toColumn(value));
    }
    bit *= 2;
  }
  const known = columns.inserts.get(present);
  if (known !== undefined) return known;
  const names = columns.properties
    .map(([name]) => name)
    .filter((name) => properties[name] !== undefined);
  const into = insertInto(columns.table, [...columns.fixed, ...names]);
  columns.inserts.set(present, into);
  return into;
}

/** Appends the values of all property columns, in their order, null where absent. */
export function encodeInto(
  values: SQLInputValue[],
  columns: RecordColumns,
  properties: Properties,
): void {
  for (const [name] of columns.properties) values.push(toColumn(properties[name]));
}

function fromColumn(value: SQLOutputValue, declared: PropertyDeclaration): PropertyValue {
  if (declared.kind === "boolean") return value === 1;
  if (declared.kind === "document") return JSON.parse(String(value)) as PropertyValue;
  return typeof value === "number" ? value : String(value);
}

/** The properties of a row whose property columns begin at `offset`. */
export function decode(columns: RecordColumns, row: Row, offset: number): Properties {
  const properties: Record<string, PropertyValue> = {};
  let at = offset;
  for (const [name, declared] of columns.properties) {
    const value = row[at++];
    if (value !== null && value !== undefined) properties[name] = fromColumn(value, declared);
  }
  return properties;
}

const noExtra: Extra = Object.freeze({});

export function encodeExtra(extra: Extra): string | null {
  for (const _ in extra) return JSON.stringify(extra);
  return null;
}

export const decodeExtra = (text: SQLOutputValue | undefined): Extra =>
  typeof text === "string" ? (JSON.parse(text) as Extra) : noExtra;
