import { execFile } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";
import { hasJavaAndMaven, MavenServer } from "../neo4j/maven-server.ts";
import type { Figure } from "./figure.ts";

const measure = fileURLToPath(new URL("measure-scale.ts", import.meta.url));
const run = promisify(execFile);

const atMost = (name: string, value: number, unit: string, limit: number): Figure => ({
  name,
  value,
  unit,
  target: `≤ ${limit}`,
  meets: value <= limit,
});
const shown = (name: string, value: number, unit: string): Figure => ({
  name,
  value,
  unit,
  target: "none",
  meets: true,
});

interface Measured {
  readonly records: number;
  readonly importMs: number;
  readonly bareMs: number;
  readonly distinct: number;
  readonly kits: number;
  readonly covered: number;
  readonly firstVesselMs: number;
  readonly vesselMs: number;
  readonly fleetMs: number;
  readonly peakBytes: number;
}

/** Each step in a process of its own: memory measured is that of the step alone. */
async function stepOf(
  store: string,
  step: string,
  scale: number,
  place: string,
): Promise<Partial<Measured>> {
  const { stdout } = await run(
    process.execPath,
    ["--max-old-space-size=6000", measure, store, step, String(scale), place],
    { maxBuffer: 1 << 24, env: { ...process.env, NODE_NO_WARNINGS: "1" } },
  );
  return JSON.parse(stdout) as Partial<Measured>;
}

async function onSqlite(scale: number): Promise<Measured> {
  const folder = mkdtempSync(join(tmpdir(), "scale-bench-"));
  try {
    const bare = await stepOf("sqlite", "bare", scale, join(folder, "bare.db"));
    const path = join(folder, "fleet.db");
    const write = await stepOf("sqlite", "write", scale, path);
    return { ...bare, ...write, ...(await stepOf("sqlite", "ask", scale, path)) } as Measured;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** A server each for the bare inserts and for ours, of the same size, one after the other. */
async function onNeo4j(scale: number): Promise<Measured> {
  // The whole of it is one write, which the server holds in its heap until it is committed; as the server's own settings
  // have it, the heap is of one size from the beginning.
  const heap = scale > 0.5 ? "8g" : "3g";
  const javaOptions = [`-Xms${heap}`, "-Xmn1g", "-XX:+AlwaysPreTouch"];
  const size = { heap, pageCache: "1g", javaOptions };
  const withServer = async (work: (place: string) => Promise<Partial<Measured>>) => {
    const server = await MavenServer.start(size);
    try {
      const { uri, user, password } = server;
      return await work(JSON.stringify({ uri, user, password }));
    } finally {
      await server.stop();
    }
  };
  const bare = await withServer((place) => stepOf("neo4j", "bare", scale, place));
  const ours = await withServer(async (place) => ({
    ...(await stepOf("neo4j", "write", scale, place)),
    ...(await stepOf("neo4j", "ask", scale, place)),
  }));
  return { ...bare, ...ours } as Measured;
}

function figuresOf(name: string, baseline: string, measured: Measured): readonly Figure[] {
  const { importMs, bareMs, records, fleetMs, peakBytes, vesselMs, firstVesselMs } = measured;
  return [
    atMost(
      `${name}: import of the million over ${baseline} of the same rows`,
      importMs / bareMs,
      "1",
      1.5,
    ),
    shown(`${name}: the same, for each of ${records} records`, (importMs * 1000) / records, "µs"),
    atMost(`${name}: one vessel's snapshot out of the million`, vesselMs, "ms", 500),
    shown(`${name}: the same, the first time`, firstVesselMs, "ms"),
    atMost(`${name}: fleet-wide commonality and best three suppliers`, fleetMs / 1000, "s", 10),
    atMost(`${name}: memory of our process while it answers`, peakBytes / 2 ** 30, "GB", 1.5),
  ];
}

/**
 * A fleet of a million parts-list lines on either store; both must give the same answers. Without Java and Maven the
 * server's part is left out, with a line that says so. `scale` below 1 is for trying out.
 */
export async function scaleFigures(scale: number): Promise<readonly Figure[]> {
  const file = await onSqlite(scale);
  const figures = [...figuresOf("SQLite", "bare prepared inserts", file)];
  if (!hasJavaAndMaven()) {
    process.stderr.write("Neo4j is not measured: no Java with Maven to run it with.\n");
    return figures;
  }
  const server = await onNeo4j(scale);
  const same = (["distinct", "kits", "covered"] as const).every(
    (name) => server[name] === file[name],
  );
  return [
    ...figures,
    ...figuresOf("Neo4j", "bare batched UNWIND", server),
    {
      name: "both give the same answers",
      value: Number(same),
      unit: "1",
      target: "= 1",
      meets: same,
    },
  ];
}
