import { z } from "zod";
import {
  type ColumnKind,
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
  /** Column names in normal form, declared ones first. */
  readonly names: readonly string[];
  /** Languages in which a name is declared. */
  readonly languagesOf: ReadonlyMap<string, ReadonlySet<string>>;
}

type OwnField = Pick<Target, "owner" | "property" | "kind" | "meaning"> & {
  readonly headers: HeaderSynonyms;
  readonly unit?: Unit;
  readonly max?: number;
};

/** Columns that say how records hang together, which the schema has no property for. */
const ownFields: readonly OwnField[] = [
  {
    owner: "Part",
    property: "maker",
    kind: "text",
    meaning: "Maker of the part, where another column names the maker of the gear",
    headers: {
      en: ["part maker", "part manufacturer", "part brand", "part make", "spare maker", "oem"],
      de: ["teilehersteller", "hersteller teil", "hersteller ersatzteil"],
      fr: ["fabricant pièce", "marque pièce", "fabricant de la pièce"],
      es: ["fabricante pieza", "marca pieza", "fabricante de la pieza"],
      nl: ["fabrikant onderdeel", "merk onderdeel"],
    },
  },
  {
    owner: "Locker",
    property: "within",
    kind: "text",
    meaning: "The locker this locker is in",
    headers: {
      en: ["within", "inside", "parent", "in locker", "is within", "part of"],
      de: ["in schapp", "innerhalb"],
      fr: ["dans", "à l'intérieur de"],
      es: ["dentro de"],
      nl: ["binnen", "in kast"],
    },
  },
  {
    owner: "ServiceTask",
    property: "interval",
    kind: "interval",
    meaning: "Hours or months between two services, with the unit in the cell",
    headers: {
      en: ["interval", "every", "service interval", "due every"],
      de: ["intervall", "wartungsintervall"],
      fr: ["intervalle", "périodicité"],
      es: ["intervalo", "periodicidad"],
      nl: ["interval", "onderhoudsinterval"],
    },
  },
  {
    owner: "FittedItem",
    property: "count",
    kind: "integer",
    unit: "piece",
    max: 500,
    meaning: "How many such items are fitted; each becomes an item of its own, numbered",
    headers: { en: ["number fitted", "how many", "items fitted", "qty installed"] },
  },
];

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
  for (const { headers, ...field } of ownFields) {
    all.set(`${field.owner}.${field.property}`, {
      id: `${field.owner}.${field.property}`,
      ...field,
      min: field.kind === "integer" ? 1 : Number.NEGATIVE_INFINITY,
      max: field.max ?? Number.POSITIVE_INFINITY,
      maxLength: 2000,
      required: false,
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
