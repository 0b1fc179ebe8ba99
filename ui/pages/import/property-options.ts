import {
  listFields,
  nodeDeclaration,
  nodeLabelNames,
  type PropertyDeclaration,
  relationshipDeclaration,
  relationshipTypeNames,
} from "../../../graph-schema/index.ts";
import type { OptionGroup } from "../../components/choice.tsx";

/** The option that leaves a column uninterpreted, kept with its rows. */
export const keepOnly = "-";

const words = (name: string) =>
  name
    .replaceAll("_", " ")
    .replace(/([a-z])([A-Z])/g, "$1 $2")
    .toLowerCase();

const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);

const options = (
  owner: string,
  properties: Readonly<Record<string, PropertyDeclaration>>,
  readable: string,
) =>
  [
    ...Object.entries(properties).filter(
      ([, property]) => property.kind !== "document" && property.kind !== "moment",
    ),
    ...listFields
      .filter((field) => field.owner === owner)
      .map((field) => [field.property, field] as const),
  ].map(([name, { unit, meaning }]) => ({
    id: `${owner}.${name}`,
    name: `${readable}: ${words(name)}${unit === undefined || unit === "1" ? "" : ` (${unit})`}`,
    meaning,
  }));

/** Names of the lines of a parts list and of offers, which are relationships in the graph. */
const linkNames: Readonly<Record<string, string>> = {
  USES: "Part in a model",
  OFFERS: "Supplier's offer",
  CONTAINS: "Service kit",
  CONSUMES: "Service task",
  INTERCHANGES_WITH: "Interchange",
  SUPERSEDED_BY: "Superseded",
};

/** A record's kind in plain words: "Fitted item", "Part in a model". */
export const recordName = (label: string): string => linkNames[label] ?? capital(words(label));

/** Everything a column can be mapped to, by what it belongs to, with its unit and meaning from the schema. */
export function propertyGroups(): readonly OptionGroup[] {
  const nodes = nodeLabelNames
    .filter((label) => label !== "Import")
    .map((label) => ({
      name: capital(words(label)),
      options: options(label, nodeDeclaration(label).properties, capital(words(label))),
    }));
  const links = relationshipTypeNames.map((type) => {
    const readable = recordName(type);
    return {
      name: readable,
      options: options(type, relationshipDeclaration(type).properties, readable),
    };
  });
  return [
    {
      name: "",
      options: [
        { id: keepOnly, name: "Keep only", meaning: "Stays with its row, is not interpreted" },
      ],
    },
    ...[...nodes, ...links].filter((group) => group.options.length > 0),
  ];
}
