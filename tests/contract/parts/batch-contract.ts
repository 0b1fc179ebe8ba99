import { describe, expect, test } from "vitest";
import { mintNodeId } from "../../../graph-schema/index.ts";
import { occasion, smallFleet } from "../small-fleet.ts";
import type { StoreFactory } from "../store-contract.ts";

export function batchContract(open: StoreFactory): void {
  describe("many at once", () => {
    test("nodes come by id whatever their labels, those that do not exist left out", async () => {
      const store = await open();
      const { set, ids } = smallFleet();
      await store.apply(set, occasion);
      const wanted = [ids.pawl, ids.ketch, ids.pawl, mintNodeId("Part", "none")];
      const nodes = await store.nodes(wanted);
      expect(nodes.map(({ id }) => id).toSorted()).toEqual([ids.ketch, ids.pawl].toSorted());
      expect(nodes).toContainEqual(await store.node(ids.pawl));
      expect(await store.nodes([])).toEqual([]);
    });

    test("relationships come by either end and by type", async () => {
      const store = await open();
      const { set, ids } = smallFleet();
      await store.apply(set, occasion);
      const ends = (links: Awaited<ReturnType<typeof store.linksAt>>) =>
        links.map(({ type, from, to }) => `${type} ${from} ${to}`).toSorted();
      const from = await store.linksAt([ids.winch, ids.pump], "from", ["USES", "MADE_BY"]);
      const each = [
        ...(await store.linksFrom(ids.winch, "USES")),
        ...(await store.linksFrom(ids.pump, "USES")),
        ...(await store.linksFrom(ids.winch, "MADE_BY")),
        ...(await store.linksFrom(ids.pump, "MADE_BY")),
      ];
      expect(ends(from)).toEqual(ends(each));
      expect(from.length).toBe(5);
      const to = await store.linksAt([ids.spring, ids.grease], "to", ["CONSUMES"]);
      expect(ends(to)).toEqual(
        [
          `CONSUMES ${ids.service} ${ids.grease}`,
          `CONSUMES ${ids.service} ${ids.spring}`,
        ].toSorted(),
      );
      expect(await store.linksAt([ids.spring], "from", [])).toEqual([]);
      expect(await store.linksAt([], "to", ["USES"])).toEqual([]);
    });
  });
}
