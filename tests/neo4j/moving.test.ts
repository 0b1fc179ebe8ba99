import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, test } from "vitest";
import { restoreGraph } from "../../api/plans/backup-graph.ts";
import { SqliteStore } from "../../api/store/sqlite/sqlite-store.ts";
import { sparewright } from "../cli/run-command.ts";
import { graphPicture } from "../contract/graph-picture.ts";
import { given, linesOf, livedIn } from "../contract/parts/backup-contract.ts";
import { onRealServer } from "./test-server.ts";

const folder = mkdtempSync(join(tmpdir(), "moving-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

onRealServer("Moving house between SQLite and Neo4j", ({ settings, emptyStore }) => {
  test("there and back again, from either side, loses nothing and changes nothing", async () => {
    const file = SqliteStore.open(join(folder, "a.db"));
    await livedIn(file);
    const lines = await linesOf(file);
    const server = await emptyStore();
    await restoreGraph(server, given(lines));
    expect(await linesOf(server)).toStrictEqual(lines);
    expect(await server.journal({ limit: 10_000 })).toStrictEqual(
      await file.journal({ limit: 10_000 }),
    );
    const back = SqliteStore.open(":memory:");
    await restoreGraph(back, given(await linesOf(server)));
    expect(await linesOf(back)).toStrictEqual(lines);
    await server.close();
    // And a graph that has lived on the server.
    const lived = await emptyStore();
    await livedIn(lived);
    const fromServer = await linesOf(lived);
    const fresh = SqliteStore.open(":memory:");
    await restoreGraph(fresh, given(fromServer));
    expect(await linesOf(fresh)).toStrictEqual(fromServer);
    expect(await graphPicture(fresh)).toStrictEqual(await graphPicture(lived));
    for (const store of [file, back, fresh, lived]) await store.close();
  });

  test("by the commands, on the demo: NEO4J_URI gives the same program on the same data", async () => {
    await (await emptyStore()).close();
    const { uri, user, password, database } = settings();
    const server = {
      NEO4J_URI: uri,
      NEO4J_USER: user,
      NEO4J_PASSWORD: password,
      ...(database === undefined ? {} : { NEO4J_DATABASE: database }),
    };
    const db = join(folder, "demo.db");
    const packed = join(folder, "demo.backup.gz");
    const demo = new URL("../../importers/demo/", import.meta.url).pathname;
    const taken = await sparewright([
      "import",
      join(demo, "01-functions.csv"),
      join(demo, "04-umberwhist-equipment.csv"),
      join(demo, "05-parts-winches-windlass.csv"),
      "--db",
      db,
    ]);
    expect(taken.status, taken.err).toBe(0);
    const written = await sparewright(["backup", packed, "--db", db, "--json"]);
    expect(written.status, written.err).toBe(0);
    const restored = await sparewright(["restore", packed, "--json"], server);
    expect(restored.status, restored.err).toBe(0);
    expect(JSON.parse(restored.out)).toMatchObject({ restored: true });
    const again = await sparewright(["restore", packed, "--json"], server);
    expect(JSON.parse(again.out)).toMatchObject({ restored: false });
    for (const ask of [
      ["commonality"],
      ["suppliers"],
      ["find", "pawl"],
      ["undo", "--list"],
      ["export", "--list", "parts"],
    ]) {
      const words = ask[0] === "export" ? ask : [...ask, "--json"];
      const [onFile, onServer] = [
        await sparewright([...words, "--db", db]),
        await sparewright(words, server),
      ];
      expect(onServer.status, onServer.err).toBe(onFile.status);
      expect(onServer.out, ask.join(" ")).toBe(onFile.out);
    }
    const wrong = await sparewright(["find", "pawl"], { ...server, NEO4J_PASSWORD: "wrong-word" });
    expect(wrong.status).not.toBe(0);
    expect(wrong.out + wrong.err).not.toContain("wrong-word");
    expect(wrong.out + wrong.err).not.toContain(password);
  }, 240_000);
});
