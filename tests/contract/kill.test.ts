import { spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { DatabaseSync } from "node:sqlite";
import { fileURLToPath } from "node:url";
import { afterAll, expect, test } from "vitest";
import { SqliteStore } from "../../api/store/sqlite/sqlite-store.ts";
import { seeded } from "../bench/flat-fleet.ts";
import { partsPerBatch } from "./kill-batch.ts";

const kills = 40;
const writers = 2;
const longestLifeMs = 120;
const writerFile = fileURLToPath(new URL("kill-writer.ts", import.meta.url));
const folder = mkdtempSync(join(tmpdir(), "kill-test-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Starts a writer, kills it with signal 9 some time after its first acknowledgement; the last batch it acknowledged. */
function killedWriter(path: string, first: number, lifeMs: number): Promise<number> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [writerFile, path, String(first)], {
      stdio: ["ignore", "pipe", "pipe"],
      env: { ...process.env, NODE_NO_WARNINGS: "1" },
    });
    let heard = "";
    let complaint = "";
    child.stdout.setEncoding("utf8").on("data", (text: string) => {
      if (heard === "") setTimeout(() => child.kill("SIGKILL"), lifeMs);
      heard += text;
    });
    child.stderr.setEncoding("utf8").on("data", (text: string) => {
      complaint += text;
    });
    child.on("close", (_code, signal) => {
      // A line without its end was cut off by the kill; the batches before it were acknowledged in full.
      const last = heard.slice(0, heard.lastIndexOf("\n")).split("\n").at(-1);
      if (signal === "SIGKILL" && last !== undefined) resolve(Number(last));
      else reject(new Error(`The writer ended by itself (${signal}): ${complaint}`));
    });
  });
}

/** Reopens the file and returns the newest batch there, having checked that every batch up to it is whole. */
async function newestWholeBatch(path: string): Promise<number> {
  const store = SqliteStore.open(path);
  try {
    const makers = await store.count("Maker");
    const known = await store.knownGraph();
    const partsOf = new Map<string, number>();
    for (const { to } of known.links("MADE_BY").values())
      partsOf.set(to, (partsOf.get(to) ?? 0) + 1);
    for (let batch = 0; batch < makers; batch++) {
      const maker = known.nodes("Maker").get(`maker ${batch}`);
      expect(maker, `batch ${batch}`).toBeDefined();
      expect(partsOf.get(maker?.id ?? ""), `parts of batch ${batch}`).toBe(partsPerBatch);
    }
    expect(await store.count("Part")).toBe(makers * partsPerBatch);
    expect(await store.count("Import")).toBe(makers);
    const found = await store.search(`${makers - 1}-${partsPerBatch - 1}`, 1);
    expect(found).toHaveLength(1);
    // Every record and every import has its journal entry: nothing of a half write is left.
    expect(await store.sequence()).toBe(makers * (2 * partsPerBatch + 2));
    return makers - 1;
  } finally {
    await store.close();
  }
}

function integrity(path: string): unknown {
  const db = new DatabaseSync(path);
  try {
    db.exec("INSERT INTO search (search) VALUES ('integrity-check')");
    expect(db.prepare("PRAGMA foreign_key_check").all()).toStrictEqual([]);
    return db.prepare("PRAGMA integrity_check").get()?.["integrity_check"];
  } finally {
    db.close();
  }
}

test(`${kills} kills with signal 9 lose nothing that was acknowledged and leave nothing half done`, {
  timeout: 120_000,
}, async () => {
  const life = async (writer: number) => {
    const random = seeded(writer + 1);
    const path = join(folder, `writer-${writer}.db`);
    let next = 0;
    let unacknowledged = 0;
    for (let kill = 0; kill < kills / writers; kill++) {
      const acknowledged = await killedWriter(path, next, random() * longestLifeMs);
      expect(acknowledged).toBeGreaterThanOrEqual(next);
      const present = await newestWholeBatch(path);
      // The kill may fall between the commit and its acknowledgement: then one more batch is there, whole.
      expect(present).toBeGreaterThanOrEqual(acknowledged);
      expect(present).toBeLessThanOrEqual(acknowledged + 1);
      unacknowledged += present - acknowledged;
      expect(integrity(path)).toBe("ok");
      next = present + 1;
    }
    return { batches: next, unacknowledged };
  };
  const lives = await Promise.all(Array.from({ length: writers }, (_, writer) => life(writer)));
  for (const { batches } of lives) expect(batches).toBeGreaterThanOrEqual(kills / writers);
});
