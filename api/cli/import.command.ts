import { writeFile } from "node:fs/promises";
import { basename } from "node:path";
import type { Command } from "commander";
import { type ImportAnswer, importOptions } from "../contract/import.contract.ts";
import { Problem } from "../errors/problem.ts";
import { importFile } from "../plans/import-file.ts";
import { readRequest } from "../plans/read-request.ts";
import { type GlobalOptions, openForPreview, openForWriting } from "./open-graph.ts";
import { bytesOf } from "./read-file.ts";
import { gatherMapping, given, readNumber } from "./read-options.ts";
import { sayAside, sayDocument } from "./say.ts";
import { showImport } from "./show-import.ts";
import { showProblem } from "./show-problem.ts";
import { showProgress } from "./show-progress.ts";

interface ImportCommandOptions extends GlobalOptions {
  readonly dryRun?: boolean;
  readonly kind?: string;
  readonly map?: Readonly<Record<string, string | null>>;
  readonly vessel?: string;
  readonly supplier?: string;
  readonly maker?: string;
  readonly fillDown?: readonly string[];
  readonly delimiter?: string;
  readonly headerLine?: number;
  readonly currency?: string;
  readonly dateOrder?: string;
  readonly decimal?: string;
  readonly rejected?: string;
}

async function writeRejected(path: string, answers: readonly ImportAnswer[]): Promise<void> {
  const texts = answers.map((answer) => answer.rejectedCsv).filter((text) => text !== null);
  const [text] = texts;
  if (text === undefined) {
    sayAside(`No row was rejected; ${path} is not written.`);
    return;
  }
  try {
    await writeFile(path, text);
  } catch (error) {
    throw new Problem(
      "file-unreadable",
      `Rejected rows need a file that can be written; ${path} cannot be. Choose another with --rejected.`,
      { cause: error },
    );
  }
  sayAside(`Rejected rows are in ${path}: correct them there and import that file.`);
}

export function addImportCommand(program: Command): void {
  program
    .command("import")
    .description("read spreadsheets (CSV), say what they change, and take them in")
    .argument("<file...>", "one or more files")
    .option("--dry-run", "only say what would change")
    .option("--kind <kind>", "kind of list, where the columns do not tell")
    .option("--map <pair>", 'what a column means: "Header=Part.partNumber"', gatherMapping)
    .option("--vessel <name>", "vessel of rows that name none")
    .option("--supplier <name>", "supplier of rows that name none: whose price list it is")
    .option("--maker <name>", "maker of rows that name none")
    .option(
      "--fill-down <column>",
      "column whose empty cells take the value above, as merged cells need",
      (column: string, known: readonly string[] = []) => [...known, column],
    )
    .option("--delimiter <name>", "comma, semicolon, tab or pipe, where it is not found")
    .option("--header-line <number>", "line of the column names, where not found", readNumber)
    .option("--currency <code>", "currency of prices that name none")
    .option("--date-order <order>", "dmy or mdy, for dates such as 03/04/2026")
    .option("--decimal <mark>", "decimal mark, . or ,")
    .option("--rejected <file>", "where to put rejected rows, with their problem beside them")
    .action(async (files: readonly string[], _options: unknown, command: Command) => {
      const options = command.optsWithGlobals<ImportCommandOptions>();
      if (options.rejected !== undefined && files.length > 1) {
        throw new Problem(
          "input-invalid",
          `--rejected takes the rows of one file; received ${files.length} files. Import them one by one.`,
        );
      }
      const settings = readRequest(
        importOptions,
        given({
          dryRun: options.dryRun,
          listKind: options.kind,
          mapping: options.map,
          vessel: options.vessel,
          supplier: options.supplier,
          maker: options.maker,
          fillDown: options.fillDown,
          delimiter: options.delimiter,
          headerLine: options.headerLine,
          currency: options.currency?.toUpperCase(),
          dateOrder: options.dateOrder,
          decimal: options.decimal,
        }),
        "What is asked of the import",
        (pointer) =>
          pointer
            .replace("/listKind", "/kind")
            .replace("/mapping", "/map")
            .replace("/", "--")
            .replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`),
      );
      const contents = await Promise.all(files.map(bytesOf));
      const isPreview = options.dryRun === true;
      const graph = await (isPreview ? openForPreview(options) : openForWriting(options));
      const answers: ImportAnswer[] = [];
      try {
        for (const [at, bytes] of contents.entries()) {
          const { progress, finish } = showProgress();
          const occasion = { who: "command line", at: new Date().toISOString() };
          const source = { name: basename(files[at] ?? ""), bytes };
          let answer: ImportAnswer;
          try {
            answer = await importFile(graph.store, source, settings, occasion, progress).finally(
              finish,
            );
          } catch (error) {
            // One of several files that cannot be read at all does not keep the others out.
            if (files.length === 1 || !(error instanceof Problem) || error.kind !== "invalid") {
              if (files.length > 1)
                sayAside(`${source.name} was not taken in, nor any file after it.`);
              throw error;
            }
            sayAside(`${source.name} was not taken in:`);
            process.exitCode = showProblem(error);
            continue;
          }
          answers.push(answer);
          if (options.json === true) sayDocument(answer);
          else showImport(answer);
        }
        if (options.rejected !== undefined) await writeRejected(options.rejected, answers);
      } finally {
        await graph.close();
      }
      if (answers.some(({ rows }) => rows.accepted === 0 && rows.rejected > 0))
        process.exitCode = 2;
    });
}
