import { execFileSync, spawnSync } from "node:child_process";
import { copyFileSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
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

afterEach(() => {
  rmSync(canary, { force: true });
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

/** Lints text as a file of the screen's folder, in a house of its own: other tests read the real one meanwhile. */
const lintScreen = (text: string): string => {
  const house = mkdtempSync(join(tmpdir(), "sparewright-canary-"));
  try {
    mkdirSync(join(house, "ui"));
    copyFileSync(join(root, "biome.json"), join(house, "biome.json"));
    writeFileSync(join(house, "ui/canary-violation.tsx"), text);
    const run = spawnSync(
      join(root, "node_modules/.bin/biome"),
      ["lint", "--vcs-enabled=false", "ui"],
      {
        cwd: house,
        encoding: "utf8",
      },
    );
    expect(run.stdout + run.stderr).toContain("Checked 1 file");
    return run.stdout + run.stderr;
  } finally {
    rmSync(house, { recursive: true, force: true });
  }
};

test("the rule check sees TSX: the screen may not reach behind the contract", () => {
  expect(
    lintScreen(
      'import type { KitAnswer } from "../api/contract/kit.contract.ts";\nexport type Allowed = KitAnswer;\n',
    ),
  ).not.toContain("knows only the HTTP contract");
  expect(
    lintScreen(
      'import type { GraphStore } from "../api/store/graph-store.ts";\nexport type Forbidden = GraphStore;\n',
    ),
  ).toContain("knows only the HTTP contract");
});
