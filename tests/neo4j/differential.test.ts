import fc from "fast-check";
import { expect, test } from "vitest";
import { Problem } from "../../api/errors/problem.ts";
import type { GraphStore } from "../../api/store/graph-store.ts";
import { SqliteStore } from "../../api/store/sqlite/sqlite-store.ts";
import { type NodeId, nodeLabelNames, relationshipTypeNames } from "../../graph-schema/index.ts";
import type { ProposedChange } from "../../importers/change-set.ts";
import { PlainGraph } from "../contract/plain-graph.ts";
import { concrete, type Step, steps } from "../contract/random-operations.ts";
import { importOccasion, occasion } from "../contract/small-fleet.ts";
import { onRealServer } from "./test-server.ts";

/** What a call came to: its answer, or the code of its problem with what it names. */
async function outcomeOf<T>(call: Promise<T>) {
  try {
    return { answer: await call };
  } catch (cause) {
    if (cause instanceof Problem)
      return { problem: cause.code, message: cause.message, facts: cause.facts };
    throw cause;
  }
}

/** Everything a store can be asked, in one document. */
async function portrait(store: GraphStore) {
  const known = await store.knownGraph();
  const byText = (a: unknown, b: unknown) => (JSON.stringify(a) < JSON.stringify(b) ? -1 : 1);
  const nodes = nodeLabelNames.flatMap((label) => [...known.nodes(label).values()]).sort(byText);
  const links = relationshipTypeNames
    .flatMap((type) => [...known.links(type).values()])
    .sort(byText);
  const vessels = nodes.filter(({ label }) => label === "Vessel");
  return {
    nodes,
    links,
    sequence: await store.sequence(),
    history: await store.history({ limit: 1000 }),
    pages: await Promise.all(
      (["Part", "StockLot", "Locker"] as const).map(async (label) => {
        const page = await store.page({ label, offset: 1, limit: 3 });
        return {
          ...page,
          owning: [...page.owning].sort(byText),
          owners: [...page.owners].sort(byText),
        };
      }),
    ),
    journal: await store.journal({ limit: 10_000 }),
    since: await store.journal({ limit: 10, since: 4, before: 12 }),
    about: await Promise.all(
      nodes.slice(0, 5).map(({ id }) => store.journal({ about: id, limit: 50 })),
    ),
    dependants: await Promise.all(
      nodes
        .slice(0, 5)
        .map(({ id }) =>
          store
            .dependants(id)
            .then(({ nodes: n, links: l }) => [n, l].map((list) => [...list].sort(byText))),
        ),
    ),
    found: await Promise.all(
      ["a", "b", "d"].map((text) => store.search(text, 100).then((hits) => [...hits].sort(byText))),
    ),
    whole: await store.snapshot(),
    each: await Promise.all(vessels.map(({ id }) => store.snapshot(id))),
  };
}

/** By the import, or by a number that its write wrote. */
async function undo(store: GraphStore, importId: NodeId, which: number) {
  if (which % 2 === 0) return store.undoImport(importId, occasion);
  const [entry] = await store.journal({ importId, limit: 1 });
  return store.undo(entry?.sequence ?? 0, occasion);
}

/** Plays a script on both stores; each answer and each refusal must be the same, to the word. */
async function playOnBoth(a: GraphStore, b: GraphStore, script: readonly Step[]): Promise<void> {
  const graph = new PlainGraph();
  const imports: NodeId[] = [];
  const refresh = async () => {
    const known = await a.knownGraph();
    graph.things.clear();
    for (const label of nodeLabelNames)
      if (label !== "Import")
        for (const node of known.nodes(label).values()) graph.things.set(node.id, node);
    for (const type of relationshipTypeNames)
      for (const link of known.links(type).values())
        graph.things.set(`${link.type} ${link.from}>${link.to}`, link);
  };
  for (const step of script) {
    if (step.kind === "undo") {
      const id = imports[step.which % imports.length];
      if (id === undefined) continue;
      const [left, right] = [
        await outcomeOf(undo(a, id, step.which)),
        await outcomeOf(undo(b, id, step.which)),
      ];
      expect(right).toEqual(left);
    } else {
      const changes: ProposedChange[] = step.operations.flatMap(
        (operation) => concrete(graph, operation) ?? [],
      );
      const left = await outcomeOf(a.apply({ changes }, importOccasion("random.csv")));
      const right = await outcomeOf(b.apply({ changes }, importOccasion("random.csv")));
      expect(right).toEqual(left);
      const importId = left.answer?.importId;
      if (importId !== undefined) imports.push(importId);
    }
    await refresh();
  }
}

onRealServer("Neo4j and SQLite under the same random operations", ({ emptyStore }) => {
  test("answer alike, refuse alike, and end alike: graph, versions, journal, search, snapshots", async () => {
    await fc.assert(
      fc.asyncProperty(steps, async (script) => {
        const [file, server] = [SqliteStore.open(":memory:"), await emptyStore()];
        try {
          await playOnBoth(file, server, script);
          expect(await portrait(server)).toStrictEqual(await portrait(file));
        } finally {
          await file.close();
          await server.close();
        }
      }),
      { numRuns: 10, seed: 20261125 },
    );
  }, 600_000);
});
