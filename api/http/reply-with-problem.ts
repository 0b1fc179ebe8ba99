import type { ErrorRequestHandler } from "express";
import { Problem } from "../errors/problem.ts";
import { problemDocumentOf } from "./problem-document.ts";

export const uploadLimitMegabytes = 64;

/** What body-parser and the router throw: a status and, from body-parser, a type. */
function rawFault(error: unknown): { readonly status?: unknown; readonly type?: unknown } {
  return typeof error === "object" && error !== null ? error : {};
}

/** Any thrown value as a problem of the catalogue; nothing of an unexpected failure's inside reaches the wire. */
export function problemFrom(error: unknown): Problem {
  if (error instanceof Problem) return error;
  const { status, type } = rawFault(error);
  if (type === "entity.parse.failed") {
    return new Problem(
      "input-invalid",
      "The request's body must be JSON, and this one cannot be read as JSON. Send one JSON object.",
    );
  }
  if (type === "entity.too.large") {
    return new Problem(
      "file-too-large",
      `A request's body may hold ${uploadLimitMegabytes} MB for a file and 1 MB otherwise, and this one holds more. Split the file, or take it in by the command \`sparewright import\`.`,
    );
  }
  if (type === "encoding.unsupported" || type === "charset.unsupported") {
    return new Problem(
      "media-type-refused",
      "The body must be UTF-8, plain or compressed with gzip, deflate or brotli. Send it uncompressed.",
    );
  }
  if (typeof status === "number" && status >= 400 && status < 500) {
    return new Problem(
      "input-invalid",
      "The request cannot be read as HTTP asks. Check its address, length and encoding.",
    );
  }
  return new Problem(
    "unexpected",
    "Something failed that should not have. Nothing was changed; please report what you did.",
    { cause: error },
  );
}

/** The last handler: every error leaves as `application/problem+json` (RFC 9457). */
export function replyWithProblem(report: (error: unknown) => void): ErrorRequestHandler {
  return (error: unknown, _request, response, next) => {
    const problem = problemFrom(error);
    if (problem.kind === "bug") report(error);
    if (response.headersSent) {
      next(error);
      return;
    }
    const document = problemDocumentOf(problem);
    response
      .status(document.status)
      .type("application/problem+json")
      .send(JSON.stringify(document));
  };
}
