import { isInt } from "neo4j-driver";
import {
  labelOf,
  type NodeId,
  type NodeLabel,
  nodeDeclaration,
  nodeLabelNames,
  type Properties,
  type PropertyDeclaration,
  type PropertyValue,
  type RelationshipType,
  relationshipDeclaration,
  relationshipTypeNames,
} from "../../../graph-schema/index.ts";
import type { LinkRecord, NodeRecord } from "../../../importers/change-set.ts";
import type { DeclaredRecord } from "../shared/check-properties.ts";
import type { Extra, Numbered } from "../shared/record-state.ts";
import { searchedCode } from "../shared/search-codes.ts";
import { searchText } from "../shared/search-text.ts";
import { wordsOf } from "../shared/weigh-hits.ts";
import { numberOf, whole } from "./client.ts";

/** What every record on the server has besides its declared properties. No declaration may use these names. */
export const ownProperties = {
  node: ["id", "key", "version", "sequence", "extra", "searchWords", "searchNumbers"],
  link: ["version", "sequence", "extra", "searchCode"],
} as const;

const declaredOf = (
  table: string,
  properties: Readonly<Record<string, PropertyDeclaration>>,
): DeclaredRecord => ({ table, properties: Object.entries(properties) });
const ofLabels = new Map(
  nodeLabelNames.map((label) => [label, declaredOf(label, nodeDeclaration(label).properties)]),
);
const ofTypes = new Map(
  relationshipTypeNames.map((type) => [
    type,
    declaredOf(type, relationshipDeclaration(type).properties),
  ]),
);
function known<K>(map: ReadonlyMap<K, DeclaredRecord>, name: K): DeclaredRecord {
  const found = map.get(name);
  if (found === undefined) throw new Error(`No such label or relationship: ${String(name)}`);
  return found;
}
export const declaredNode = (label: NodeLabel): DeclaredRecord => known(ofLabels, label);
export const declaredLink = (type: RelationshipType): DeclaredRecord => known(ofTypes, type);

export const isWhole = ({ kind }: PropertyDeclaration): boolean =>
  kind === "integer" || kind === "money";

/** Days and moments are kept as ISO text, documents as JSON text, whole numbers as 64-bit integers, others as they are. */
function encode(declared: DeclaredRecord, properties: Properties): Record<string, unknown> {
  const values: Record<string, unknown> = {};
  for (const [name, property] of declared.properties) {
    const value = properties[name];
    if (value === undefined) continue;
    values[name] = isWhole(property)
      ? whole(value as number)
      : property.kind === "document"
        ? JSON.stringify(value)
        : value;
  }
  return values;
}

function decode(declared: DeclaredRecord, found: Readonly<Record<string, unknown>>): Properties {
  const properties: Record<string, PropertyValue> = {};
  for (const [name, { kind }] of declared.properties) {
    const value = found[name];
    if (value === undefined || value === null) continue;
    properties[name] =
      kind === "document"
        ? (JSON.parse(String(value)) as PropertyValue)
        : typeof value === "object" && isInt(value)
          ? numberOf(value)
          : (value as PropertyValue);
  }
  return properties;
}

const noExtra: Extra = Object.freeze({});
const decodeExtra = (text: unknown): Extra =>
  typeof text === "string" ? (JSON.parse(text) as Extra) : noExtra;
const isEmpty = (extra: Extra): boolean => {
  for (const _ in extra) return false;
  return true;
};

export function encodeNode({ n, record }: Numbered<NodeRecord>): Record<string, unknown> {
  const values = encode(declaredNode(record.label), record.properties);
  values["id"] = record.id;
  values["key"] = record.key;
  values["version"] = whole(record.version);
  values["sequence"] = whole(n);
  if (!isEmpty(record.extra)) values["extra"] = JSON.stringify(record.extra);
  const text = searchText(record.label, record.properties);
  if (text !== undefined) {
    values["searchWords"] = wordsOf(text.words).join(" ");
    values["searchNumbers"] = text.numbers.trim();
  }
  return values;
}

export function encodeLink({ n, record }: Numbered<LinkRecord>): Record<string, unknown> {
  const values = encode(declaredLink(record.type), record.properties);
  values["version"] = whole(record.version);
  values["sequence"] = whole(n);
  if (!isEmpty(record.extra)) values["extra"] = JSON.stringify(record.extra);
  const code = searchedCode(record.type, record.properties);
  if (code !== undefined) values["searchCode"] = code;
  return values;
}

export function decodeNode(values: unknown): Numbered<NodeRecord> {
  const found = values as Readonly<Record<string, unknown>>;
  const id = found["id"] as NodeId;
  const label = labelOf(id);
  return {
    n: numberOf(found["sequence"]),
    record: {
      id,
      label,
      key: String(found["key"]),
      version: numberOf(found["version"]),
      extra: decodeExtra(found["extra"]),
      properties: decode(declaredNode(label), found),
    },
  };
}

export function decodeLink(
  type: RelationshipType,
  from: NodeId,
  to: NodeId,
  values: unknown,
): Numbered<LinkRecord> {
  const found = values as Readonly<Record<string, unknown>>;
  return {
    n: numberOf(found["sequence"]),
    record: {
      type,
      from,
      to,
      version: numberOf(found["version"]),
      extra: decodeExtra(found["extra"]),
      properties: decode(declaredLink(type), found),
    },
  };
}
