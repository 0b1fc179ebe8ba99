import type { RecordDocument } from "../../../api/contract/records.contract.ts";
import type { Column } from "../../components/table/column.ts";
import { valueWords } from "./value-words.ts";

/** The record a relationship of which there is one leads to. */
export const ownerOf = (record: RecordDocument, type: string) =>
  record.owners.find((owner) => owner.type === type);

export const textOf = (record: RecordDocument, property: string): string => {
  const value = record.properties[property];
  return typeof value === "string" ? value : "";
};

export const numberOf = (record: RecordDocument, property: string): number | undefined => {
  const value = record.properties[property];
  return typeof value === "number" ? value : undefined;
};

/** A column of a number with its unit in the heading. */
export const numberColumn = (
  property: string,
  name: string,
  write: (value: number) => string,
  more: Partial<Column<RecordDocument>> = {},
): Column<RecordDocument> => ({
  id: property,
  name,
  kind: "number",
  cell: (record) => {
    const value = numberOf(record, property);
    return value === undefined ? "–" : write(value);
  },
  value: (record) => numberOf(record, property) ?? null,
  ...more,
});

export const dateColumn = (property: string, name: string): Column<RecordDocument> => ({
  id: property,
  name,
  cell: (record) => valueWords({ kind: "date" }, record.properties[property], {}) || "–",
  value: (record) => textOf(record, property) || null,
});

export const ownerColumn = (
  type: string,
  name: string,
  more: Partial<Column<RecordDocument>> = {},
): Column<RecordDocument> => ({
  id: type,
  name,
  cell: (record) => ownerOf(record, type)?.name ?? "–",
  value: (record) => ownerOf(record, type)?.name ?? null,
  ...more,
});
