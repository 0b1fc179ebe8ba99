import { expect, test } from "vitest";
import { askKnownGraph } from "../../api/plans/ask-known-graph.ts";
import { importFile } from "../../api/plans/import-file.ts";
import { measureCommonality } from "../../api/plans/measure-commonality.ts";
import { openDemo } from "../../api/plans/open-demo.ts";
import { rankSuppliers } from "../../api/plans/rank-suppliers.ts";
import type { GraphStore } from "../../api/store/graph-store.ts";
import { Neo4jStore } from "../../api/store/neo4j/neo4j-store.ts";
import { PartlyKnown } from "../../api/store/neo4j/partly-known.ts";
import { SqliteStore } from "../../api/store/sqlite/sqlite-store.ts";
import { nodeLabelNames, relationshipTypeNames } from "../../graph-schema/index.ts";
import { onRealServer } from "./test-server.ts";

const demo = new URL("../../importers/demo/", import.meta.url).pathname;
const occasion = { who: "test", at: "2026-11-20T12:00:00Z" };

/** Forty records, of which it is noted how they were fetched. */
function forty() {
  const fetched: string[] = [];
  const records = Array.from({ length: 40 }, (_, at) => ({ key: `k${at}`, id: `i${at}` }));
  const known = new PartlyKnown<string, (typeof records)[number]>(40, {
    keyOf: ({ key }) => key,
    idOf: ({ id }) => id,
    byKey: async (keys) => {
      fetched.push(`by key: ${keys.join(" ")}`);
      return records.filter(({ key }) => keys.includes(key));
    },
    all: async () => {
      fetched.push("all");
      return records;
    },
    names: async () => {
      fetched.push("names");
      return records.map(({ key, id }) => [key, id] as const);
    },
  });
  return { known, fetched, records };
}

test("only what was asked for is fetched, and what does not exist is asked for once", async () => {
  const { known, fetched } = forty();
  expect(known.size).toBe(40);
  expect([known.get("k3"), known.has("none")]).toEqual([undefined, false]);
  expect(await known.catchUp()).toBe(true);
  expect([known.get("k3"), known.has("none")]).toEqual([{ key: "k3", id: "i3" }, false]);
  expect(await known.catchUp()).toBe(false);
  expect(fetched).toEqual(["by key: k3 none"]);
});

test("keys and ids come without the records, records when they are walked or many are asked for", async () => {
  const names = forty();
  expect([[...names.known.keys()], [...names.known.ids()]]).toEqual([[], []]);
  await names.known.catchUp();
  expect([...names.known.keys()]).toEqual(names.records.map(({ key }) => key));
  expect([...names.known.ids()]).toEqual(names.records.map(({ id }) => id));
  expect(names.fetched).toEqual(["names"]);

  const walked = forty();
  expect([...walked.known]).toEqual([]);
  await walked.known.catchUp();
  expect([...walked.known.values()]).toEqual(walked.records);
  expect([...walked.known.ids()]).toEqual(walked.records.map(({ id }) => id));
  expect(await walked.known.catchUp()).toBe(false);
  expect(walked.fetched).toEqual(["all"]);

  const many = forty();
  for (let at = 0; at < 9; at++) many.known.get(`k${at}`);
  await many.known.catchUp();
  expect(many.fetched).toEqual(["all"]);
});

/** Every record of the graph, in an order of its own. */
function everything(store: GraphStore) {
  const byText = (a: unknown, b: unknown) => (JSON.stringify(a) < JSON.stringify(b) ? -1 : 1);
  return askKnownGraph(store, (known) => [
    ...nodeLabelNames.flatMap((label) => [...known.nodes(label).values()]).sort(byText),
    ...relationshipTypeNames.flatMap((type) => [...known.links(type).values()]).sort(byText),
  ]);
}

onRealServer("What an importer knows of a graph behind a wire", ({ settings, emptyStore }) => {
  test("files make the same graph when nothing is fetched before it is asked for", async () => {
    await (await emptyStore()).close();
    const server = await Neo4jStore.open(settings(), undefined, 0);
    const file = SqliteStore.open(":memory:");
    try {
      const told = { server: 0, file: 0 };
      for (const [name, store] of [
        ["server", server],
        ["file", file],
      ] as const)
        await openDemo(store, demo, occasion, (_stage, done) => {
          told[name] = Math.max(told[name], done);
        });
      expect(told.server).toBe(told.file);
      const [here, there] = [await everything(file), await everything(server)];
      expect(here.length).toBeGreaterThan(2000);
      expect(there).toEqual(here);

      // The fleet's questions, for which the server leaves out what they do not ask.
      expect(await measureCommonality(server, {})).toEqual(await measureCommonality(file, {}));
      expect(await rankSuppliers(server, {})).toEqual(await rankSuppliers(file, {}));
      const whatIf = { loseSuppliers: [String((await file.list("Supplier", 0, 1))[0]?.id)] };
      expect(await rankSuppliers(server, { whatIf })).toEqual(
        await rankSuppliers(file, { whatIf }),
      );

      // A correction of what is there, a new line, and a part whose maker must be found by its number.
      const csv = "Model,Part number,Quantity\nT58 ST,0040-07,3\nT58 ST,QX-1,1\n";
      const source = { name: "more.csv", bytes: new TextEncoder().encode(csv) };
      const answers = [
        await importFile(file, source, { listKind: "parts" }, occasion),
        await importFile(server, source, { listKind: "parts" }, occasion),
      ];
      expect(answers[1]).toEqual(answers[0]);
    } finally {
      await server.close();
      await file.close();
    }
  }, 900_000);
});
