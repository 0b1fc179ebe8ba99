import { afterEach, beforeEach, expect, vi } from "vitest";

const methods = ["log", "info", "warn", "error", "debug"] as const;
const calls: string[] = [];

beforeEach(() => {
  calls.length = 0;
  for (const method of methods) {
    vi.spyOn(console, method).mockImplementation((...parts: unknown[]) => {
      calls.push(`console.${method}: ${parts.map(String).join(" ")}`);
    });
  }
});

afterEach(() => {
  vi.restoreAllMocks();
  expect(calls, "a unit test must not write to the console").toEqual([]);
});
