import {
  minorDigits,
  type NodeLabel,
  nodeLabels,
  type PropertyDeclaration,
  type PropertyValue,
  type RelationshipType,
  relationshipTypes,
} from "../../../graph-schema/index.ts";
import type { Facts } from "./graph-view.ts";

type Owner = NodeLabel | RelationshipType;

/** One row to be written: the records it tells of, and fields that are no property of a record. */
export interface ExportRow {
  readonly records: Partial<Record<Owner, Facts | undefined>>;
  readonly fields?: Readonly<Record<string, string | undefined>>;
}

const declarations = new Map<string, PropertyDeclaration>(
  [...Object.entries(nodeLabels), ...Object.entries(relationshipTypes)].flatMap(
    ([owner, { properties }]) =>
      Object.entries(properties).map(
        ([name, declared]) => [`${owner}.${name}`, declared as PropertyDeclaration] as const,
      ),
  ),
);

/** Minor units as the amount people write, with a decimal point: 1250 EUR is 12.50. Exact for safe integers. */
export function writeAmount(minor: number, currency: string): string {
  const digits = minorDigits(currency);
  if (digits === 0) return String(minor);
  const figures = String(minor).padStart(digits + 1, "0");
  return `${figures.slice(0, -digits)}.${figures.slice(-digits)}`;
}

/** A number in plain decimals: spreadsheets and readers stumble over exponents. */
function writeNumber(value: number): string {
  const text = String(value);
  return text.includes("e") ? value.toFixed(20).replace(/\.?0+$/, "") : text;
}

function writeValue(field: string, value: PropertyValue, facts: Facts): string {
  if (declarations.get(field)?.kind === "money" && typeof value === "number") {
    return writeAmount(value, String(facts.properties["currency"] ?? "EUR"));
  }
  if (typeof value === "boolean") return value ? "yes" : "no";
  if (typeof value === "number") return writeNumber(value);
  return typeof value === "string" ? value : JSON.stringify(value);
}

/** The text of one field of a row; empty where nothing is known. */
export function cellOf(row: ExportRow, field: string): string {
  const own = row.fields?.[field];
  if (own !== undefined) return own;
  const at = field.indexOf(".");
  const facts = row.records[field.slice(0, at) as Owner];
  const value = facts?.properties[field.slice(at + 1)];
  return facts === undefined || value === undefined ? "" : writeValue(field, value, facts);
}

/** Which record a row's uninterpreted columns are kept with when it is taken in: the first of these it tells of. */
const keepers: readonly Owner[] = [
  "INTERCHANGES_WITH",
  "SUPERSEDED_BY",
  "CONTAINS",
  "Order",
  "USES",
  "CONSUMES",
  "StockLot",
  "OFFERS",
  "ServiceTask",
  "Crossing",
  "Locker",
  "Part",
  "FittedItem",
  "Model",
  "RequiredFunction",
  "Supplier",
];

/** Columns that nobody interpreted, as they were kept with the record the row is about. */
export function extraOf(row: ExportRow): Readonly<Record<string, string>> {
  const keeper = keepers.find((owner) => row.records[owner] !== undefined);
  return (keeper === undefined ? undefined : row.records[keeper]?.extra) ?? {};
}

/** Whether columns nobody interpreted hang on a record. */
export const hasExtra = (facts: Facts | undefined): boolean =>
  facts !== undefined && Object.keys(facts.extra).length > 0;
