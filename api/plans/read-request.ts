import type { z } from "zod";
import { Problem, type ProblemPlace } from "../errors/problem.ts";

const shown = (value: unknown): string => {
  const written = value === undefined ? "nothing" : (JSON.stringify(value) ?? String(value));
  const text = written === "{}" ? "nothing" : written;
  return text.length > 80 ? `${text.slice(0, 80)}…` : text;
};

function valueAt(input: unknown, path: readonly PropertyKey[]): unknown {
  let value: unknown = input;
  for (const step of path) {
    if (typeof value !== "object" || value === null) return undefined;
    value = Reflect.get(value, step);
  }
  return value;
}

/** A JSON pointer (RFC 6901) of a path. */
const pointerOf = (path: readonly PropertyKey[]): string =>
  path.map((step) => `/${String(step).replaceAll("~", "~0").replaceAll("/", "~1")}`).join("");

/** The rule a fault breaks, as a person would say it. */
function ruleWords(issue: z.core.$ZodIssue): string {
  switch (issue.code) {
    case "invalid_type":
      return `it must be ${typeWords[issue.expected] ?? issue.expected}`;
    case "too_small":
      return boundWords(
        issue.origin,
        issue.minimum,
        issue.inclusive === false ? "more than" : "at least",
      );
    case "too_big":
      return boundWords(
        issue.origin,
        issue.maximum,
        issue.inclusive === false ? "less than" : "at most",
      );
    case "unrecognized_keys":
      return `${issue.keys.map((key) => `"${key}"`).join(", ")} can't be asked here`;
    case "invalid_value":
      return `it must be ${issue.values.map((value) => `"${String(value)}"`).join(" or ")}`;
    case "invalid_format":
      return formatWords[issue.format] ?? patternWords(issue.message);
    default:
      return issue.message;
  }
}

const typeWords: Readonly<Record<string, string>> = {
  number: "a number",
  int: "a whole number",
  string: "a text",
  boolean: "true or false",
  array: "a list",
  object: "a group of members",
};

const formatWords: Readonly<Record<string, string>> = {
  date: "it must be a real day, written YYYY-MM-DD",
};

/** The contract's own words for a pattern; a bare pattern would tell a person nothing. */
const patternWords = (message: string): string =>
  message.startsWith("must ") ? `it ${message}` : "it must be written as the contract says";

function boundWords(origin: string, bound: number | bigint, sense: string): string {
  if (origin === "string")
    return `it must have ${sense} ${bound} ${Number(bound) === 1 ? "letter" : "letters"}`;
  if (origin === "array") return `it must hold ${sense} ${bound}`;
  return `it must be ${sense} ${bound}`;
}

/**
 * What a caller asked, checked against its contract; the same check for the command line and for HTTP.
 * `placeName` names a fault's place in the caller's own words (an option, say); the pointer itself when absent.
 * Errors: `input-invalid`, with every fault's pointer, the rule, the value received and the remedy.
 */
export function readRequest<S extends z.ZodType>(
  schema: S,
  input: unknown,
  what: string,
  placeName: (pointer: string) => string = (pointer) => pointer,
): z.output<S> {
  const outcome = schema.safeParse(input);
  if (outcome.success) return outcome.data;
  const places: ProblemPlace[] = outcome.error.issues.map((issue) => ({
    pointer: pointerOf(issue.path),
    detail: `${ruleWords(issue)}; received ${shown(valueAt(input, issue.path))}`,
  }));
  const list = places
    .map((place) => `${placeName(place.pointer) || "the whole"}: ${place.detail}`)
    .join(". ");
  throw new Problem(
    "input-invalid",
    `${what} does not follow its rules. ${list}. Correct it and ask again.`,
    { places },
  );
}
