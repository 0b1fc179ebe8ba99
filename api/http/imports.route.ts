import { z } from "zod";
import {
  importAnswer,
  importHistory,
  importOptions,
  undoAnswer,
} from "../contract/import.contract.ts";
import { Problem } from "../errors/problem.ts";
import { importFile } from "../plans/import-file.ts";
import { listImports } from "../plans/list-imports.ts";
import { readRequest } from "../plans/read-request.ts";
import { undoImport } from "../plans/undo-import.ts";
import { getRoute, type Route } from "./route.ts";
import { writerOf } from "./writer-of.ts";

const importQuery = z.strictObject({
  name: z.string().min(1).max(255).meta({ description: "The file's name" }),
  options: z
    .string()
    .max(100_000)
    .optional()
    .meta({ description: "ImportOptions as JSON: dryRun, mapping, vessel, currency, dateOrder" }),
});

function optionsIn(text: string | undefined) {
  if (text === undefined) return {};
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    throw new Problem(
      "input-invalid",
      `The query parameter "options" must be JSON; received "${text.slice(0, 80)}". Send an object such as {"dryRun":true}.`,
      { places: [{ pointer: "/options", detail: "not JSON" }] },
    );
  }
  return readRequest(importOptions, value, "What is asked of the import");
}

export const importRoute: Route = {
  method: "post",
  path: "/api/imports",
  name: "importFile",
  summary: "Reads a spreadsheet and says what it would change; commits it unless options.dryRun",
  problems: [
    "file-empty",
    "file-binary",
    "columns-unmatched",
    "not-found",
    "write-stale",
    "key-taken",
  ],
  query: importQuery,
  body: { kind: "file" },
  answer: { kind: "json", schema: importAnswer },
  handle: (call, { store, now }) => {
    const query = importQuery.parse(call.query);
    const bytes = call.body instanceof Uint8Array ? call.body : new Uint8Array();
    return importFile(
      store,
      { name: query.name, bytes },
      optionsIn(query.options),
      writerOf(now()),
    );
  },
};

export const importsRoute = getRoute(
  {
    path: "/api/imports",
    name: "listImports",
    summary: "Every file taken in, newest first, and whether it was undone",
    problems: [],
  },
  z.strictObject({}),
  importHistory,
  (_call, { store }) => listImports(store),
);

export const undoRoute: Route = {
  method: "post",
  path: "/api/imports/{id}/undo",
  name: "undoImport",
  summary: "Takes back a whole import",
  problems: ["not-found", "undo-blocked"],
  answer: { kind: "json", schema: undoAnswer },
  handle: ({ parameters }, { store, now }) =>
    undoImport(store, parameters["id"] ?? "", writerOf(now())),
};
