import { mkdir, writeFile } from "node:fs/promises";
import { join } from "node:path";
import type { Command } from "commander";
import { Problem } from "../errors/problem.ts";
import { exportList, exportListNames } from "../plans/export-lists.ts";
import { type GlobalOptions, openForReading } from "./open-graph.ts";
import { sayAside } from "./say.ts";

interface ExportOptions extends GlobalOptions {
  readonly list: string;
  readonly out?: string;
}

async function writeText(path: string, text: string): Promise<void> {
  try {
    await writeFile(path, text);
  } catch (error) {
    throw new Problem(
      "file-unreadable",
      `An export needs a file that can be written; ${path} cannot be. Choose another with --out.`,
      { cause: error },
    );
  }
  sayAside(`Written: ${path}`);
}

export function addExportCommand(program: Command): void {
  program
    .command("export")
    .description("everything back as CSV, which can be imported again")
    .option("--list <name>", `${exportListNames.join(", ")}, or all`, "flat")
    .option("--out <path>", "file to write, or folder for all; the terminal when absent")
    .action(async (_options: unknown, command: Command) => {
      const options = command.optsWithGlobals<ExportOptions>();
      const isAll = options.list === "all";
      if (isAll && options.out === undefined) {
        throw new Problem(
          "input-invalid",
          "All lists together need a folder; --out names none. Add --out FOLDER, or choose one list.",
        );
      }
      const graph = await openForReading(options);
      try {
        if (graph.notice !== undefined) sayAside(graph.notice);
        if (isAll) await mkdir(options.out ?? "", { recursive: true });
        for (const name of isAll ? exportListNames : [options.list]) {
          const { fileName, text, notice } = await exportList(graph.store, name);
          if (notice !== undefined && !isAll) sayAside(notice);
          if (options.out === undefined) process.stdout.write(text);
          else await writeText(isAll ? join(options.out, fileName) : options.out, text);
        }
      } finally {
        await graph.close();
      }
    });
}
