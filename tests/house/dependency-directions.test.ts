import { execFileSync } from "node:child_process";
import { mkdirSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterEach, expect, test } from "vitest";

const root = join(import.meta.dirname, "../..");
const canary = join(root, "api/scoring/canary-violation.ts");

const cruise = (...folders: readonly string[]): { code: number; output: string } => {
  try {
    const output = execFileSync(
      join(root, "node_modules/.bin/depcruise"),
      ["--config", ".dependency-cruiser.cjs", ...folders],
      { cwd: root, encoding: "utf8", stdio: ["ignore", "pipe", "pipe"] },
    );
    return { code: 0, output };
  } catch (error) {
    const failed = error as { status: number; stdout: string };
    return { code: failed.status, output: failed.stdout };
  }
};

const screenCanary = join(root, "ui/canary-violation.tsx");
afterEach(() => {
  rmSync(canary, { force: true });
  rmSync(screenCanary, { force: true });
});

test("the rule check sees TypeScript: a forbidden import in scoring is reported", () => {
  mkdirSync(join(root, "api/scoring"), { recursive: true });
  writeFileSync(
    canary,
    'import type { GraphStore } from "../store/graph-store.ts";\nimport { readFileSync } from "node:fs";\nexport const canary: [GraphStore?, unknown?] = [undefined, readFileSync];\n',
  );
  const { code, output } = cruise("api/scoring");
  expect(code).not.toBe(0);
  expect(output).toContain("scoring-is-pure");
  expect(output).toContain("scoring-no-io");
});

test("the rule check sees TSX: the screen may not reach behind the contract", () => {
  const biome = (): string => {
    try {
      return execFileSync(join(root, "node_modules/.bin/biome"), ["lint", screenCanary], {
        cwd: root,
        encoding: "utf8",
        stdio: ["ignore", "pipe", "pipe"],
      });
    } catch (error) {
      return String((error as { stderr: string }).stderr);
    }
  };
  writeFileSync(
    screenCanary,
    'import type { KitAnswer } from "../api/contract/kit.contract.ts";\nexport type Allowed = KitAnswer;\n',
  );
  expect(biome()).not.toContain("knows only the HTTP contract");
  writeFileSync(
    screenCanary,
    'import type { GraphStore } from "../api/store/graph-store.ts";\nexport type Forbidden = GraphStore;\n',
  );
  expect(biome()).toContain("knows only the HTTP contract");
});
