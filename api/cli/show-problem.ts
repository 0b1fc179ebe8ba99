import { problemCatalogue } from "../errors/catalogue.ts";
import { Problem } from "../errors/problem.ts";
import { sayAside } from "./say.ts";
import { plainText } from "./table.ts";

/** Exit code of a failure: 2 when what was asked is invalid, 1 for everything else. */
export const exitCodeOf = (problem: Problem): number => (problem.kind === "invalid" ? 2 : 1);

/** Any thrown value as a problem; the inside of an unexpected failure shows only when SPAREWRIGHT_DEBUG is set. */
function problemOf(error: unknown): Problem {
  if (error instanceof Problem) return error;
  const what = error instanceof Error ? error.message : String(error);
  return new Problem(
    "unexpected",
    `Something failed that should not have: ${what}. Nothing more was changed; please report what you did.`,
    { cause: error },
  );
}

/** Says what went wrong on the error stream and returns the exit code. */
export function showProblem(error: unknown): number {
  const problem = problemOf(error);
  sayAside(`${problemCatalogue[problem.code].title} (${problem.code}).`);
  sayAside(plainText(problem.message));
  for (const [side, words] of [
    ["yours", "What you gave"],
    ["theirs", "What is there"],
  ] as const) {
    const version = problem.facts[side];
    if (version !== undefined) sayAside(plainText(`${words}: ${JSON.stringify(version)}`));
  }
  if (problem.kind === "bug" && process.env["SPAREWRIGHT_DEBUG"] && error instanceof Error) {
    sayAside(error.stack ?? "");
  }
  return exitCodeOf(problem);
}
