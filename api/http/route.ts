import type { z } from "zod";
import type { ProblemCode } from "../errors/catalogue.ts";
import type { GraphStore } from "../store/graph-store.ts";

/** What every route works on: the graph, and a clock so that tests can hold it still. */
export interface RouteContext {
  readonly store: GraphStore;
  readonly now: () => Date;
  /** Which program this is, and where its data lives, in words. */
  readonly about?: { readonly version: string; readonly database: string };
}

/** A downloadable text answer. */
export interface Attachment {
  readonly fileName: string;
  readonly mediaType: string;
  /** Whole, or piece by piece where it may be large. */
  readonly text: string | AsyncIterable<string>;
}

/** What one request brings. */
export interface RouteCall<Q, B> {
  readonly parameters: Readonly<Record<string, string>>;
  readonly query: Q;
  readonly body: B;
  /** Aborted when the caller goes away before the answer is sent. */
  readonly signal: AbortSignal;
}

interface RouteFacts {
  readonly method: "get" | "post" | "put" | "patch" | "delete";
  /** As OpenAPI writes it: `/api/imports/{id}/undo`. */
  readonly path: string;
  readonly name: string;
  readonly summary: string;
  /** What it may refuse with, besides the problems every route has. */
  readonly problems: readonly ProblemCode[];
}

/** A route as the app mounts it and OpenAPI describes it: one declaration for both. */
export interface Route extends RouteFacts {
  readonly query?: z.ZodObject;
  readonly body?: { readonly kind: "json"; readonly schema: z.ZodType } | { readonly kind: "file" };
  readonly answer:
    | { readonly kind: "json"; readonly schema: z.ZodType }
    | { readonly kind: "text"; readonly mediaType: string };
  readonly handle: (call: RouteCall<unknown, unknown>, context: RouteContext) => Promise<unknown>;
}

/** Declares a route that asks by address and query. */
export const getRoute = <Q extends z.ZodObject, A extends z.ZodType>(
  facts: Omit<RouteFacts, "method">,
  query: Q,
  answer: A,
  handle: (call: RouteCall<z.output<Q>, undefined>, context: RouteContext) => Promise<z.output<A>>,
): Route => ({
  ...facts,
  method: "get",
  query,
  answer: { kind: "json", schema: answer },
  handle: handle as Route["handle"],
});

/** Declares a route that asks by a JSON body. */
export const postRoute = <B extends z.ZodType, A extends z.ZodType>(
  facts: Omit<RouteFacts, "method">,
  body: B,
  answer: A,
  handle: (call: RouteCall<unknown, z.output<B>>, context: RouteContext) => Promise<z.output<A>>,
): Route => ({
  ...facts,
  method: "post",
  body: { kind: "json", schema: body },
  answer: { kind: "json", schema: answer },
  handle: handle as Route["handle"],
});

/** Declares a route that changes what its address names, by query, body or both. */
export const writeRoute = <Q extends z.ZodObject, B extends z.ZodType, A extends z.ZodType>(
  facts: RouteFacts,
  asked: { readonly query: Q; readonly body?: B },
  answer: A,
  handle: (
    call: RouteCall<z.output<Q>, z.output<B>>,
    context: RouteContext,
  ) => Promise<z.output<A>>,
): Route => ({
  ...facts,
  query: asked.query,
  ...(asked.body === undefined ? {} : { body: { kind: "json", schema: asked.body } }),
  answer: { kind: "json", schema: answer },
  handle: handle as Route["handle"],
});
