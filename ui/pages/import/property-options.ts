import { owners } from "virtual:schema-list";
import type { OptionGroup } from "../../components/choice.tsx";
import { kindWord } from "../../components/kind-words.ts";
import type { SchemaOwner } from "../../data/schema-owner.ts";

/** The option that leaves a column uninterpreted, kept with its rows. */
export const keepOnly = "-";

const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);

/** A record's kind in plain words: "Fitted item", "Part in a model". */
export const recordName = (label: string): string => capital(kindWord(label));

const options = ({ owner, properties, listFields }: SchemaOwner) =>
  [...properties.filter(({ kind }) => kind !== "document" && kind !== "moment"), ...listFields].map(
    ({ name, unit, meaning }) => ({
      id: `${owner}.${name}`,
      name: `${recordName(owner)}: ${kindWord(name)}${unit === undefined || unit === "1" ? "" : ` (${unit})`}`,
      meaning,
    }),
  );

/** Everything a column can be mapped to, by what it belongs to, with its unit and meaning from the schema. */
export const propertyGroups = (): readonly OptionGroup[] => [
  {
    name: "",
    options: [
      { id: keepOnly, name: "Keep only", meaning: "Stays with its row, is not interpreted" },
    ],
  },
  ...owners
    .filter(({ owner }) => owner !== "Import")
    .map((entry) => ({ name: recordName(entry.owner), options: options(entry) }))
    .filter((group) => group.options.length > 0),
];
