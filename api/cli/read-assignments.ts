import { relationshipTypeNames } from "../../graph-schema/index.ts";
import { Problem } from "../errors/problem.ts";

/** `massKg=2.5 lb` as a property to set, `MADE_BY=Oakhollow` as where a relationship leads. */
export interface Assignments {
  readonly set: Record<string, string>;
  readonly links: Record<string, string>;
}

const types = new Set<string>(relationshipTypeNames);

/** Reads what was typed after a record; nothing after the = takes a value away. Errors: `input-invalid`. */
export function readAssignments(words: readonly string[]): Assignments {
  const set: Record<string, string> = {};
  const links: Record<string, string> = {};
  for (const word of words) {
    const at = word.indexOf("=");
    if (at < 1) {
      throw new Problem(
        "input-invalid",
        `A value is given as property=value; received "${word.slice(0, 80)}". Write it like massKg="2.5 lb", or MADE_BY=Oakhollow to lead a relationship elsewhere.`,
      );
    }
    const name = word.slice(0, at).trim();
    const value = word.slice(at + 1).trim();
    if (types.has(name.toUpperCase())) links[name.toUpperCase()] = value;
    else set[name] = value;
  }
  return { set, links };
}
