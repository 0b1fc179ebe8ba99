import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, test } from "vitest";
import { applyChanges } from "../../api/store/sqlite/apply-changes.ts";
import { openDatabase } from "../../api/store/sqlite/open-database.ts";
import { withSqliteProblems } from "../../api/store/sqlite/sqlite-problem.ts";
import { SqliteStore } from "../../api/store/sqlite/sqlite-store.ts";
import { graphPicture } from "./graph-picture.ts";
import { problemOf } from "./parts/problem-of.ts";
import { Draft, importOccasion, occasion, smallFleet } from "./small-fleet.ts";

const folder = mkdtempSync(join(tmpdir(), "full-disk-"));
const mounted = join(folder, "small");

/** A file system of 2 MB, where the person running the tests may make one. */
function mountSmallDisk(): boolean {
  if (process.platform !== "linux" || process.getuid?.() !== 0) return false;
  try {
    execFileSync("mkdir", [mounted]);
    execFileSync("mount", ["-t", "tmpfs", "-o", "size=2m", "tmpfs", mounted], { stdio: "ignore" });
    return true;
  } catch {
    return false;
  }
}
const hasSmallDisk = mountSmallDisk();
afterAll(() => {
  if (hasSmallDisk) execFileSync("umount", [mounted]);
  rmSync(folder, { recursive: true, force: true });
});

function manyMakers(count: number) {
  const draft = new Draft();
  for (let at = 0; at < count; at++)
    draft.node("Maker", { name: `Maker ${at} ${"x".repeat(200)}` }, `maker ${at}`);
  return draft.set;
}

test("a database that may not grow refuses a write whole, and takes smaller ones", async () => {
  const path = join(folder, "limited.db");
  const connection = openDatabase(path);
  applyChanges(connection, smallFleet().set, occasion);
  const pages = Number(connection.row("PRAGMA page_count")?.[0]);
  connection.db.exec(`PRAGMA max_page_count = ${pages + 20}`);
  const before = connection.rows("SELECT n, id FROM node");
  const problem = await problemOf(
    (async () =>
      withSqliteProblems(path, () =>
        applyChanges(connection, manyMakers(5000), importOccasion("big.csv")),
      ))(),
  );
  expect(problem.code).toBe("store-full");
  expect(connection.db.isTransaction).toBe(false);
  expect(connection.rows("SELECT n, id FROM node")).toStrictEqual(before);
  applyChanges(connection, manyMakers(3), occasion);
  expect(connection.row(`SELECT count(*) FROM "Maker"`)).toStrictEqual([5]);
  expect(connection.row("PRAGMA integrity_check")).toStrictEqual(["ok"]);
  connection.close();
});

test.skipIf(!hasSmallDisk)(
  "on a full disk nothing changes, and writing goes on once there is room",
  async () => {
    const path = join(mounted, "spares.db");
    const first = SqliteStore.open(path);
    await first.apply(smallFleet().set, occasion);
    const before = await graphPicture(first);
    await first.close();

    // Filled by something else while the program was not running: not even opening finds room.
    const filler = join(mounted, "filler");
    for (let size = 2 << 20; size >= 512; size >>= 1)
      try {
        writeFileSync(filler, Buffer.alloc(size), { flag: "a" });
      } catch {
        // The next smaller piece may still fit.
      }
    const crammed = await problemOf(
      (async () => {
        const store = SqliteStore.open(path);
        try {
          await store.apply(manyMakers(2000), occasion);
        } finally {
          await store.close();
        }
      })(),
    );
    expect(crammed.code).toBe("store-full");
    rmSync(filler);

    // Filled by the write itself.
    const store = SqliteStore.open(path);
    const problem = await problemOf(store.apply(manyMakers(20_000), importOccasion("big.csv")));
    expect(problem.code).toBe("store-full");
    expect(problem.message).toContain("nothing was changed");
    expect(await graphPicture(store)).toStrictEqual(before);
    await store.apply(manyMakers(10), occasion);
    expect(await store.count("Maker")).toBe(12);
    await store.close();
    const again = SqliteStore.open(path);
    expect(await again.count("Maker")).toBe(12);
    await again.close();
  },
);
