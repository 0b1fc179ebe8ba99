import { z } from "zod";
import "../contract/problem.contract.ts";
import { type ProblemCode, problemCatalogue } from "../errors/catalogue.ts";
import { problemStatus } from "./problem-status.ts";
import type { Route } from "./route.ts";

type Json = { readonly [key: string]: unknown };

/** Problems any route may answer with. */
export const everyRoutesProblems = [
  "input-invalid",
  "access-refused",
  "store-busy",
  "store-damaged",
  "store-full",
  "unexpected",
] as const satisfies readonly ProblemCode[];

const withoutDialect = (schema: Json): Json => {
  const { $schema: _dialect, $id: _id, ...rest } = schema;
  return rest;
};

/** A reference for a schema with an id, the schema itself for one without. */
function schemaOf(schema: z.ZodType): Json {
  const id = z.globalRegistry.get(schema)?.id;
  if (id !== undefined) return { $ref: `#/components/schemas/${id}` };
  return withoutDialect(z.toJSONSchema(schema, { io: "output" }) as Json);
}

function parametersOf(route: Route): Json[] {
  const inPath = [...route.path.matchAll(/\{(\w+)\}/g)].map((match) => ({
    name: match[1],
    in: "path",
    required: true,
    schema: { type: "string" },
  }));
  const described = z.toJSONSchema(route.query ?? z.object({}), { io: "output" });
  const required = new Set(described.required ?? []);
  const inQuery = Object.entries(described.properties ?? {}).map(([name, schema]) => ({
    name,
    in: "query",
    required: required.has(name),
    schema,
  }));
  return [...inPath, ...inQuery];
}

function bodyOf(route: Route): Json {
  if (route.body === undefined) return {};
  const content =
    route.body.kind === "json"
      ? { "application/json": { schema: schemaOf(route.body.schema) } }
      : { "text/csv": {}, "application/octet-stream": {} };
  return { requestBody: { required: true, content } };
}

/** The codes a route declares, own and common. */
export function problemsOf(route: Route): readonly ProblemCode[] {
  const byBody: ProblemCode[] =
    route.body === undefined ? [] : ["file-too-large", "media-type-refused"];
  return [...new Set([...route.problems, ...byBody, ...everyRoutesProblems])];
}

function problemAnswers(route: Route): Json {
  const codesByStatus = Map.groupBy(problemsOf(route), problemStatus);
  const answers: Record<string, Json> = {};
  for (const [status, codes] of [...codesByStatus].sort(([a], [b]) => a - b)) {
    answers[status] = {
      description: codes.map((code) => `${code}: ${problemCatalogue[code].title}`).join("; "),
      content: {
        "application/problem+json": { schema: { $ref: "#/components/schemas/Problem" } },
      },
    };
  }
  return answers;
}

function answerOf(route: Route): Json {
  const content =
    route.answer.kind === "json"
      ? { "application/json": { schema: schemaOf(route.answer.schema) } }
      : { [route.answer.mediaType]: { schema: { type: "string" } } };
  return { "200": { description: route.summary, content }, ...problemAnswers(route) };
}

/**
 * The OpenAPI 3.1 description of the routes, generated from their zod contracts.
 * Source: OpenAPI Specification 3.1.1 (schemas are JSON Schema 2020-12).
 */
export function describeApi(routes: readonly Route[], version: string): Json {
  const paths: Record<string, Record<string, Json>> = {};
  for (const route of routes) {
    const entry = paths[route.path] ?? {};
    paths[route.path] = entry;
    entry[route.method] = {
      operationId: route.name,
      summary: route.summary,
      parameters: parametersOf(route),
      ...bodyOf(route),
      responses: answerOf(route),
    };
  }
  const { schemas } = z.toJSONSchema(z.globalRegistry, {
    io: "output",
    uri: (id) => `#/components/schemas/${id}`,
  });
  const components: Record<string, Json> = {};
  for (const [id, schema] of Object.entries(schemas))
    components[id] = withoutDialect(schema as Json);
  const problem = components["Problem"] ?? {};
  components["Problem"] = {
    ...problem,
    properties: {
      ...(problem["properties"] as Json),
      code: { type: "string", enum: Object.keys(problemCatalogue) },
    },
  };
  return {
    openapi: "3.1.1",
    info: {
      title: "Sparewright",
      version,
      description: "Spares and parts commonality for boats that sail far from any chandler.",
      license: { name: "MIT", identifier: "MIT" },
    },
    servers: [{ url: "/" }],
    paths,
    components: { schemas: components },
  };
}
