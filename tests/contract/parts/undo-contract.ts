import { describe, expect, test } from "vitest";
import type { GraphStore } from "../../../api/store/graph-store.ts";
import { mintNodeId } from "../../../graph-schema/index.ts";
import type { ChangeSet } from "../../../importers/change-set.ts";
import { graphPicture } from "../graph-picture.ts";
import { Draft, importOccasion, occasion, smallFleet } from "../small-fleet.ts";
import type { StoreFactory } from "../store-contract.ts";
import { problemOf } from "./problem-of.ts";

async function takeIn(store: GraphStore, set: ChangeSet, fileName = "list.csv") {
  const { importId } = await store.apply(set, importOccasion(fileName));
  if (importId === undefined) throw new Error("The import wrote nothing");
  return importId;
}

/** A file that creates, changes, clears, deletes and moves. */
function mixedChanges(ids: ReturnType<typeof smallFleet>["ids"]): ChangeSet {
  const draft = new Draft();
  const part = draft.node("Part", { partNumber: "NEW-1" }, "new-1");
  draft.link("MADE_BY", part, ids.maker).link("USES", ids.winch, part, { quantity: 1 });
  return {
    changes: [
      ...draft.changes,
      {
        kind: "update-node",
        id: ids.pawl,
        basedOn: 1,
        set: { description: "Pawl, size 3" },
        clear: ["massKg"],
        extra: { note: "seen" },
      },
      {
        kind: "update-link",
        type: "USES",
        from: ids.winch,
        to: ids.pawl,
        basedOn: 1,
        set: { quantity: 6 },
      },
      { kind: "delete-link", type: "STOWED_IN", from: ids.tinLot, to: ids.tin, basedOn: 1 },
      {
        kind: "create-link",
        type: "STOWED_IN",
        from: ids.tinLot,
        to: ids.forepeak,
        properties: {},
      },
      { kind: "delete-node", id: ids.other, basedOn: 1 },
      {
        kind: "update-node",
        id: ids.tender,
        basedOn: 1,
        set: { name: "Dabchick" },
        key: "dabchick",
      },
    ],
  };
}

export function undoContract(open: StoreFactory): void {
  describe("undo", () => {
    test("an undone import leaves the graph as it was, and stays in the journal", async () => {
      const store = await open();
      const { set, ids } = smallFleet();
      await store.apply(set, occasion);
      const before = await graphPicture(store);
      const importId = await takeIn(store, mixedChanges(ids));
      expect(await graphPicture(store, ["Import"])).not.toStrictEqual(before);
      const sequence = await store.sequence();
      const receipt = await store.undoImport(importId, { who: "b", at: "2026-03-02T00:00:00Z" });
      expect(receipt.sequence).toBeGreaterThan(sequence);
      expect(await graphPicture(store, ["Import"])).toStrictEqual(before);
      expect((await store.node(importId))?.properties["undone"]).toBe("2026-03-02T00:00:00Z");
      expect((await store.journal({ importId, limit: 5 })).length).toBe(5);
      const newest = await store.journal({ limit: receipt.sequence - sequence });
      expect(newest.every(({ who }) => who === "b")).toBe(true);
    });

    test("progress of a large undo rises to its total and never runs backwards", async () => {
      const store = await open();
      const draft = new Draft();
      for (let at = 0; at < 2500; at += 1) {
        draft.node("Part", { partNumber: `N-${at}` }, `maker\u001fn-${at}`);
      }
      const importId = await takeIn(store, { changes: draft.changes }, "long.csv");
      const told: [done: number, total: number][] = [];
      await store.undoImport(importId, occasion, (done, total) => told.push([done, total]));
      expect(told.length).toBeGreaterThan(1);
      const [first] = told;
      expect(
        told.every(([done, total], at) => total === first?.[1] && done >= (told[at - 1]?.[0] ?? 0)),
      ).toBe(true);
      expect(told.at(-1)?.[0]).toBe(first?.[1]);
    });

    test("the first import of all can be undone to an empty graph, and taken in again", async () => {
      const store = await open();
      const { set } = smallFleet();
      const importId = await takeIn(store, set);
      const full = await graphPicture(store, ["Import"]);
      await store.undoImport(importId, occasion);
      expect(await graphPicture(store, ["Import"])).toStrictEqual({ nodes: [], links: [] });
      expect(await store.search("pawl", 5)).toStrictEqual([]);
      await takeIn(store, set);
      expect(await graphPicture(store, ["Import"])).toStrictEqual(full);
    });

    test("an import is undone once", async () => {
      const store = await open();
      const importId = await takeIn(store, smallFleet().set);
      await store.undoImport(importId, occasion);
      expect((await problemOf(store.undoImport(importId, occasion))).code).toBe("undo-blocked");
    });

    test("what is no import cannot be undone", async () => {
      const store = await open();
      const { set, ids } = smallFleet();
      await store.apply(set, occasion);
      for (const id of [mintNodeId("Import", "none"), ids.pawl])
        expect((await problemOf(store.undoImport(id, occasion))).code).toBe("not-found");
    });

    test("a later change of a record stands in the way and is named", async () => {
      const store = await open();
      const { set, ids } = smallFleet();
      const importId = await takeIn(store, set);
      await store.apply(
        { changes: [{ kind: "update-node", id: ids.pawl, basedOn: 1, set: { massKg: 1 } }] },
        { who: "cook", at: "2026-04-01T00:00:00Z" },
      );
      const before = await graphPicture(store);
      const problem = await problemOf(store.undoImport(importId, occasion));
      expect(problem.code).toBe("undo-blocked");
      expect(problem.facts["standing"]).toMatchObject([
        { subject: ids.pawl, who: "cook", at: "2026-04-01T00:00:00Z" },
      ]);
      expect(await graphPicture(store)).toStrictEqual(before);
    });

    test("a later deletion stands in the way", async () => {
      const store = await open();
      const { set, ids } = smallFleet();
      const importId = await takeIn(store, set);
      await store.apply(
        { changes: [{ kind: "delete-node", id: ids.unknownGear, basedOn: 1 }] },
        occasion,
      );
      const problem = await problemOf(store.undoImport(importId, occasion));
      expect(problem.code).toBe("undo-blocked");
      expect(JSON.stringify(problem.facts["standing"])).toContain(ids.unknownGear);
    });

    test("something new linked to a node the import made stands in the way", async () => {
      const store = await open();
      const { set, ids } = smallFleet();
      const importId = await takeIn(store, set);
      const draft = new Draft();
      const part = draft.node("Part", { partNumber: "Z" }, "z");
      draft.link("MADE_BY", part, ids.maker);
      await store.apply(draft.set, occasion);
      const problem = await problemOf(store.undoImport(importId, occasion));
      expect(problem.code).toBe("undo-blocked");
      expect(problem.facts).toMatchObject({
        count: 1,
        standing: [{ subject: `MADE_BY ${part} > ${ids.maker}` }],
      });
    });

    test("later changes to other things do not stand in the way", async () => {
      const store = await open();
      const { set, ids } = smallFleet();
      await store.apply(set, occasion);
      const draft = new Draft();
      const part = draft.node("Part", { partNumber: "Z" }, "z");
      draft.link("MADE_BY", part, ids.maker);
      const importId = await takeIn(store, draft.set);
      await store.apply(
        {
          changes: [
            { kind: "update-node", id: ids.maker, basedOn: 1, set: { name: "Ostrava" } },
            { kind: "delete-node", id: ids.other, basedOn: 1 },
          ],
        },
        occasion,
      );
      await store.undoImport(importId, occasion);
      expect(await store.node(part)).toBeUndefined();
    });

    test("imports are undone one after another, the last first, back to the beginning", async () => {
      const store = await open();
      const { set, ids } = smallFleet();
      const first = await takeIn(store, set, "one.csv");
      const between = await graphPicture(store, ["Import"]);
      const second = await takeIn(store, mixedChanges(ids), "two.csv");
      expect((await problemOf(store.undoImport(first, occasion))).code).toBe("undo-blocked");
      await store.undoImport(second, occasion);
      expect(await graphPicture(store, ["Import"])).toStrictEqual(between);
      await store.undoImport(first, occasion);
      expect(await graphPicture(store, ["Import"])).toStrictEqual({ nodes: [], links: [] });
    });

    test("a name given to another since is named as what stands in the way", async () => {
      const store = await open();
      const { set, ids } = smallFleet();
      await store.apply(set, occasion);
      const importId = await takeIn(store, {
        changes: [
          { kind: "update-node", id: ids.tender, basedOn: 1, set: { name: "Coot" }, key: "coot" },
        ],
      });
      const draft = new Draft();
      const newcomer = mintNodeId("Vessel", "grebe", 1);
      draft.changes.push({
        kind: "create-node",
        label: "Vessel",
        id: newcomer,
        key: "grebe",
        properties: { name: "Grebe" },
      });
      await store.apply(draft.set, occasion);
      const before = await graphPicture(store);
      expect((await problemOf(store.undoImport(importId, occasion))).code).toBe("undo-blocked");
      expect(await graphPicture(store)).toStrictEqual(before);
    });
  });
}
