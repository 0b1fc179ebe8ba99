import { describe, expect, test } from "vitest";
import { backupLines, restoreGraph } from "../../../api/plans/backup-graph.ts";
import type { GraphStore } from "../../../api/store/graph-store.ts";
import { graphPicture } from "../graph-picture.ts";
import { Draft, importOccasion, occasion, smallFleet } from "../small-fleet.ts";
import type { StoreFactory } from "../store-contract.ts";
import { problemOf } from "./problem-of.ts";

export async function linesOf(store: GraphStore): Promise<readonly string[]> {
  const lines: string[] = [];
  for await (const line of backupLines(store)) lines.push(line.trimEnd());
  return lines;
}

export const given = (lines: readonly string[]) =>
  async function* (): AsyncGenerator<string> {
    yield* lines;
  };

/** A graph with a past: an import, edits, unknown columns, a deletion, an undo, an undo of an undo. */
export async function livedIn(store: GraphStore): Promise<ReturnType<typeof smallFleet>["ids"]> {
  const { set, ids } = smallFleet();
  await store.apply(set, { ...importOccasion("fleet.csv"), what: "the fleet" });
  const change = { kind: "update-node", id: ids.pawl } as const;
  await store.apply(
    {
      changes: [{ ...change, basedOn: 1, set: { massKg: 0.3 }, extra: { Bemerkung: "é\u2028\n" } }],
    },
    { who: "cook", at: "2026-04-01T00:00:00Z", what: "weighed" },
  );
  const gone = await store.apply(
    { changes: [{ kind: "delete-node", id: ids.maker, basedOn: 1 }] },
    occasion,
  );
  const undo = await store.undo(gone.sequence, occasion);
  const again = await store.undo(undo.sequence, occasion);
  await store.undo(again.sequence, occasion);
  const draft = new Draft();
  draft.node("Crossing", { name: "X", legs: [{ to: "Y", days: 3.5, longestDays: 5 }] }, "X");
  await store.apply(draft.set, importOccasion("crossing.csv"));
  return ids;
}

export function backupContract(open: StoreFactory): void {
  describe("backup", () => {
    test("restored into an empty store gives the same graph, journal and list of changes, which go on from there", async () => {
      const store = await open();
      const ids = await livedIn(store);
      const before = {
        picture: await graphPicture(store),
        journal: await store.journal({ limit: 10_000 }),
        history: await store.history({ limit: 100 }),
        sequence: await store.sequence(),
        snapshot: await store.snapshot(),
        version: (await store.node(ids.pawl))?.version,
      };
      const lines = await linesOf(store);
      const other = await open();
      const answer = await restoreGraph(other, given(lines));
      expect(answer).toMatchObject({ restored: true, records: lines.length - 2 });
      expect({
        picture: await graphPicture(other),
        journal: await other.journal({ limit: 10_000 }),
        history: await other.history({ limit: 100 }),
        sequence: await other.sequence(),
        snapshot: await other.snapshot(),
        version: (await other.node(ids.pawl))?.version,
      }).toStrictEqual(before);
      expect(await linesOf(other)).toStrictEqual(lines);
      expect((await other.search("0071a3", 5))[0]?.node.id).toBe(ids.pawl);
      // Life goes on: the last import can be undone, and stale writes are still told.
      const last = before.history[0];
      await other.undo(last?.sequence ?? 0, occasion);
      const stale = { kind: "update-node", id: ids.pawl, basedOn: 1, set: {} } as const;
      expect((await problemOf(other.apply({ changes: [stale] }, occasion))).code).toBe(
        "write-stale",
      );
    });

    test("restored twice changes nothing; over another graph it is refused", async () => {
      const store = await open();
      await livedIn(store);
      const lines = await linesOf(store);
      expect(await restoreGraph(store, given(lines))).toMatchObject({ restored: false });
      expect(await linesOf(store)).toStrictEqual(lines);
      const draft = new Draft();
      draft.node("Maker", { name: "New" }, "New");
      await store.apply(draft.set, occasion);
      const after = await linesOf(store);
      expect((await problemOf(restoreGraph(store, given(lines)))).code).toBe("store-occupied");
      expect(await linesOf(store)).toStrictEqual(after);
    });

    test("cut short, changed or of another kind is refused before anything is written", async () => {
      const store = await open();
      await livedIn(store);
      const lines = await linesOf(store);
      const empty = await open();
      const changed = lines.map((line) => line.replace("0071-A.3", "0071-A.4"));
      expect(changed).not.toStrictEqual(lines);
      for (const bad of [
        lines.slice(0, -1),
        lines.slice(0, 5),
        [...lines.slice(0, 3), ...lines.slice(4)],
        changed,
        lines.slice(1),
        ["name;quantity", "x;1"],
        ["{}"],
        [],
        [JSON.stringify({ sparewright: "backup", version: 99 }), ...lines.slice(1)],
      ])
        expect((await problemOf(restoreGraph(empty, given(bad)))).code).toBe("backup-damaged");
      expect(await empty.sequence()).toBe(0);
    });

    test("that holds what a declaration refuses, or leads nowhere, is refused whole", async () => {
      const store = await open();
      const records: unknown[] = [];
      await livedIn(store);
      for await (const record of store.backup()) records.push(record);
      const empty = await open();
      const twisted = (change: (text: string) => string) =>
        async function* () {
          for (const record of records) yield JSON.parse(change(JSON.stringify(record)));
        };
      const wrongs = [
        (text: string) => text.replace('"capacityLitres":', '"capacityPints":'),
        (text: string) => text.replace('"quantity":4', '"quantity":-4'),
        (text: string) => text.replace(/"to":"Vessel:\w+"/, '"to":"Vessel:00000000000000"'),
      ];
      for (const wrong of wrongs) {
        const problem = await problemOf(empty.restore(twisted(wrong)()));
        expect(problem.code).toBe("input-invalid");
        expect(await empty.sequence()).toBe(0);
        expect(await graphPicture(empty)).toStrictEqual({ nodes: [], links: [] });
      }
    });
  });
}
