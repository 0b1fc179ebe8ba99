import { describe, expect, test } from "vitest";
import { mintNodeId, type NodeId } from "../../../graph-schema/index.ts";
import { graphPicture } from "../graph-picture.ts";
import { Draft, importOccasion, occasion, smallFleet } from "../small-fleet.ts";
import type { StoreFactory } from "../store-contract.ts";
import { problemOf } from "./problem-of.ts";

export function writingContract(open: StoreFactory): void {
  describe("writing", () => {
    test("an applied change set is there, record for record", async () => {
      const store = await open();
      const { set } = smallFleet();
      const receipt = await store.apply(set, occasion);
      const nodes = set.changes.filter((change) => change.kind === "create-node");
      const links = set.changes.filter((change) => change.kind === "create-link");
      expect(receipt).toMatchObject({ nodesCreated: nodes.length, linksCreated: links.length });
      expect(receipt.sequence).toBe(nodes.length + links.length);
      const picture = await graphPicture(store);
      expect(picture.nodes).toHaveLength(nodes.length);
      for (const { id, key, properties } of nodes)
        expect(picture.nodes).toContainEqual({ id, key, properties, extra: {} });
      for (const { type, from, to, properties } of links)
        expect(picture.links).toContainEqual({ type, from, to, properties, extra: {} });
    });

    test("documents, numbers, yes and no, and unknown columns come back as they went in", async () => {
      const store = await open();
      const legs = [{ to: "Bridgetown", days: 16, longestDays: 20.5 }];
      const key = "x";
      const id = mintNodeId("Crossing", key);
      const extra = { "Bemerkung ": "=cmd()", "": "no header" };
      const properties = { name: "X", legs, daysExpected: 16 };
      await store.apply(
        { changes: [{ kind: "create-node", label: "Crossing", id, key, properties, extra }] },
        occasion,
      );
      expect(await store.node(id)).toStrictEqual({
        id,
        label: "Crossing",
        key,
        version: 1,
        properties,
        extra,
      });
    });

    test("an empty change set writes nothing, not even an import", async () => {
      const store = await open();
      const receipt = await store.apply({ changes: [] }, importOccasion("again.csv"));
      expect(receipt.sequence).toBe(0);
      expect(receipt.importId).toBeUndefined();
      expect(await store.count("Import")).toBe(0);
      expect(await store.sequence()).toBe(0);
    });

    test("a change to what is so already writes nothing", async () => {
      const store = await open();
      const { set, ids } = smallFleet();
      await store.apply(set, occasion);
      const before = await store.sequence();
      const receipt = await store.apply(
        {
          changes: [
            { kind: "update-node", id: ids.pawl, basedOn: 1, set: { massKg: 0.02 } },
            {
              kind: "update-link",
              type: "USES",
              from: ids.winch,
              to: ids.pawl,
              basedOn: 1,
              set: { quantity: 4 },
            },
          ],
        },
        importOccasion("again.csv"),
      );
      expect(receipt).toMatchObject({ sequence: 0, nodesChanged: 0, linksChanged: 0 });
      expect(await store.sequence()).toBe(before);
      expect((await store.node(ids.pawl))?.version).toBe(1);
    });

    test("values are set and cleared, unknown columns are added to, the version rises by one", async () => {
      const store = await open();
      const { set, ids } = smallFleet();
      await store.apply(set, occasion);
      const change = { kind: "update-node", id: ids.pawl } as const;
      await store.apply(
        { changes: [{ ...change, basedOn: 1, set: { massKg: 0.5 }, extra: { a: "1" } }] },
        occasion,
      );
      await store.apply(
        { changes: [{ ...change, basedOn: 2, set: {}, clear: ["massKg"], extra: { b: "2" } }] },
        occasion,
      );
      expect(await store.node(ids.pawl)).toMatchObject({
        version: 3,
        properties: { partNumber: "0071-A.3", description: "Pawl, Größe 3" },
        extra: { a: "1", b: "2" },
      });
      expect((await store.node(ids.pawl))?.properties).not.toHaveProperty("massKg");
    });

    test("a stale write is refused whole, showing both versions", async () => {
      const store = await open();
      const { set, ids } = smallFleet();
      await store.apply(set, occasion);
      const change = { kind: "update-node", id: ids.pawl, basedOn: 1 } as const;
      await store.apply({ changes: [{ ...change, set: { massKg: 0.5 } }] }, occasion);
      const before = await graphPicture(store);
      const problem = await problemOf(
        store.apply(
          {
            changes: [
              { kind: "update-node", id: ids.grease, basedOn: 1, set: { massKg: 9 } },
              { ...change, set: { massKg: 0.7 } },
            ],
          },
          occasion,
        ),
      );
      expect(problem.code).toBe("write-stale");
      expect(problem.facts).toMatchObject({
        subject: ids.pawl,
        yours: { version: 1, set: { massKg: 0.7 } },
        theirs: { version: 2, properties: { massKg: 0.5 } },
      });
      expect(await graphPicture(store)).toStrictEqual(before);
    });

    test("stale deletions and stale links are refused too", async () => {
      const store = await open();
      const { set, ids } = smallFleet();
      await store.apply(set, occasion);
      const link = { type: "USES", from: ids.winch, to: ids.pawl } as const;
      await store.apply(
        {
          changes: [
            { kind: "update-node", id: ids.pawl, basedOn: 1, set: { massKg: 1 } },
            { kind: "update-link", ...link, basedOn: 1, set: { quantity: 5 } },
          ],
        },
        occasion,
      );
      for (const change of [
        { kind: "delete-node", id: ids.pawl, basedOn: 1 },
        { kind: "delete-link", ...link, basedOn: 1 },
        { kind: "update-link", ...link, basedOn: 1, set: { quantity: 6 } },
      ] as const)
        expect((await problemOf(store.apply({ changes: [change] }, occasion))).code).toBe(
          "write-stale",
        );
    });

    test("a record created again goes on from its last version, so that no old write fits it", async () => {
      const store = await open();
      const create = new Draft();
      const id = create.node("Maker", { name: "Ostrava" }, "Ostrava");
      await store.apply(create.set, occasion);
      await store.apply({ changes: [{ kind: "delete-node", id, basedOn: 1 }] }, occasion);
      await store.apply(create.set, occasion);
      expect((await store.node(id))?.version).toBe(2);
    });

    test("a name may be taken once, by a new node or by a renamed one", async () => {
      const store = await open();
      const { set, ids } = smallFleet();
      await store.apply(set, occasion);
      const key = "merle";
      const twin = mintNodeId("Vessel", key, 1);
      const properties = { name: "MERLE" };
      for (const change of [
        { kind: "create-node", label: "Vessel", id: twin, key, properties },
        { kind: "create-node", label: "Vessel", id: ids.ketch, key: "other", properties },
        { kind: "update-node", id: ids.tender, basedOn: 1, set: properties, key },
      ] as const)
        expect((await problemOf(store.apply({ changes: [change] }, occasion))).code).toBe(
          "key-taken",
        );
      expect(await store.count("Vessel")).toBe(2);
    });

    test("a second link where one may be, or the same link twice, is refused", async () => {
      const store = await open();
      const { set, ids } = smallFleet();
      await store.apply(set, occasion);
      for (const draft of [
        new Draft().link("FITTED_ON", ids.port, ids.tender),
        new Draft().link("USES", ids.winch, ids.pawl, { quantity: 1 }),
      ])
        expect((await problemOf(store.apply(draft.set, occasion))).code).toBe("key-taken");
    });

    test("what breaks a declaration is refused: value, missing value, unknown name, wrong ends", async () => {
      const store = await open();
      const { set, ids } = smallFleet();
      await store.apply(set, occasion);
      const drafts = [
        new Draft().link("USES", ids.pump, ids.pawl, { quantity: -1 }),
        new Draft().link("USES", ids.pump, ids.pawl, {}),
        new Draft().link("USES", ids.pump, ids.pawl, { quantity: 1, colour: "red" }),
        new Draft().link("USES", ids.pawl, ids.pump, { quantity: 1 }),
        new Draft().link("OFFERS", ids.supplier, ids.spring, { currency: "euro" }),
      ];
      const dated = new Draft();
      dated.node("Crossing", { name: "Y", departs: "2026-02-30" }, "Y");
      for (const draft of [...drafts, dated])
        expect((await problemOf(store.apply(draft.set, occasion))).code).toBe("input-invalid");
    });

    test("changing, deleting or linking what does not exist is refused", async () => {
      const store = await open();
      const { set, ids } = smallFleet();
      await store.apply(set, occasion);
      const ghost = mintNodeId("Part", "ghost");
      for (const change of [
        { kind: "update-node", id: ghost, basedOn: 1, set: {} },
        { kind: "delete-node", id: ghost, basedOn: 1 },
        { kind: "delete-link", type: "USES", from: ids.pump, to: ids.pawl, basedOn: 1 },
        {
          kind: "create-link",
          type: "USES",
          from: ids.winch,
          to: ghost,
          properties: { quantity: 1 },
        },
      ] as const)
        expect((await problemOf(store.apply({ changes: [change] }, occasion))).code).toBe(
          "not-found",
        );
    });

    test("progress rises to the total and never runs backwards", async () => {
      const store = await open();
      const draft = new Draft();
      for (let at = 0; at < 5000; at++) draft.node("Maker", { name: `M${at}` }, `M${at}`);
      const reports: (readonly [number, number])[] = [];
      await store.apply(draft.set, occasion, (done, total) => reports.push([done, total]));
      expect(reports.length).toBeGreaterThan(1);
      expect(reports.at(-1)).toStrictEqual([5000, 5000]);
      expect(reports.map(([done]) => done)).toStrictEqual(
        reports.map(([done]) => done).toSorted((a, b) => a - b),
      );
    });

    test("deleting takes along what the declarations say, as shown beforehand", async () => {
      const store = await open();
      const { set, ids } = smallFleet();
      await store.apply(set, occasion);
      const before = await graphPicture(store);
      const shown = await store.dependants(ids.ketch);
      const goes: NodeId[] = [
        ids.hoist,
        ids.bail,
        ids.port,
        ids.unknownGear,
        ids.forepeak,
        ids.crate,
        ids.tin,
        ids.tinLot,
      ];
      expect(shown.nodes.map(({ id }) => id).toSorted()).toStrictEqual(goes.toSorted());
      const receipt = await store.apply(
        { changes: [{ kind: "delete-node", id: ids.ketch, basedOn: 1 }] },
        occasion,
      );
      expect(receipt.nodesDeleted).toBe(goes.length + 1);
      expect(receipt.linksDeleted).toBe(shown.links.length);
      const after = await graphPicture(store);
      expect(after.nodes).toStrictEqual(
        before.nodes.filter(({ id }) => id !== ids.ketch && !goes.includes(id)),
      );
      // The crossing stays: only its link to the vessel goes (whenTargetGoes of SAILED_BY).
      expect(await store.node(ids.crossing)).toBeDefined();
      expect(await store.linksFrom(ids.crossing)).toStrictEqual([]);
    });

    test("lockers that stand in a ring can be deleted", async () => {
      const store = await open();
      const draft = new Draft();
      const a = draft.node("Locker", { name: "A" }, "A");
      const b = draft.node("Locker", { name: "B" }, "B");
      draft.link("IS_WITHIN", a, b).link("IS_WITHIN", b, a);
      await store.apply(draft.set, occasion);
      await store.apply({ changes: [{ kind: "delete-node", id: a, basedOn: 1 }] }, occasion);
      expect(await graphPicture(store)).toStrictEqual({ nodes: [], links: [] });
    });
  });
}
