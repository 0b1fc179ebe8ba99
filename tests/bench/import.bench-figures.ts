import { once } from "node:events";
import { Worker } from "node:worker_threads";
import type { Figure } from "./figure.ts";

const rows = 100_000;
const trials = 7;

/** Median of an odd number of measurements. */
const median = (values: readonly number[]): number =>
  [...values].sort((a, b) => a - b)[(values.length - 1) / 2] ?? Number.NaN;

const startTrials = (what: "parse" | "dry-run"): Worker =>
  new Worker(new URL("./import-trial.ts", import.meta.url), { workerData: { what, rows } });

async function measure(worker: Worker): Promise<number> {
  worker.postMessage("go");
  const [milliseconds] = await once(worker, "message");
  return Number(milliseconds);
}

/**
 * A 100 000-row flat list of 22 columns: the dry run (bytes to proposal, empty graph) against papaparse merely
 * parsing the same text, in turns, each in its own isolate; medians after one trial to warm up.
 */
export async function importFigures(): Promise<Figure[]> {
  const sides = { parse: startTrials("parse"), dryRun: startTrials("dry-run") };
  const parse: number[] = [];
  const dryRun: number[] = [];
  try {
    for (let trial = 0; trial <= trials; trial += 1) {
      const parsed = await measure(sides.parse);
      const run = await measure(sides.dryRun);
      if (trial === 0) continue;
      parse.push(parsed);
      dryRun.push(run);
    }
  } finally {
    await Promise.all([sides.parse.terminate(), sides.dryRun.terminate()]);
  }
  const ratio = median(dryRun) / median(parse);
  // Peak of the whole process: both sides, and the parser's rows, are in it.
  const megabytes = process.resourceUsage().maxRSS / 1000;
  return [
    { name: "dry run / papaparse", value: ratio, unit: "times", target: "≤ 4", meets: ratio <= 4 },
    { name: "dry run", value: median(dryRun), unit: "ms", target: "none", meets: true },
    { name: "papaparse alone", value: median(parse), unit: "ms", target: "none", meets: true },
    {
      name: "peak memory, both sides",
      value: megabytes,
      unit: "MB",
      target: "< 1000",
      meets: megabytes < 1000,
    },
  ];
}
