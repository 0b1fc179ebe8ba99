import { type ChildProcess, execFile, fork } from "node:child_process";
import { once } from "node:events";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";
import type { Figure } from "./figure.ts";
import { type FlatShapeName, flatShapes } from "./generate-flat-list.ts";
import type { Trial } from "./import-trial.ts";

const rows = 100_000;
const officeTrials = 7;
const shapeTrials = 5;

/** Median of an odd number of measurements. */
const median = (values: readonly number[]): number =>
  [...values].sort((a, b) => a - b)[(values.length - 1) / 2] ?? Number.NaN;

const startTrials = (what: "parse" | "dry-run", shape: FlatShapeName): ChildProcess =>
  fork(fileURLToPath(new URL("./import-trial.ts", import.meta.url)), [what, String(rows), shape]);

async function measure(side: ChildProcess): Promise<Trial> {
  side.send("go");
  const [trial] = (await once(side, "message")) as [Trial];
  return trial;
}

interface CommitRun {
  readonly parseMs: number;
  readonly commitMs: number;
  readonly parseCpuMs: number;
  readonly commitCpuMs: number;
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

interface DryRun {
  readonly shape: FlatShapeName;
  readonly ratio: number;
  readonly cpuRatio: number;
  readonly parseMs: number;
  readonly dryRunMs: number;
  readonly megabytes: number;
}

/** Parsing and the dry run in turns, each in its own process; medians after one trial to warm up. */
async function dryRunOf(shape: FlatShapeName): Promise<DryRun> {
  const sides = { parse: startTrials("parse", shape), dryRun: startTrials("dry-run", shape) };
  const parse: Trial[] = [];
  const dryRun: Trial[] = [];
  const trials = shape === "office" ? officeTrials : shapeTrials;
  try {
    for (let trial = 0; trial <= trials; trial += 1) {
      const parsed = await measure(sides.parse);
      const run = await measure(sides.dryRun);
      if (trial === 0) continue;
      parse.push(parsed);
      dryRun.push(run);
    }
  } finally {
    for (const side of Object.values(sides)) side.kill();
  }
  const parseMs = median(parse.map(({ milliseconds }) => milliseconds));
  const dryRunMs = median(dryRun.map(({ milliseconds }) => milliseconds));
  const cpu = (of: readonly Trial[]) => median(of.map(({ cpuMilliseconds }) => cpuMilliseconds));
  return {
    shape,
    ratio: dryRunMs / parseMs,
    cpuRatio: cpu(dryRun) / cpu(parse),
    parseMs,
    dryRunMs,
    megabytes: Math.max(...dryRun.map(({ megabytes }) => megabytes)),
  };
}

/**
 * 100 000-row flat lists of several shapes: the dry run (bytes to proposal, empty graph) against papaparse merely
 * decoding and parsing the same bytes. The worst shape decides.
 */
export async function importFigures(): Promise<Figure[]> {
  const runs: DryRun[] = [];
  for (const shape of Object.keys(flatShapes) as FlatShapeName[]) runs.push(await dryRunOf(shape));
  const worst = runs.reduce((one, other) => (other.ratio > one.ratio ? other : one));
  const worstCpu = Math.max(...runs.map(({ cpuRatio }) => cpuRatio));
  const megabytes = Math.max(...runs.map((run) => run.megabytes));
  const whole = await commitRun();
  const commitRatio = whole.commitMs / whole.parseMs;
  return [
    ...runs.flatMap(({ shape, ratio, cpuRatio, dryRunMs, parseMs }) => [
      {
        name: `dry run / papaparse, ${shape} (dry run ${dryRunMs.toFixed(0)} ms, papaparse ${parseMs.toFixed(0)} ms)`,
        value: ratio,
        unit: "times",
        target: "≤ 4",
        meets: ratio <= 4,
      },
      {
        name: `the same in processor time, ${shape}`,
        value: cpuRatio,
        unit: "times",
        target: "none",
        meets: true,
      },
    ]),
    {
      name: `dry run / papaparse, the worst of all (${worst.shape})`,
      value: worst.ratio,
      unit: "times",
      target: "≤ 4",
      meets: worst.ratio <= 4,
    },
    {
      name: "the same in processor time, the worst of all",
      value: worstCpu,
      unit: "times",
      target: "none",
      meets: true,
    },
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
    {
      name: "the same in processor time, whole",
      value: whole.commitCpuMs / whole.parseCpuMs,
      unit: "times",
      target: "none",
      meets: true,
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
