import request from "supertest";
import { expect, test } from "vitest";
import { restoreGraph } from "../../api/plans/backup-graph.ts";
import { SqliteStore } from "../../api/store/sqlite/sqlite-store.ts";
import { given, linesOf, livedIn } from "../contract/parts/backup-contract.ts";
import { smallApp } from "./small-app.ts";

test("the whole graph comes as a file that a restore takes", async () => {
  const { app, store } = await smallApp(false);
  await livedIn(store);
  const response = await request(app)
    .get("/api/backup")
    .buffer(true)
    .parse((incoming, done) => {
      let text = "";
      incoming.setEncoding("utf8");
      incoming.on("data", (piece: string) => {
        text += piece;
      });
      incoming.on("end", () => done(null, text));
    });
  expect(response.status).toBe(200);
  expect(response.headers["content-type"]).toContain("application/x-ndjson");
  expect(response.headers["content-disposition"]).toMatch(/sparewright-\d{4}-\d\d-\d\d\.backup/);
  // JSON text may hold line separators of its own kind, never a line feed.
  const lines = String(response.body).trimEnd().split("\n");
  expect(lines).toStrictEqual(await linesOf(store));
  const other = SqliteStore.open(":memory:");
  expect(await restoreGraph(other, given(lines))).toMatchObject({ restored: true });
  await store.close();
  await other.close();
});
