import type { Plugin } from "vite";
import type { z } from "zod";
import {
  listFields,
  nodeLabels,
  type PropertyDeclaration,
  relationshipTypes,
} from "../../graph-schema/index.ts";
import type { SchemaOwner, SchemaProperty } from "../data/schema-owner.ts";

const name = "virtual:schema-list";

/** The range a number's schema allows, where it is narrower than any whole number. */
function rangeOf(schema: z.ZodType): { min?: number; max?: number } {
  const { minValue, maxValue } = schema as { minValue?: number | null; maxValue?: number | null };
  return {
    ...(typeof minValue === "number" && minValue > Number.MIN_SAFE_INTEGER
      ? { min: minValue }
      : {}),
    ...(typeof maxValue === "number" && maxValue < Number.MAX_SAFE_INTEGER
      ? { max: maxValue }
      : {}),
  };
}

const propertiesOf = (
  properties: Readonly<Record<string, PropertyDeclaration>>,
): readonly SchemaProperty[] =>
  Object.entries(properties).map(([property, declared]) => ({
    name: property,
    kind: declared.kind,
    meaning: declared.meaning,
    required: declared.required,
    ...(declared.unit === undefined ? {} : { unit: declared.unit }),
    ...(declared.choices === undefined ? {} : { choices: declared.choices }),
    ...(declared.kind === "integer" || declared.kind === "real" ? rangeOf(declared.schema) : {}),
  }));

const listFieldsOf = (owner: string): SchemaOwner["listFields"] =>
  listFields
    .filter((field) => field.owner === owner)
    .map(({ property, meaning, unit }) => ({
      name: property,
      meaning,
      ...(unit === undefined ? {} : { unit }),
    }));

/** Every label and relationship with its properties, as plain data. */
export const schemaOwners = (): readonly SchemaOwner[] => [
  ...Object.values(nodeLabels).map((node) => ({
    owner: node.label,
    isLink: false,
    meaning: node.meaning,
    nameFrom: node.nameFrom,
    properties: propertiesOf(node.properties),
    listFields: listFieldsOf(node.label),
  })),
  ...Object.values(relationshipTypes).map((link) => ({
    owner: link.type,
    isLink: true,
    meaning: link.meaning,
    properties: propertiesOf(link.properties),
    listFields: listFieldsOf(link.type),
  })),
];

/** Gives the screen the declared schema as a list made when it is built, without the library that checks it. */
export const schemaList = (): Plugin => ({
  name: "schema-list",
  resolveId: (id) => (id === name ? `\0${name}` : undefined),
  load: (id) =>
    id === `\0${name}` ? `export const owners = ${JSON.stringify(schemaOwners())};` : undefined,
});
