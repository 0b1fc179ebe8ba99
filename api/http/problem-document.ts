import type { ProblemDocument } from "../contract/problem.contract.ts";
import { problemCatalogue } from "../errors/catalogue.ts";
import type { Problem } from "../errors/problem.ts";
import { problemStatus } from "./problem-status.ts";

/** A problem as it goes over the wire (RFC 9457, section 3; `type` is a relative reference, section 3.1.1). */
export function problemDocumentOf(problem: Problem): ProblemDocument {
  return {
    type: `/problems/${problem.code}`,
    title: problemCatalogue[problem.code].title,
    status: problemStatus(problem.code),
    detail: problem.message,
    code: problem.code,
    ...(problem.places.length === 0
      ? {}
      : { errors: problem.places.map(({ detail, pointer }) => ({ detail, pointer })) }),
    ...(Object.keys(problem.facts).length === 0 ? {} : { facts: { ...problem.facts } }),
  };
}
