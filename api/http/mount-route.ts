import { Readable } from "node:stream";
import { pipeline } from "node:stream/promises";
import express, { type Express, type Request, type RequestHandler, type Response } from "express";
import { Problem } from "../errors/problem.ts";
import { readRequest } from "../plans/read-request.ts";
import { uploadLimitMegabytes } from "./reply-with-problem.ts";
import type { Attachment, Route, RouteContext } from "./route.ts";

const fileTypes = ["text/csv", "application/octet-stream"];

const bodyReaders = {
  json: express.json({ limit: "1mb", strict: false }),
  file: express.raw({ type: fileTypes, limit: `${uploadLimitMegabytes}mb` }),
} as const;

/** Refuses a body of another kind than the route takes, before it is read. */
const kindChecked =
  (route: Route): RequestHandler =>
  (request, _response, next) => {
    const wanted = route.body?.kind === "json" ? ["application/json"] : fileTypes;
    const received = request.headers["content-type"];
    const hasBody = request.headers["content-length"] !== "0";
    if ((hasBody || received !== undefined) && !wanted.includes(mediaTypeIn(received))) {
      throw new Problem(
        "media-type-refused",
        `${route.path} takes ${wanted.join(" or ")}; received "${received ?? "no content type"}". Set the Content-Type header.`,
      );
    }
    next();
  };

const mediaTypeIn = (header: string | undefined): string =>
  (header ?? "").split(";")[0]?.trim().toLowerCase() ?? "";

const isAttachment = (route: Route, answer: unknown): answer is Attachment =>
  route.answer.kind === "text" && typeof answer === "object";

/** A signal that is aborted when the connection closes before the answer was sent. */
function untilGone(response: Response): AbortSignal {
  const gone = new AbortController();
  response.once("close", () => {
    if (!response.writableFinished) gone.abort(new Error("The caller went away."));
  });
  return gone.signal;
}

function callFrom(route: Route, request: Request, signal: AbortSignal) {
  const parameters: Record<string, string> = {};
  for (const [name, value] of Object.entries(request.params)) parameters[name] = String(value);
  const query =
    route.query === undefined ? {} : readRequest(route.query, { ...request.query }, "The query");
  const body =
    route.body?.kind === "json"
      ? readRequest(route.body.schema, request.body, "The request's body")
      : request.body;
  return { parameters, query, body: body as unknown, signal };
}

/**
 * Sends a long answer piece by piece. Its first piece is awaited before anything is sent, so that a refusal still
 * reaches the caller as one; a failure later cuts the connection, which no caller takes for a whole answer.
 */
async function sendPieces(
  pieces: AsyncIterable<string>,
  response: Response,
  signal: AbortSignal,
): Promise<void> {
  const iterator = pieces[Symbol.asyncIterator]();
  const first = await iterator.next();
  const all = async function* () {
    if (first.done !== true) yield first.value;
    yield* { [Symbol.asyncIterator]: () => iterator };
  };
  try {
    await pipeline(Readable.from(all()), response);
  } catch (cause) {
    if (!signal.aborted) response.destroy(cause instanceof Error ? cause : undefined);
  }
}

/** Puts a declared route on the app: body read, request checked, answer sent. */
export function mountRoute(app: Express, route: Route, context: RouteContext): void {
  const path = route.path.replaceAll(/\{(\w+)\}/g, ":$1");
  const readers =
    route.body === undefined ? [] : [kindChecked(route), bodyReaders[route.body.kind]];
  app[route.method](path, ...readers, async (request, response) => {
    const signal = untilGone(response);
    let answer: unknown;
    try {
      answer = await route.handle(callFrom(route, request, signal), context);
    } catch (cause) {
      // Nobody is left to be told, and stopping is what was asked for.
      if (signal.aborted) return;
      throw cause;
    }
    if (signal.aborted) return;
    if (isAttachment(route, answer)) {
      response.attachment(answer.fileName).type(answer.mediaType);
      if (typeof answer.text === "string") response.send(answer.text);
      else await sendPieces(answer.text, response, signal);
      return;
    }
    response.json(answer);
  });
}
