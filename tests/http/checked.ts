import { expect } from "vitest";
import type { z } from "zod";
import { openApiFaults } from "./open-api-check.ts";

interface Answer {
  readonly status: number;
  readonly body: unknown;
  readonly text: string;
}

/** The body, once it fits both the zod contract and the OpenAPI description. */
export function checked<S extends z.ZodType>(
  response: Answer,
  path: string,
  method: string,
  schema: S,
): z.output<S> {
  expect(response.status, response.text).toBe(200);
  expect(openApiFaults(path, method, 200, "application/json", response.body)).toEqual([]);
  return schema.parse(response.body);
}
