import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { openDemo } from "../../api/plans/open-demo.ts";
import { keyWith } from "../../api/plans/records/key-changes.ts";
import type { GraphStore } from "../../api/store/graph-store.ts";
import { openStore } from "../../api/store/open-store.ts";
import { nodeLabelNames } from "../../graph-schema/index.ts";

let store: GraphStore;
beforeAll(async () => {
  store = await openStore({ db: ":memory:", env: {} });
  const folder = join(import.meta.dirname, "../../importers/demo");
  await openDemo(store, folder, { who: "test", at: "2026-11-25T00:00:00.000Z" });
});
afterAll(() => store.close());

it("gives every record of the demo the key the importer gave it, so that edits and imports agree", async () => {
  const known = await store.knownGraph();
  let compared = 0;
  const differing: string[] = [];
  for (const label of nodeLabelNames) {
    for (const node of known.nodes(label).values()) {
      compared++;
      if ((await keyWith(store, node, node.properties)) !== node.key) differing.push(node.key);
    }
  }
  expect(compared).toBeGreaterThan(1000);
  expect(differing).toEqual([]);
});
