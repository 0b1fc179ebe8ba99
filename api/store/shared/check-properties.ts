import type { Properties, PropertyDeclaration } from "../../../graph-schema/index.ts";
import { Problem } from "../../errors/problem.ts";

/** A label or relationship type with what is declared of it. */
export interface DeclaredRecord {
  readonly table: string;
  readonly properties: readonly (readonly [name: string, declared: PropertyDeclaration])[];
}

/** Holds properties against their declarations. Errors: `input-invalid`, naming property, rule and value. */
export function checkProperties(
  columns: DeclaredRecord,
  properties: Properties,
  subject: () => string,
): void {
  let found = 0;
  for (const [name, declared] of columns.properties) {
    const value = properties[name];
    if (value === undefined) {
      if (declared.required)
        throw refused(subject, name, "a value is required, none was given", "Give one.");
      continue;
    }
    found++;
    const answer = declared.schema.safeParse(value);
    if (!answer.success) {
      const rule = answer.error.issues.map((issue) => issue.message).join("; ");
      throw refused(
        subject,
        name,
        `${rule}; received ${show(value)}`,
        `It means: ${declared.meaning}.`,
      );
    }
  }
  if (found === Object.keys(properties).length) return;
  const declaredNames = new Set(columns.properties.map(([name]) => name));
  for (const [name, value] of Object.entries(properties))
    if (value !== undefined && !declaredNames.has(name))
      throw refused(
        subject,
        name,
        `${columns.table} has no such property; received ${show(value)}`,
        "Keep unknown columns in `extra`.",
      );
}

function show(value: unknown): string {
  const text = JSON.stringify(value);
  return text.length > 80 ? `${text.slice(0, 80)}...` : text;
}

function refused(subject: () => string, name: string, rule: string, remedy: string): Problem {
  return new Problem("input-invalid", `${subject()}, ${name}: ${rule}. ${remedy}`, {
    places: [{ pointer: `/${name}`, detail: rule }],
    facts: { subject: subject(), property: name },
  });
}
