import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Papa from "papaparse";
import { SqliteStore } from "../../api/store/sqlite/sqlite-store.ts";
import { importFile } from "../../importers/index.ts";
import { generateFlatList } from "./generate-flat-list.ts";

/**
 * Run as a process of its own, so that the peak of memory is that of taking a file in and nothing else:
 * `node tests/bench/measure-import.ts ROWS`. Prints one JSON document of times in milliseconds (medians of three
 * rounds, each parsing, proposing and committing in turn), elapsed and of the processor, and of memory in bytes.
 */
const rows = Number(process.argv[2] ?? 100_000);
const rounds = 3;
const folder = mkdtempSync(join(tmpdir(), "import-bench-"));
const median = (values: readonly number[]): number =>
  values.toSorted((a, b) => a - b)[values.length >> 1] ?? Number.NaN;

class Times {
  readonly elapsed: number[] = [];
  readonly cpu: number[] = [];
}

async function timed<T>(into: Times, work: () => Promise<T>): Promise<T> {
  const before = process.cpuUsage();
  const start = performance.now();
  const result = await work();
  into.elapsed.push(performance.now() - start);
  const { user, system } = process.cpuUsage(before);
  into.cpu.push((user + system) / 1000);
  return result;
}

const parse = new Times();
const dryRun = new Times();
const commit = new Times();
let read = 0;
let changes = 0;
let reports = 0;
try {
  const bytes = new TextEncoder().encode(generateFlatList(rows));
  for (let round = 0; round < rounds; round++) {
    await timed(parse, async () => Papa.parse(new TextDecoder().decode(bytes)).data.length);
    const store = SqliteStore.open(join(folder, `${round}.db`));
    const progress = () => {
      reports++;
    };
    await timed(dryRun, async () => importFile(bytes, await store.knownGraph(), { progress }));
    await timed(commit, async () => {
      const proposal = await importFile(bytes, await store.knownGraph(), { progress });
      read = proposal.rows.read;
      changes = proposal.changeSet.changes.length;
      const occasion = { who: "bench", at: "2026-01-01T00:00:00Z", importOf: { fileName: "flat" } };
      await store.apply(proposal.changeSet, occasion, progress);
    });
    await store.close();
  }
  const peakBytes = process.resourceUsage().maxRSS * 1024;
  console.log(
    JSON.stringify({
      parseMs: median(parse.elapsed),
      dryRunMs: median(dryRun.elapsed),
      commitMs: median(commit.elapsed),
      parseCpuMs: median(parse.cpu),
      commitCpuMs: median(commit.cpu),
      peakBytes,
      read,
      changes,
      reports,
    }),
  );
} finally {
  rmSync(folder, { recursive: true, force: true });
}
