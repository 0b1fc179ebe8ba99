import { type ChildProcess, execFile, fork } from "node:child_process";
import { once } from "node:events";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";
import type { Figure } from "./figure.ts";
import type { Trial } from "./import-trial.ts";

const rows = 100_000;
const trials = 7;

/** Median of an odd number of measurements. */
const median = (values: readonly number[]): number =>
  [...values].sort((a, b) => a - b)[(values.length - 1) / 2] ?? Number.NaN;

const startTrials = (what: "parse" | "dry-run"): ChildProcess =>
  fork(fileURLToPath(new URL("./import-trial.ts", import.meta.url)), [what, String(rows)]);

async function measure(side: ChildProcess): Promise<Trial> {
  side.send("go");
  const [trial] = (await once(side, "message")) as [Trial];
  return trial;
}

interface CommitRun {
  readonly parseMs: number;
  readonly commitMs: number;
  readonly peakBytes: number;
  readonly changes: number;
  readonly reports: number;
}

/** Parse, propose and commit into SQLite in turns, in a process of its own so that its peak memory is its own. */
async function commitRun(): Promise<CommitRun> {
  const script = fileURLToPath(new URL("./measure-import.ts", import.meta.url));
  const { stdout } = await promisify(execFile)(process.execPath, [script, String(rows)]);
  return JSON.parse(stdout) as CommitRun;
}

/**
 * A 100 000-row flat list of 22 columns: the dry run (bytes to proposal, empty graph) against papaparse merely
 * decoding and parsing the same bytes, in turns, each in its own process; medians after one trial to warm up.
 */
export async function importFigures(): Promise<Figure[]> {
  const sides = { parse: startTrials("parse"), dryRun: startTrials("dry-run") };
  const parse: number[] = [];
  const dryRun: number[] = [];
  let megabytes = 0;
  try {
    for (let trial = 0; trial <= trials; trial += 1) {
      const parsed = await measure(sides.parse);
      const run = await measure(sides.dryRun);
      if (trial === 0) continue;
      parse.push(parsed.milliseconds);
      dryRun.push(run.milliseconds);
      megabytes = Math.max(megabytes, run.megabytes);
    }
  } finally {
    for (const side of Object.values(sides)) side.kill();
  }
  const ratio = median(dryRun) / median(parse);
  const whole = await commitRun();
  const commitRatio = whole.commitMs / whole.parseMs;
  return [
    { name: "dry run / papaparse", value: ratio, unit: "times", target: "≤ 4", meets: ratio <= 4 },
    { name: "dry run", value: median(dryRun), unit: "ms", target: "none", meets: true },
    { name: "papaparse alone", value: median(parse), unit: "ms", target: "none", meets: true },
    {
      name: "peak memory of dry runs",
      value: megabytes,
      unit: "MB",
      target: "< 1000",
      meets: megabytes < 1000,
    },
    {
      name: "read, propose and commit / papaparse",
      value: commitRatio,
      unit: "times",
      target: "≤ 12",
      meets: commitRatio <= 12,
    },
    { name: "commit", value: whole.commitMs, unit: "ms", target: "none", meets: true },
    { name: "changes committed", value: whole.changes, unit: "1", target: "none", meets: true },
    {
      name: "peak memory with commits",
      value: whole.peakBytes / 1e6,
      unit: "MB",
      target: "< 1000",
      meets: whole.peakBytes < 1e9,
    },
    {
      name: "progress reports in a run",
      value: whole.reports,
      unit: "1",
      target: "> 0",
      meets: whole.reports > 0,
    },
  ];
}
