import { execFile } from "node:child_process";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";
import type { Figure } from "./figure.ts";

const measureFile = fileURLToPath(new URL("measure-import.ts", import.meta.url));
const rows = 100_000;

interface Measured {
  readonly parseMs: number;
  readonly dryRunMs: number;
  readonly commitMs: number;
  readonly peakBytes: number;
  readonly read: number;
  readonly changes: number;
  readonly reports: number;
}

const atMost = (name: string, value: number, unit: string, limit: number): Figure => ({
  name,
  value,
  unit,
  target: `≤ ${limit}`,
  meets: value <= limit,
});

/** Taking in a flat list of 100 000 rows, against what papaparse takes in the same run merely to parse it. */
export async function importFigures(): Promise<Figure[]> {
  const { stdout } = await promisify(execFile)(process.execPath, [measureFile, String(rows)]);
  const measured = JSON.parse(stdout) as Measured;
  if (measured.read !== rows) throw new Error(`${measured.read} rows were read of ${rows}`);
  const { parseMs, dryRunMs, commitMs, peakBytes, changes, reports } = measured;
  return [
    atMost("dry run of 100 000 rows, against parsing alone", dryRunMs / parseMs, "times", 4),
    atMost(
      `commit of 100 000 rows (${changes} changes), against parsing alone`,
      commitMs / parseMs,
      "times",
      12,
    ),
    atMost("peak memory of the process", peakBytes / 1e9, "GB", 1),
    {
      name: "reports of progress in three dry runs and three commits",
      value: reports,
      unit: "1",
      target: "≥ 100",
      meets: reports >= 100,
    },
    { name: "parsing alone", value: parseMs, unit: "ms", target: "none", meets: true },
  ];
}
