import type { ProblemDocument } from "../../api/contract/problem.contract.ts";

/** An answer the server refused, as its problem document says it. */
export class Refusal extends Error {
  readonly problem: ProblemDocument;
  constructor(problem: ProblemDocument) {
    super(problem.detail);
    this.name = "Refusal";
    this.problem = problem;
  }
}

const isProblem = (value: unknown): value is ProblemDocument =>
  typeof value === "object" && value !== null && "detail" in value && "title" in value;

const unexplained = (status: number, title: string, detail: string): ProblemDocument => ({
  type: "about:blank",
  title,
  status,
  detail,
  code: "unexplained",
});

/** The server's document for a request; throws a Refusal with problem details (RFC 9457) otherwise. */
export async function ask<T>(path: string, init?: RequestInit): Promise<T> {
  let response: Response;
  try {
    response = await fetch(path, { credentials: "same-origin", ...init });
  } catch (error) {
    if (error instanceof DOMException && error.name === "AbortError") throw error;
    throw new Refusal(
      unexplained(
        0,
        "The program does not answer",
        "No connection to the program on this boat. Check that it is running, then try again.",
      ),
    );
  }
  const body: unknown = await response.json().catch(() => undefined);
  if (response.ok && body !== undefined) return body as T;
  throw new Refusal(
    isProblem(body)
      ? body
      : unexplained(
          response.status,
          "The program gave an answer this page cannot read",
          `Status ${response.status} without problem details. Reload the page; if it stays, restart the program.`,
        ),
  );
}

/** Posts a JSON document and returns the answering document. */
export const post = <T>(path: string, document: unknown, signal?: AbortSignal): Promise<T> =>
  ask<T>(path, {
    method: "POST",
    headers: { "content-type": "application/json" },
    body: JSON.stringify(document),
    ...(signal === undefined ? {} : { signal }),
  });
