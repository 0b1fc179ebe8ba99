import { describe, expect, test } from "vitest";
import { mintNodeId } from "../../../graph-schema/index.ts";
import { linkKey } from "../../../importers/change-set.ts";
import { Draft, occasion, smallFleet } from "../small-fleet.ts";
import type { StoreFactory } from "../store-contract.ts";
import { problemOf } from "./problem-of.ts";

export function readingContract(open: StoreFactory): void {
  describe("reading", () => {
    test("nodes are found by id, by key, by page and by count", async () => {
      const store = await open();
      const { set, ids } = smallFleet();
      await store.apply(set, occasion);
      expect(await store.node(mintNodeId("Part", "ghost"))).toBeUndefined();
      expect((await store.nodeByKey("Vessel", "merle"))?.id).toBe(ids.ketch);
      expect(await store.nodeByKey("Vessel", "Merle")).toBeUndefined();
      expect(await store.count("Part")).toBe(6);
      const pages = [...(await store.list("Part", 0, 4)), ...(await store.list("Part", 4, 4))];
      const keys = pages.map(({ key }) => key);
      expect(keys).toHaveLength(6);
      expect(keys).toStrictEqual(keys.toSorted());
    });

    test("links are found from either end, of one type or all", async () => {
      const store = await open();
      const { set, ids } = smallFleet();
      await store.apply(set, occasion);
      expect((await store.linksFrom(ids.winch)).map(({ type }) => type).toSorted()).toStrictEqual([
        "MADE_BY",
        "USES",
        "USES",
      ]);
      expect((await store.linksFrom(ids.winch, "MADE_BY")).map(({ to }) => to)).toStrictEqual([
        ids.maker,
      ]);
      expect((await store.linksTo(ids.pawl, "LOT_OF")).map(({ from }) => from)).toStrictEqual([
        ids.tinLot,
      ]);
      expect(await store.linksTo(mintNodeId("Part", "ghost"))).toStrictEqual([]);
    });

    test("the known graph holds nodes by key and links by their ends", async () => {
      const store = await open();
      const { set, ids } = smallFleet();
      await store.apply(set, occasion);
      const known = await store.knownGraph();
      expect(known.nodes("Vessel").get("merle")).toStrictEqual(await store.node(ids.ketch));
      expect(known.nodes("Order").size).toBe(0);
      expect(known.links("USES").get(linkKey(ids.winch, ids.pawl))).toMatchObject({
        version: 1,
        properties: { quantity: 4, fittableAtSea: false },
      });
    });

    test("the sequence rises with every committed change and only then", async () => {
      const store = await open();
      const draft = new Draft();
      const id = draft.node("Maker", { name: "Ostrava" }, "Ostrava");
      const start = await store.sequence();
      const receipt = await store.apply(draft.set, occasion);
      expect(await store.sequence()).toBe(receipt.sequence);
      expect(receipt.sequence).toBeGreaterThan(start);
      await problemOf(
        store.apply({ changes: [{ kind: "delete-node", id, basedOn: 7 }] }, occasion),
      );
      expect(await store.sequence()).toBe(receipt.sequence);
    });

    test("dependants of what does not exist are refused", async () => {
      const store = await open();
      const ghost = mintNodeId("Part", "ghost");
      expect((await problemOf(store.dependants(ghost))).code).toBe("not-found");
    });
  });
}
