import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { showProgress } from "../../api/cli/show-progress.ts";

let written: string[];
let isTty: boolean;
let clock: number;

beforeEach(() => {
  written = [];
  isTty = process.stderr.isTTY;
  clock = 0;
  vi.spyOn(performance, "now").mockImplementation(() => clock);
  vi.spyOn(process.stderr, "write").mockImplementation((text) => {
    written.push(String(text));
    return true;
  });
});
afterEach(() => {
  process.stderr.isTTY = isTty;
  vi.restoreAllMocks();
});

describe("progress on the terminal", () => {
  it("stays silent for work of under a second, then says how far it is, and clears itself", () => {
    process.stderr.isTTY = true;
    const { progress, finish } = showProgress();
    clock = 900;
    progress("rows read", 10, 100);
    expect(written).toEqual([]);
    clock = 1500;
    progress("rows read", 55, 100);
    clock = 1510;
    progress("rows read", 56, 100);
    expect(written.join("")).toContain("rows read: 55 of 100 (55 %)");
    expect(written).toHaveLength(1);
    finish();
    expect(written.at(-1)).toBe("\r\u001b[K");
  });

  it("writes nothing where nobody watches", () => {
    process.stderr.isTTY = false;
    const { progress, finish } = showProgress();
    clock = 5000;
    progress("rows read", 55, 100);
    finish();
    expect(written).toEqual([]);
  });
});
