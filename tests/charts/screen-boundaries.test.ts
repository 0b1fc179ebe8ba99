import { readdirSync, readFileSync } from "node:fs";
import { join, normalize, relative } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, it } from "vitest";

const root = fileURLToPath(new URL("../..", import.meta.url));

interface Import {
  readonly from: string;
  readonly to: string;
  readonly isTypeOnly: boolean;
}

/** Relative imports of a file, as paths from the top of the house. */
function importsOf(path: string, text: string): readonly Import[] {
  return [...text.matchAll(/(import|export)\s+(type\s)?[^;"]*?from\s+"(\.[^"]+)"/g)].map(
    (found) => ({
      from: relative(root, path),
      to: relative(root, normalize(join(path, "..", found[3] ?? ""))),
      isTypeOnly: found[2] !== undefined,
    }),
  );
}

const allowed = (entry: Import): boolean =>
  entry.to.startsWith("ui/") ||
  entry.to.startsWith("graph-schema/") ||
  (entry.to.startsWith("api/contract/") && entry.isTypeOnly);

/** The dependency check reads plain TypeScript only; this holds the screen's .tsx files to the same rule. */
it("lets the screen know the schema and the types of the contract, nothing else of the house", () => {
  const files = readdirSync(join(root, "ui"), { recursive: true, encoding: "utf8" })
    .filter((name) => /\.tsx?$/.test(name))
    .map((name) => join(root, "ui", name));
  const imports = files.flatMap((path) => importsOf(path, readFileSync(path, "utf8")));
  expect(imports.length).toBeGreaterThan(50);
  expect(imports.filter((entry) => !allowed(entry))).toEqual([]);
});

it("would see a violation", () => {
  const [found] = importsOf(
    join(root, "ui/pages/start/x.tsx"),
    'import {\n  planKit,\n} from "../../../api/plans/plan-kit.ts";',
  );
  expect(found).toMatchObject({ to: "api/plans/plan-kit.ts", isTypeOnly: false });
  expect(found === undefined || allowed(found)).toBe(false);
});
