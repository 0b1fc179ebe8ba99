import { describe, expect, test } from "vitest";
import { graphPicture } from "../graph-picture.ts";
import { importOccasion, occasion, smallFleet } from "../small-fleet.ts";
import type { StoreFactory } from "../store-contract.ts";
import { problemOf } from "./problem-of.ts";

export function changesContract(open: StoreFactory): void {
  describe("changes", () => {
    const filled = async () => {
      const store = await open();
      const { set, ids } = smallFleet();
      await store.apply(set, { ...occasion, what: "Small fleet" });
      const edit = (massKg: number, basedOn: number) =>
        store.apply(
          { changes: [{ kind: "update-node", id: ids.pawl, basedOn, set: { massKg } }] },
          { who: "cook", at: "2026-04-01T00:00:00Z", what: `Pawl weighs ${massKg} kg` },
        );
      return { store, ids, edit };
    };

    test("are listed newest first with what they were, in pages without gap or overlap", async () => {
      const { store, edit } = await filled();
      const first = await edit(1, 1);
      const second = await edit(2, 2);
      const all = await store.history({ limit: 10 });
      expect(all).toMatchObject([
        { sequence: second.sequence, who: "cook", what: "Pawl weighs 2 kg" },
        { sequence: first.sequence, what: "Pawl weighs 1 kg", at: "2026-04-01T00:00:00Z" },
        { first: 1, what: "Small fleet", who: "mate" },
      ]);
      expect(all.every(({ undone, undoes }) => undone === undefined && undoes === undefined)).toBe(
        true,
      );
      const [newest] = await store.history({ limit: 1 });
      expect(newest?.sequence).toBe(second.sequence);
      const rest = await store.history({ limit: 10, before: second.sequence });
      expect(rest.map(({ sequence }) => sequence)).toEqual(
        all.slice(1).map(({ sequence }) => sequence),
      );
    });

    test("an edit is taken back by any number it wrote, told as undone, and not twice", async () => {
      const { store, ids, edit } = await filled();
      const before = await graphPicture(store);
      const { sequence } = await edit(1, 1);
      const undo = await store.undo(sequence, { who: "mate", at: "2026-04-02T00:00:00Z" });
      expect(undo).toMatchObject({ nodesChanged: 1, nodesCreated: 0, nodesDeleted: 0 });
      expect(await graphPicture(store)).toStrictEqual(before);
      expect((await store.node(ids.pawl))?.version).toBeGreaterThan(2);
      const [undoing, edited] = await store.history({ limit: 2 });
      expect(undoing).toMatchObject({ sequence: undo.sequence, undoes: sequence, who: "mate" });
      expect(edited).toMatchObject({
        sequence,
        undone: { at: "2026-04-02T00:00:00Z", who: "mate" },
      });
      expect((await problemOf(store.undo(sequence, occasion))).code).toBe("undo-blocked");
    });

    test("an undo can itself be undone, and the change then undone again", async () => {
      const { store, edit } = await filled();
      const before = await graphPicture(store);
      const { sequence } = await edit(1, 1);
      const after = await graphPicture(store);
      const undo = await store.undo(sequence, occasion);
      await store.undo(undo.sequence, occasion);
      expect(await graphPicture(store)).toStrictEqual(after);
      const edited = (await store.history({ limit: 5 })).find((one) => one.sequence === sequence);
      expect(edited).not.toHaveProperty("undone");
      await store.undo(sequence, occasion);
      expect(await graphPicture(store)).toStrictEqual(before);
    });

    test("a deletion comes back whole, with all that went with it", async () => {
      const { store, ids } = await filled();
      const before = await graphPicture(store);
      const gone = await store.apply(
        { changes: [{ kind: "delete-node", id: ids.maker, basedOn: 1 }] },
        occasion,
      );
      expect(gone.nodesDeleted).toBeGreaterThan(5);
      expect(await store.search("0071-A.3", 5)).toEqual([]);
      await store.undo(gone.sequence, occasion);
      expect(await graphPicture(store)).toStrictEqual(before);
      expect((await store.search("0071-A.3", 5))[0]?.node.id).toBe(ids.pawl);
    });

    test("a change that a later one stands on stays, and the later one is named", async () => {
      const { store, ids, edit } = await filled();
      const { sequence } = await edit(1, 1);
      await edit(2, 2);
      const before = await graphPicture(store);
      const problem = await problemOf(store.undo(sequence, occasion));
      expect(problem.code).toBe("undo-blocked");
      expect(problem.facts["standing"]).toMatchObject([{ subject: ids.pawl, who: "cook" }]);
      expect(await graphPicture(store)).toStrictEqual(before);
    });

    test("an import undone either way is undone in both lists, and comes back by undoing the undo", async () => {
      const { store, ids } = await filled();
      const { importId, sequence } = await store.apply(
        { changes: [{ kind: "update-node", id: ids.pawl, basedOn: 1, set: { massKg: 9 } }] },
        importOccasion("weights.csv"),
      );
      if (importId === undefined) throw new Error("An import was expected");
      const after = await graphPicture(store);
      const undo = await store.undo(sequence, { who: "mate", at: "2026-05-01T00:00:00Z" });
      expect((await store.node(importId))?.properties["undone"]).toBe("2026-05-01T00:00:00Z");
      expect((await problemOf(store.undoImport(importId, occasion))).code).toBe("undo-blocked");
      await store.undo(undo.sequence, occasion);
      expect(await graphPicture(store)).toStrictEqual(after);
      await store.undoImport(importId, occasion);
      const told = (await store.history({ limit: 9 })).find((one) => one.importId === importId);
      expect(told).toMatchObject({ importId, undone: { at: occasion.at } });
    });

    test("a number nothing wrote is no change", async () => {
      const { store } = await filled();
      for (const sequence of [0, -3, 100_000])
        expect((await problemOf(store.undo(sequence, occasion))).code).toBe("not-found");
    });

    test("the journal can be asked for one change alone", async () => {
      const { store, ids, edit } = await filled();
      const { sequence } = await edit(1, 1);
      const [note] = await store.history({ limit: 1 });
      const entries = await store.journal({
        limit: 10,
        since: note?.first ?? 0,
        before: sequence + 1,
      });
      expect(entries).toMatchObject([
        { kind: "changed", subject: { kind: "node", id: ids.pawl }, after: { massKg: 1 } },
      ]);
    });
  });
}
