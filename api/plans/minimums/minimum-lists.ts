import { readdir, readFile } from "node:fs/promises";
import { join } from "node:path";
import { Problem } from "../../errors/problem.ts";
import { packageRoot } from "../package-root.ts";
import { type MinimumList, readMinimumList } from "./read-minimum-list.ts";

const folder = join(packageRoot, "importers", "minimum-lists");

/**
 * The published lists, a CSV each, or those asked for by id (the file's name without `.csv`).
 * Errors: `not-found`, naming what there is; those of `readMinimumList`.
 */
export async function minimumLists(
  wanted: readonly string[] | undefined,
): Promise<{ readonly all: readonly MinimumList[]; readonly chosen: readonly MinimumList[] }> {
  const names = (await readdir(folder)).filter((name) => name.endsWith(".csv")).sort();
  const all = await Promise.all(
    names.map(async (name) =>
      readMinimumList(name.replace(/\.csv$/, ""), await readFile(join(folder, name))),
    ),
  );
  const chosen = (wanted ?? all.map(({ id }) => id)).map((id) => {
    const found = all.find((list) => list.id === id.toLowerCase());
    if (found !== undefined) return found;
    throw new Problem(
      "not-found",
      `No minimum list is called "${id}". There are: ${all.map((list) => list.id).join(", ")}. A list of your own is given as a CSV file.`,
    );
  });
  return { all, chosen };
}
