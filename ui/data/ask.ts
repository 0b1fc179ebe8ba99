import type { ProblemDocument } from "../../api/contract/problem.contract.ts";
import { sawAnswer, sawSilence } from "./connection.ts";
import { keepAnswer, keptAnswer } from "./kept-answers.ts";

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
  code: status === 0 ? "away" : "unexplained",
});

const away = (detail: string) => new Refusal(unexplained(0, "The program does not answer", detail));

async function answerOf<T>(response: Response): Promise<T> {
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

const isStopped = (error: unknown) => error instanceof DOMException && error.name === "AbortError";

/** The response, or nothing where no program answers. */
async function reach(path: string, init?: RequestInit): Promise<Response | undefined> {
  try {
    return await fetch(path, { credentials: "same-origin", ...init });
  } catch (error) {
    if (isStopped(error)) throw error;
    return undefined;
  }
}

/**
 * The server's document for a question that changes nothing. When the program is away, the last answer to the same
 * question stands in, and the page says from when it is; a Refusal with problem details (RFC 9457) otherwise.
 */
export async function ask<T>(path: string, init?: RequestInit): Promise<T> {
  const question = `${path} ${typeof init?.body === "string" ? init.body : ""}`;
  const response = await reach(path, init);
  if (response !== undefined) {
    sawAnswer();
    const answer = await answerOf<T>(response);
    void keepAnswer(question, answer);
    return answer;
  }
  const kept = await keptAnswer(question);
  sawSilence(kept?.at);
  if (kept !== undefined) return kept.answer as T;
  throw away(
    "No connection to the program on this boat, and this was not looked at before. Check that it is running, then try again.",
  );
}

const asJson = (document: unknown, signal?: AbortSignal): RequestInit => ({
  method: "POST",
  headers: { "content-type": "application/json" },
  body: JSON.stringify(document),
  ...(signal === undefined ? {} : { signal }),
});

/** Asks with a JSON document; changes nothing. */
export const post = <T>(path: string, document: unknown, signal?: AbortSignal): Promise<T> =>
  ask<T>(path, asJson(document, signal));

/** Sends a change. When the program is away the change is refused, never kept for later. */
export async function change<T>(path: string, init: RequestInit): Promise<T> {
  const response = await reach(path, init);
  if (response === undefined) {
    sawSilence();
    throw away(
      "Nothing was changed: no connection to the program on this boat. What you entered still stands here; send it again when the program answers.",
    );
  }
  sawAnswer();
  return answerOf<T>(response);
}

/** Sends a change as a JSON document. */
export const send = <T>(
  path: string,
  document: unknown,
  method: "POST" | "PUT" | "PATCH" | "DELETE" = "POST",
): Promise<T> => change<T>(path, { ...asJson(document), method });
