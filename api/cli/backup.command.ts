import { createReadStream, createWriteStream } from "node:fs";
import { rename, rm } from "node:fs/promises";
import { Readable } from "node:stream";
import { pipeline } from "node:stream/promises";
import { createGunzip, createGzip } from "node:zlib";
import type { Command } from "commander";
import { Problem } from "../errors/problem.ts";
import { type BackupTally, backupLines, restoreGraph } from "../plans/backup-graph.ts";
import { splitLines } from "../plans/split-lines.ts";
import { groupDigits } from "../plans/words.ts";
import { type GlobalOptions, openExisting, openForWriting } from "./open-graph.ts";
import { whyUnread } from "./read-file.ts";
import { sayDocument, sayWords } from "./say.ts";
import { showProgress } from "./show-progress.ts";

const isPacked = (path: string): boolean => path.endsWith(".gz");

/** Written beside its place and then moved there, so that a half backup never bears the name of a whole one. */
async function writeBackup(
  path: string,
  lines: AsyncGenerator<string, BackupTally>,
): Promise<BackupTally> {
  let tally: BackupTally = { records: 0, sha256: "" };
  const text = async function* () {
    tally = yield* lines;
  };
  const passing = `${path}.part`;
  try {
    const target = createWriteStream(passing, { mode: 0o600, flush: true });
    if (isPacked(path)) await pipeline(Readable.from(text()), createGzip(), target);
    else await pipeline(Readable.from(text()), target);
    await rename(passing, path);
  } catch (cause) {
    await rm(passing, { force: true });
    throw asFileProblem(cause, `A backup needs a file that can be written; ${path} cannot be`);
  }
  return tally;
}

async function* linesOf(path: string): AsyncGenerator<string> {
  const file = createReadStream(path);
  const input = isPacked(path) ? file.pipe(createGunzip()) : file;
  // An error of the file does not reach the stream it is piped into by itself.
  file.on("error", (cause) => input.destroy(cause));
  try {
    yield* splitLines(input);
    if (input.errored !== null) throw input.errored;
  } catch (cause) {
    throw asFileProblem(cause, `A backup must be readable; ${path} is not`);
  } finally {
    file.destroy();
  }
}

const asFileProblem = (cause: unknown, rule: string): unknown =>
  cause instanceof Problem || !(cause instanceof Error && "code" in cause)
    ? cause
    : new Problem("file-unreadable", `${rule}: ${whyUnread(cause)}. Name another file.`, { cause });

export function addBackupCommand(program: Command): void {
  program
    .command("backup")
    .description("everything, journal included, as one file (packed when its name ends in .gz)")
    .argument("<file>", "file to write")
    .action(async (path: string, _options: unknown, command: Command) => {
      const options = command.optsWithGlobals<GlobalOptions>();
      const graph = await openExisting(options);
      const { progress, finish } = showProgress();
      try {
        const total = await graph.store.sequence();
        const lines = backupLines(graph.store, (done) => progress("records", done, total));
        const tally = await writeBackup(path, lines).finally(finish);
        if (options.json === true) sayDocument({ file: path, ...tally });
        else
          sayWords(`Written: ${path}, ${groupDigits(tally.records)} records with their journal.`);
      } finally {
        await graph.close();
      }
    });
}

export function addRestoreCommand(program: Command): void {
  program
    .command("restore")
    .description("fill an empty database, of either kind, from a backup")
    .argument("<file>", "a file that `backup` wrote")
    .action(async (path: string, _options: unknown, command: Command) => {
      const options = command.optsWithGlobals<GlobalOptions>();
      const graph = await openForWriting(options);
      const { progress, finish } = showProgress();
      try {
        const answer = await restoreGraph(
          graph.store,
          () => linesOf(path),
          (done, total) => progress("records", done, total),
        ).finally(finish);
        if (options.json === true) sayDocument(answer);
        else sayWords(answer.sentence);
      } finally {
        await graph.close();
      }
    });
}
