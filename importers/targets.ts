import { z } from "zod";
import {
  type ColumnKind,
  listFields,
  type NodeLabel,
  nodeLabels,
  type PropertyDeclaration,
  type RelationshipType,
  relationshipTypes,
  type Unit,
} from "../graph-schema/index.ts";
import { normaliseHeader } from "./normalise-header.ts";

type HeaderSynonyms = PropertyDeclaration["headers"];

/** What a column may hold: a property of the schema ("Part.massKg"), or an importer's own field ("Part.maker"). */
export interface Target {
  readonly id: string;
  /** Node label or relationship type. */
  readonly owner: NodeLabel | RelationshipType;
  readonly property: string;
  readonly kind: ColumnKind | "interval";
  readonly meaning: string;
  readonly unit?: Unit;
  readonly choices?: readonly string[];
  readonly min: number;
  readonly max: number;
  readonly maxLength: number;
  readonly required: boolean;
  /** Whether a lone dash or "n/a" stands for nothing, as it does in names. */
  readonly isName: boolean;
  /** True for a field of lists, which no record has as a property. */
  readonly isOwn: boolean;
  /** The kinds of list that may hold it; any that holds its owner if undefined. */
  readonly onlyIn: readonly string[] | undefined;
  /** Column names in normal form, declared ones first. */
  readonly names: readonly string[];
  /** Languages in which a name is declared. */
  readonly languagesOf: ReadonlyMap<string, ReadonlySet<string>>;
}

function namesOf(headers: HeaderSynonyms): Pick<Target, "names" | "languagesOf"> {
  const languagesOf = new Map<string, Set<string>>();
  for (const [language, names] of Object.entries(headers)) {
    for (const name of names.map(normaliseHeader)) {
      languagesOf.set(name, (languagesOf.get(name) ?? new Set()).add(language));
    }
  }
  return { names: [...languagesOf.keys()], languagesOf };
}

function fromDeclaration(
  owner: NodeLabel | RelationshipType,
  property: string,
  declared: PropertyDeclaration,
): Target {
  const { schema } = declared;
  const number = schema instanceof z.ZodNumber ? schema : undefined;
  return {
    id: `${owner}.${property}`,
    owner,
    property,
    kind: declared.kind,
    meaning: declared.meaning,
    ...(declared.unit === undefined ? {} : { unit: declared.unit }),
    ...(declared.choices === undefined ? {} : { choices: declared.choices }),
    min: number?.minValue ?? Number.NEGATIVE_INFINITY,
    max: number?.maxValue ?? Number.POSITIVE_INFINITY,
    maxLength:
      schema instanceof z.ZodString ? (schema.maxLength ?? Number.POSITIVE_INFINITY) : Infinity,
    required: declared.required,
    isName: declared.required,
    isOwn: false,
    onlyIn: undefined,
    ...namesOf(declared.headers),
  };
}

function collect(): Map<string, Target> {
  const all = new Map<string, Target>();
  const declared = [...Object.entries(nodeLabels), ...Object.entries(relationshipTypes)];
  for (const [owner, { properties }] of declared) {
    for (const [property, declaration] of Object.entries(properties)) {
      const { kind } = declaration as PropertyDeclaration;
      if (kind === "document" || kind === "moment") continue;
      const target = fromDeclaration(owner as NodeLabel | RelationshipType, property, declaration);
      all.set(target.id, target);
    }
  }
  for (const { headers, onlyIn, isName = false, ...field } of listFields) {
    all.set(`${field.owner}.${field.property}`, {
      id: `${field.owner}.${field.property}`,
      ...field,
      min: field.min ?? (field.kind === "integer" ? 1 : Number.NEGATIVE_INFINITY),
      max: field.max ?? Number.POSITIVE_INFINITY,
      maxLength: field.kind === "part-number" ? 200 : 2000,
      required: false,
      isName,
      isOwn: true,
      onlyIn,
      ...namesOf(headers),
    });
  }
  return all;
}

/** Every field a column may be matched to, by id. */
export const targets: ReadonlyMap<string, Target> = collect();

const everyName: ReadonlySet<string> = new Set(
  [...targets.values()].flatMap((target) => target.names),
);

/** Whether a cell is, word for word, a column name some field declares. */
export const isDeclaredName = (cell: string): boolean => {
  if (cell.length === 0 || cell.length > 60) return false;
  const name = normaliseHeader(cell);
  return (
    everyName.has(name) || everyName.has(normaliseHeader(cell.replace(/[([{].*?[)\]}]/g, " ")))
  );
};
