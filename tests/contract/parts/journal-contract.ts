import { describe, expect, test } from "vitest";
import { Draft, importOccasion, occasion, smallFleet } from "../small-fleet.ts";
import type { StoreFactory } from "../store-contract.ts";

export function journalContract(open: StoreFactory): void {
  describe("journal", () => {
    test("a record's whole life is told newest first, with before and after", async () => {
      const store = await open();
      const draft = new Draft();
      const id = draft.node("Maker", { name: "Ostrava" }, "Ostrava");
      await store.apply(draft.set, { who: "a", at: "2026-01-01T00:00:00Z" });
      await store.apply(
        { changes: [{ kind: "update-node", id, basedOn: 1, set: { name: "Ostrava Deck" } }] },
        { who: "b", at: "2026-01-02T00:00:00Z" },
      );
      await store.apply(
        { changes: [{ kind: "delete-node", id, basedOn: 2 }] },
        { who: "c", at: "2026-01-03T00:00:00Z" },
      );
      const subject = { kind: "node", id };
      const told = [
        { kind: "deleted", who: "c", subject, before: { name: "Ostrava Deck" } },
        {
          kind: "changed",
          who: "b",
          subject,
          before: { name: "Ostrava" },
          after: { name: "Ostrava Deck" },
        },
        { kind: "created", who: "a", at: "2026-01-01T00:00:00Z", after: { name: "Ostrava" } },
      ];
      for (const query of [{ limit: 10 }, { limit: 10, about: id }]) {
        const entries = await store.journal(query);
        expect(entries).toMatchObject(told);
        expect(entries).toHaveLength(3);
        expect(entries.at(-1)).not.toHaveProperty("before");
        expect(entries[0]).not.toHaveProperty("after");
      }
    });

    test("every record created has its entry, pages join without gap or overlap", async () => {
      const store = await open();
      const { set } = smallFleet();
      const { sequence } = await store.apply(set, occasion);
      const seen: number[] = [];
      let before: number | undefined;
      for (;;) {
        const page = await store.journal(
          before === undefined ? { limit: 7 } : { limit: 7, before },
        );
        if (page.length === 0) break;
        seen.push(...page.map((entry) => entry.sequence));
        before = page.at(-1)?.sequence;
      }
      expect(seen).toStrictEqual(Array.from({ length: sequence }, (_, at) => sequence - at));
      const entries = await store.journal({ limit: sequence });
      for (const change of set.changes)
        if (change.kind === "create-link")
          expect(entries.map(({ subject }) => subject)).toContainEqual({
            kind: "link",
            type: change.type,
            from: change.from,
            to: change.to,
          });
    });

    test("entries about a node include the relationships at it, from either side", async () => {
      const store = await open();
      const { set, ids } = smallFleet();
      await store.apply(set, occasion);
      await store.apply(
        {
          changes: [
            { kind: "delete-link", type: "USES", from: ids.winch, to: ids.pawl, basedOn: 1 },
          ],
        },
        occasion,
      );
      for (const about of [ids.winch, ids.pawl]) {
        const entries = await store.journal({ about, limit: 50 });
        expect(entries[0]).toMatchObject({
          kind: "deleted",
          subject: { kind: "link", type: "USES", from: ids.winch, to: ids.pawl },
          before: { quantity: 4, failureEffect: "degrade" },
        });
        expect(entries.filter(({ kind }) => kind === "created").length).toBeGreaterThan(1);
        expect(new Set(entries.map(({ sequence }) => sequence)).size).toBe(entries.length);
      }
    });

    test("an import is a node, its entries are tagged with it and can be asked for", async () => {
      const store = await open();
      const { set, ids } = smallFleet();
      const first = await store.apply(set, occasion);
      const second = await store.apply(
        { changes: [{ kind: "update-node", id: ids.pawl, basedOn: 1, set: { massKg: 1 } }] },
        { ...importOccasion("weights.csv"), who: "engineer" },
      );
      const { importId } = second;
      if (importId === undefined) throw new Error("An import was expected");
      expect(second).toMatchObject({ nodesCreated: 0, nodesChanged: 1 });
      expect((await store.node(importId))?.properties).toMatchObject({
        fileName: "weights.csv",
        who: "engineer",
        at: occasion.at,
      });
      const entries = await store.journal({ importId, limit: 100 });
      expect(entries.every((entry) => entry.importId === importId)).toBe(true);
      expect(entries.every((entry) => entry.sequence > first.sequence)).toBe(true);
      expect(entries.map(({ subject }) => subject)).toContainEqual({ kind: "node", id: ids.pawl });
      const all = await store.journal({ limit: 1000 });
      expect(all.filter((entry) => entry.importId === undefined)).toHaveLength(first.sequence);
    });
  });
}
