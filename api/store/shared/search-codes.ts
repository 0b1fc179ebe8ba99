import {
  type Properties,
  type RelationshipType,
  relationshipDeclaration,
  relationshipTypeNames,
} from "../../../graph-schema/index.ts";
import { squash } from "./search-text.ts";

/** A relationship's own number by which the node it leads to was found. */
export interface FoundCode {
  /** `OFFERS.supplierCode` */
  readonly property: string;
  readonly code: string;
}

/** The property of a relationship that is a number people look for: a supplier's code, on OFFERS. */
const codeProperties = new Map<RelationshipType, string>(
  relationshipTypeNames.flatMap((type) => {
    const coded = Object.entries(relationshipDeclaration(type).properties).find(
      ([, { kind }]) => kind === "part-number",
    );
    return coded === undefined ? [] : [[type, coded[0]]];
  }),
);

/** Relationships found by a number of their own, with the property that holds it. */
export const codedRelationships: readonly (readonly [RelationshipType, string])[] = [
  ...codeProperties,
];

export const isCoded = (type: RelationshipType): boolean => codeProperties.has(type);

/** The number a relationship is found by, squashed; undefined where it has none. */
export function searchedCode(type: RelationshipType, properties: Properties): string | undefined {
  const property = codeProperties.get(type);
  const value = property === undefined ? undefined : properties[property];
  if (typeof value !== "string") return undefined;
  const code = squash(value);
  return code === "" ? undefined : code;
}
