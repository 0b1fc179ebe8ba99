import { readdir, readFile } from "node:fs/promises";
import { join } from "node:path";
import {
  type ImportAnswer,
  type ImportOptions,
  importOptions,
} from "../contract/import.contract.ts";
import { Problem } from "../errors/problem.ts";
import type { GraphStore, WriteOccasion } from "../store/graph-store.ts";
import { type ImportProgress, importFile } from "./import-file.ts";
import { readRequest } from "./read-request.ts";

/** Hand settings beside a file, `NAME.csv.options.json`: what a person would have typed. */
async function optionsBeside(path: string): Promise<ImportOptions> {
  let text: string;
  try {
    text = await readFile(`${path}.options.json`, "utf8");
  } catch {
    return {};
  }
  return readRequest(importOptions, JSON.parse(text), `${path}.options.json`);
}

/**
 * Takes in every CSV file of a folder, in the order of their names, as if a person had imported them one by one.
 * Errors: `file-unreadable` when the folder holds none, those of `importFile`.
 */
export async function openDemo(
  store: GraphStore,
  folder: string,
  occasion: WriteOccasion,
  progress?: ImportProgress,
): Promise<readonly ImportAnswer[]> {
  const names = (await readdir(folder).catch(() => [])).filter((name) => name.endsWith(".csv"));
  if (names.length === 0) {
    throw new Problem(
      "file-unreadable",
      `The demo is a folder of CSV files; ${folder} holds none. Install the program again.`,
    );
  }
  const answers: ImportAnswer[] = [];
  for (const [at, name] of names.sort().entries()) {
    progress?.("demo files", at, names.length);
    const path = join(folder, name);
    const source = { name, bytes: await readFile(path) };
    answers.push(await importFile(store, source, await optionsBeside(path), occasion));
  }
  return answers;
}
