import type {
  NodeLabel,
  Properties,
  PropertyValue,
  RelationshipType,
} from "../../../graph-schema/index.ts";
import { readTyped } from "../../../importers/index.ts";
import type { GivenValues } from "../../contract/records.contract.ts";
import { Problem, type ProblemPlace } from "../../errors/problem.ts";
import { declaredOf } from "./property-words.ts";

export interface ReadValues {
  readonly set: Properties;
  readonly clear: readonly string[];
  /** How a value was read, where that needs telling. */
  readonly notes: readonly string[];
}

/**
 * Given values as the graph holds them: text read as a spreadsheet's cell, numbers in the schema's unit, null and
 * empty text to take a value away. Errors: `input-invalid`, with every fault's place, rule, value and remedy.
 */
export function readValues(owner: NodeLabel | RelationshipType, given: GivenValues): ReadValues {
  const declared = declaredOf(owner);
  const set: Record<string, PropertyValue> = {};
  const clear: string[] = [];
  const notes: string[] = [];
  const places: ProblemPlace[] = [];
  const currency =
    typeof given["currency"] === "string" ? given["currency"].trim().toUpperCase() : "";
  const fault = (property: string, detail: string): void => {
    places.push({ pointer: `/${property}`, detail });
  };
  for (const [property, value] of Object.entries(given)) {
    if (value === null) {
      if (declared[property] === undefined) fault(property, noSuch(owner, property));
      else clear.push(property);
      continue;
    }
    if (typeof value !== "string") {
      const detail = checkTyped(owner, property, value);
      if (detail === undefined) set[property] = value as PropertyValue;
      else fault(property, detail);
      continue;
    }
    if (property === "currency" && declared["currency"] !== undefined) {
      if (currency === "") clear.push(property);
      else set[property] = currency;
      continue;
    }
    const read = readTyped(owner, property, value, currency === "" ? undefined : currency);
    if (read === undefined) fault(property, noSuch(owner, property));
    else if (read.kind === "fault") {
      fault(property, `${read.rule}; received "${value.slice(0, 80)}". ${read.remedy}`);
    } else if (read.kind === "empty") clear.push(property);
    else {
      Object.assign(set, read.values);
      if (read.note !== undefined) notes.push(read.note);
    }
  }
  if (places.length > 0) {
    const words = places.map(({ pointer, detail }) => `${pointer.slice(1)}: ${detail}`).join(" ");
    throw new Problem("input-invalid", `What was given cannot be taken. ${words}`, { places });
  }
  return { set, clear: clear.filter((name) => set[name] === undefined), notes };
}

const noSuch = (owner: string, property: string): string =>
  `${owner} has no property "${property.slice(0, 60)}". It has: ${Object.keys(declaredOf(owner as NodeLabel)).join(", ") || "none"}.`;

/** What is wrong with a value given as number, yes or no, or document; undefined when nothing is. */
function checkTyped(
  owner: NodeLabel | RelationshipType,
  property: string,
  value: unknown,
): string | undefined {
  const declared = declaredOf(owner)[property];
  if (declared === undefined) return noSuch(owner, property);
  const answer = declared.schema.safeParse(value);
  if (answer.success) return undefined;
  const rule = answer.error.issues.map((issue) => issue.message).join("; ");
  return `${rule}; received ${JSON.stringify(value)?.slice(0, 80) ?? "nothing"}. It means: ${declared.meaning}.`;
}

/** Errors: `input-invalid` where a record would be without a value it must have, naming every such value. */
export function refuseWithout(
  owner: NodeLabel | RelationshipType,
  name: string,
  properties: Properties,
): void {
  const missing = Object.entries(declaredOf(owner)).filter(
    ([property, { required }]) => required && properties[property] === undefined,
  );
  if (missing.length === 0) return;
  const words = missing.map(([property, { meaning }]) => `${property} (${meaning})`).join(", ");
  throw new Problem("input-invalid", `${name} must have ${words}, and none was given. Give it.`, {
    places: missing.map(([property]) => ({
      pointer: `/${property}`,
      detail: "a value is required",
    })),
  });
}
