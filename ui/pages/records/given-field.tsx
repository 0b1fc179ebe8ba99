import { Input, Label, TextField } from "react-aria-components";
import { Choice } from "../../components/choice.tsx";
import type { SchemaProperty } from "../../data/schema-owner.ts";
import { propertyWord } from "./value-words.ts";

const hintOf = ({ kind, unit }: SchemaProperty): string =>
  kind === "date"
    ? "31 Mar 2027"
    : kind === "money"
      ? "12.50 EUR"
      : unit === undefined || unit === "1" || unit === "piece"
        ? ""
        : `in ${unit}, or with a unit`;

/** A field of something new, as the schema declares it. */
export function GivenField({
  field,
  value,
  onChange,
}: {
  readonly field: SchemaProperty;
  readonly value: string;
  readonly onChange: (text: string) => void;
}) {
  const choices = field.kind === "boolean" ? ["yes", "no"] : field.choices;
  const label = `${propertyWord(field.name)}${field.required ? "" : " (if known)"}`;
  if (choices !== undefined)
    return (
      <Choice
        label={label}
        value={value === "" ? null : value}
        placeholder="not known"
        groups={[{ name: "", options: choices.map((choice) => ({ id: choice, name: choice })) }]}
        onChange={onChange}
      />
    );
  return (
    <TextField className="field" value={value} onChange={onChange} isRequired={field.required}>
      <Label>{label}</Label>
      <Input className="text-input" placeholder={hintOf(field)} />
    </TextField>
  );
}
