import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { afterAll, describe, expect, it } from "vitest";

const scoring = fileURLToPath(new URL("../../api/scoring", import.meta.url));
const folder = mkdtempSync(join(tmpdir(), "sparewright-pages-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const pages = readdirSync(scoring)
  .filter((room) => existsSync(join(scoring, room, "METHOD.md")))
  .map((room) => ({ room, path: join(scoring, room, "METHOD.md") }));

/** The examples of a page as one program: imports made whole, every `value; // => told` turned into an entry to compare. */
function programOf(page: string, path: string): { readonly code: string; readonly told: number } {
  const blocks = [...page.matchAll(/```ts\n([\s\S]*?)```/g)].map((found) => found[1] ?? "");
  let told = 0;
  const lines = blocks
    .join("\n")
    .split("\n")
    .map((line) => {
      const imported = line.match(/^import (.+) from "(\.[^"]+)";$/);
      if (imported !== null) {
        const target = pathToFileURL(join(dirname(path), imported[2] ?? "")).href;
        return `import ${imported[1]} from ${JSON.stringify(target)};`;
      }
      const claim = line.match(/^(.+?);\s*\/\/ => (.+)$/);
      if (claim === null) return line;
      told += 1;
      return `claims.push([${claim[1]}, ${JSON.stringify(claim[2])}]);`;
    });
  return { code: `export const claims = [];\n${lines.join("\n")}`, told };
}

/** A figure as the page tells it: to as many digits as are written there. */
function shownLike(value: unknown, told: string): string {
  if (typeof value !== "number" || !/^-?[\d.]+$/.test(told)) return JSON.stringify(value);
  return value.toFixed(told.split(".")[1]?.length ?? 0);
}

describe("the pages on methods", () => {
  it("are there for every section on methods", () => {
    expect(pages.map(({ room }) => room)).toEqual(
      expect.arrayContaining([
        "aboard",
        "choice",
        "classes",
        "commonality",
        "coverage",
        "demand",
        "doubt",
        "kit",
        "minimums",
        "order",
        "packs",
        "simulation",
        "standardise",
        "sufficiency",
      ]),
    );
  });

  it.each(pages)("$room: its worked example comes to what it says", async ({ room, path }) => {
    const page = readFileSync(path, "utf8");
    const { code, told } = programOf(page, path);
    expect(told, "a page shows at least two figures").toBeGreaterThan(1);
    const file = join(folder, `${room}.ts`);
    writeFileSync(file, code);
    const run: { claims: readonly (readonly [unknown, string])[] } = await import(
      pathToFileURL(file).href
    );
    expect(run.claims).toHaveLength(told);
    for (const [value, words] of run.claims) expect(shownLike(await value, words)).toBe(words);
  });

  it.each(pages)("$room: has its question, its limits and its source", ({ path }) => {
    const page = readFileSync(path, "utf8");
    for (const heading of ["## What it answers", "## Worked example", "## What it leaves out"]) {
      expect(page).toContain(heading);
    }
    expect(page).toMatch(/^## Sources?$/m);
  });
});
