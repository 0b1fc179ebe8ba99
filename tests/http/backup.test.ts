import { gzipSync } from "node:zlib";
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

const sent = (app: Parameters<typeof request>[0], bytes: Buffer) =>
  request(app).post("/api/restore").set("Content-Type", "application/octet-stream").send(bytes);

test("a backup fills an empty graph, plain or packed, once; what it tells of can be undone", async () => {
  const { store } = await smallApp(true);
  // A line separator that JSON leaves as it is and some readers of lines take for an end.
  const [vessel] = await store.list("Vessel", 0, 1);
  if (vessel === undefined) throw new Error("The small fleet has a vessel");
  await store.apply(
    {
      changes: [
        {
          kind: "update-node",
          id: vessel.id,
          basedOn: vessel.version,
          set: {},
          extra: { note: "one\u2028two" },
        },
      ],
    },
    { who: "test", at: "2026-11-20T12:00:00Z" },
  );
  const lines = await linesOf(store);
  const file = Buffer.from(`${lines.join("\n")}\n`);
  for (const bytes of [file, gzipSync(file)]) {
    const empty = await smallApp(false);
    const first = await sent(empty.app, bytes);
    expect(first.status).toBe(200);
    expect(first.body).toMatchObject({ restored: true });
    expect(await linesOf(empty.store)).toStrictEqual(lines);
    // The same once more does no harm; something else is refused.
    expect((await sent(empty.app, bytes)).body).toMatchObject({ restored: false });
    const before = await empty.store.sequence();
    const [last] = await empty.store.history({ limit: 1 });
    await empty.store.undo(last?.sequence ?? 0, { who: "test", at: "2026-11-21T12:00:00Z" });
    expect((await empty.store.node(vessel.id))?.extra).toEqual({});
    const refused = await sent(empty.app, bytes);
    expect(refused.body).toMatchObject({ status: 409, code: "store-occupied" });
    expect(await empty.store.sequence()).toBeGreaterThan(before);
    await empty.store.close();
  }
  await store.close();
});

test("a damaged backup, an empty body and another kind of file are refused, and nothing is restored", async () => {
  const { store } = await smallApp(true);
  const lines = await linesOf(store);
  const whole = Buffer.from(`${lines.join("\n")}\n`);
  const { app, store: empty } = await smallApp(false);
  const damaged = [
    Buffer.from(`${lines.slice(0, -1).join("\n")}\n`),
    Buffer.from(whole.toString("utf8").replace("test", "tset")),
    gzipSync(whole).subarray(0, 500),
    Buffer.from("name;quantity\n"),
    Buffer.alloc(0),
  ];
  for (const bytes of damaged) {
    const { body } = await sent(app, bytes);
    expect(body).toMatchObject({ code: "backup-damaged" });
  }
  const text = await request(app).post("/api/restore").send({ some: "thing" });
  expect(text.body).toMatchObject({ code: "media-type-refused" });
  expect(await empty.sequence()).toBe(0);
  await store.close();
  await empty.close();
});
