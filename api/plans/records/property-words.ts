import {
  type NodeLabel,
  nodeDeclaration,
  type Properties,
  type PropertyDeclaration,
  type RelationshipType,
  relationshipDeclaration,
  relationshipTypeNames,
} from "../../../graph-schema/index.ts";
import type { PropertyDocument, ValueChange } from "../../contract/records.contract.ts";
import { moneyWords } from "../words.ts";

type Declared = Readonly<Record<string, PropertyDeclaration>>;

const isType = (owner: string): owner is RelationshipType =>
  (relationshipTypeNames as readonly string[]).includes(owner);

/** The declared properties of a label or a relationship. */
export const declaredOf = (owner: NodeLabel | RelationshipType): Declared =>
  isType(owner) ? relationshipDeclaration(owner).properties : nodeDeclaration(owner).properties;

/** The declared properties as a form or a table's head needs them. */
export const fieldsOf = (owner: NodeLabel | RelationshipType): PropertyDocument[] =>
  Object.entries(declaredOf(owner)).map(([property, declared]) => ({
    property,
    kind: declared.kind,
    ...(declared.unit === undefined ? {} : { unit: declared.unit }),
    meaning: declared.meaning,
    required: declared.required,
    ...(declared.choices === undefined ? {} : { choices: [...declared.choices] }),
  }));

const counted = new Set(["hour", "day", "month", "year", "litre"]);

/** A unit behind its figure: " kg", " months" (" month" behind 1); nothing for pieces and plain numbers. */
export function unitWords(unit: string | undefined, value?: unknown): string {
  if (unit === undefined || unit === "1" || unit === "piece" || unit === "minor unit") return "";
  return ` ${unit}${counted.has(unit) && value !== 1 ? "s" : ""}`;
}

/** One value in words, with its unit: "0.02 kg", "30.00 USD", "yes"; null where there is none. */
export function valueWords(
  declared: PropertyDeclaration | undefined,
  value: unknown,
  properties: Properties,
): string | null {
  if (value === undefined || value === null) return null;
  if (declared?.kind === "money" && typeof value === "number") {
    const currency = properties["currency"];
    return typeof currency === "string"
      ? moneyWords(value, currency).replaceAll("\u202f", " ")
      : `${value} minor units`;
  }
  if (typeof value === "boolean") return value ? "yes" : "no";
  if (typeof value === "object") return JSON.stringify(value);
  return `${String(value)}${unitWords(declared?.unit, value)}`;
}

/** What differs between two states of a record, in words, in the order of the declaration. */
export function changesBetween(
  owner: NodeLabel | RelationshipType,
  before: Properties,
  after: Properties,
): ValueChange[] {
  const declared = declaredOf(owner);
  const names = [
    ...new Set([...Object.keys(declared), ...Object.keys(before), ...Object.keys(after)]),
  ];
  return names.flatMap((property) => {
    const was = valueWords(declared[property], before[property], before);
    const is = valueWords(declared[property], after[property], after);
    return was === is ? [] : [{ property, before: was, after: is }];
  });
}

/** "massKg 0.02 kg → 0.03 kg, description – → Pawl": at most five, the rest counted. */
export function changesInWords(changes: readonly ValueChange[]): string {
  const shown = changes
    .slice(0, 5)
    .map(({ property, before, after }) =>
      before === null
        ? `${property} ${cut(after)}`
        : `${property} ${cut(before)} → ${after === null ? "nothing" : cut(after)}`,
    );
  const more = changes.length - shown.length;
  return more > 0 ? `${shown.join(", ")} and ${more} more` : shown.join(", ");
}

const cut = (text: string | null): string =>
  text === null ? "nothing" : text.length > 60 ? `${text.slice(0, 60)}…` : text;
