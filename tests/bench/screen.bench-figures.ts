import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { buildApp } from "../../api/http/build-app.ts";
import { listen } from "../../api/http/listen.ts";
import { openDemo } from "../../api/plans/open-demo.ts";
import { openStore } from "../../api/store/open-store.ts";
import type { Figure } from "./figure.ts";

const root = fileURLToPath(new URL("../..", import.meta.url));
const warmUps = 3;
const rounds = 41;
const starts = 5;

const median = (values: readonly number[]): number =>
  [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN;

async function timed(work: () => Promise<void>): Promise<number> {
  const from = performance.now();
  await work();
  return performance.now() - from;
}

const kitAsked: RequestInit = {
  method: "POST",
  headers: { "Content-Type": "application/json" },
  body: "{}",
};

/** Median milliseconds of an answer over HTTP on the demo, the whole of it read, a listening server in this process. */
async function overHttp(db: string, path: string, asked: RequestInit = {}): Promise<number> {
  const store = await openStore({ db, env: {} });
  const listening = await listen(buildApp({ store, now: () => new Date() }), 0);
  try {
    const ask = async (): Promise<void> => {
      const response = await fetch(`${listening.address}${path}`, asked);
      const text = await response.text();
      if (response.status !== 200) throw new Error(text);
    };
    for (let round = 0; round < warmUps; round++) await ask();
    const times: number[] = [];
    for (let round = 0; round < rounds; round++) times.push(await timed(ask));
    return median(times);
  } finally {
    await listening.close();
    await store.close();
  }
}

/** Median seconds from starting the process to the whole kit on its standard output. */
function startToAnswer(db: string): number {
  const times: number[] = [];
  for (let round = 0; round < starts; round++) {
    const from = performance.now();
    const run = spawnSync(
      process.execPath,
      [join(root, "api/cli/launch.cjs"), "kit", "--json", "--db", db],
      { encoding: "utf8", maxBuffer: 1 << 28 },
    );
    if (run.status !== 0) throw new Error(run.stderr);
    times.push((performance.now() - from) / 1000);
  }
  return median(times);
}

/** Figures of the screen itself; loaded by address, as it is checked with the browser's types and this is not. */
async function inChromium(): Promise<readonly Figure[]> {
  const address = new URL("../browser/measure-screen.ts", import.meta.url).href;
  const { measureScreen } = (await import(address)) as {
    measureScreen: () => Promise<readonly Figure[]>;
  };
  return measureScreen();
}

/** What a person waits for: the demo's kit over HTTP, a fresh process's first answer, and the screen in a browser. */
export async function screenFigures(): Promise<Figure[]> {
  const folder = mkdtempSync(join(tmpdir(), "sparewright-bench-"));
  const db = join(folder, "graph.db");
  try {
    const store = await openStore({ db, env: {} });
    await openDemo(store, join(root, "importers/demo"), {
      who: "bench",
      at: new Date().toISOString(),
    });
    await store.close();
    const kitMs = await overHttp(db, "api/kit", kitAsked);
    const readinessMs = await overHttp(db, "api/readiness");
    const startSeconds = startToAnswer(db);
    return [
      {
        name: "kit of the demo over HTTP, median",
        value: kitMs,
        unit: "ms",
        target: "< 150",
        meets: kitMs < 150,
      },
      {
        name: "readiness of the demo's three vessels over HTTP, median",
        value: readinessMs,
        unit: "ms",
        target: "< 300",
        meets: readinessMs < 300,
      },
      {
        name: "process start to first answer, existing database, median",
        value: startSeconds,
        unit: "s",
        target: "< 2",
        meets: startSeconds < 2,
      },
      ...(await inChromium()),
    ];
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
