import { describe, expect, test } from "vitest";
import type { PageQuery } from "../../../api/store/graph-store.ts";
import { Draft, occasion, smallFleet } from "../small-fleet.ts";
import type { StoreFactory } from "../store-contract.ts";
import { problemOf } from "./problem-of.ts";

export function pageContract(open: StoreFactory): void {
  describe("pages", () => {
    const filled = async () => {
      const store = await open();
      const draft = new Draft();
      const maker = draft.node("Maker", { name: "Ostrava" }, "Ostrava");
      const rows: readonly (readonly [string, string | undefined, number | undefined])[] = [
        ["B-2", "Oil seal", 0.5],
        ["a-1", "oil filter", 2],
        ["C-3", undefined, undefined],
        ["D-4", "Impeller", 0.1],
        ["E-5", "Seal, Größe 3", 0.3],
      ];
      for (const [partNumber, description, massKg] of rows) {
        const part = draft.node(
          "Part",
          {
            partNumber,
            ...(description === undefined ? {} : { description }),
            ...(massKg === undefined ? {} : { massKg }),
            isSafety: partNumber === "D-4",
          },
          "Ostrava",
          partNumber,
        );
        draft.link("MADE_BY", part, maker);
      }
      await store.apply(draft.set, occasion);
      const numbers = async (more: Omit<PageQuery, "label" | "offset" | "limit">) =>
        (await store.page({ label: "Part", offset: 0, limit: 50, ...more })).nodes.map(
          ({ properties }) => properties["partNumber"],
        );
      return { store, maker, numbers };
    };

    test("come in key order, cut where asked, with the total and what each node belongs to", async () => {
      const { store, maker } = await filled();
      const page = await store.page({ label: "Part", offset: 1, limit: 2 });
      expect(page.total).toBe(5);
      expect(page.nodes.map(({ properties }) => properties["partNumber"])).toEqual(["B-2", "C-3"]);
      expect(page.owning.map(({ type, from, to }) => ({ type, from, to }))).toEqual(
        expect.arrayContaining(
          page.nodes.map(({ id }) => ({ type: "MADE_BY", from: id, to: maker })),
        ),
      );
      expect(page.owners).toMatchObject([{ id: maker, properties: { name: "Ostrava" } }]);
      const beyond = await store.page({ label: "Part", offset: 50, limit: 2 });
      expect(beyond).toMatchObject({ total: 5, nodes: [], owning: [], owners: [] });
    });

    test("are sorted by a property, letters without regard to case, nodes without it last", async () => {
      const { numbers } = await filled();
      expect(await numbers({ sortBy: "partNumber" })).toEqual(["a-1", "B-2", "C-3", "D-4", "E-5"]);
      expect(await numbers({ sortBy: "massKg" })).toEqual(["D-4", "E-5", "B-2", "a-1", "C-3"]);
      expect(await numbers({ sortBy: "massKg", descending: true })).toEqual([
        "a-1",
        "B-2",
        "E-5",
        "D-4",
        "C-3",
      ]);
    });

    test("are narrowed by conditions that must all hold", async () => {
      const { numbers } = await filled();
      const test = (property: string, is: "equal" | "holds" | "at least" | "at most", value = "") =>
        ({ property, is, value }) as const;
      expect(await numbers({ where: [test("partNumber", "equal", "A-1")] })).toEqual(["a-1"]);
      expect(await numbers({ where: [test("description", "holds", "SEAL")] })).toEqual([
        "B-2",
        "E-5",
      ]);
      expect(
        await numbers({
          where: [
            { property: "massKg", is: "at least", value: 0.3 },
            { property: "massKg", is: "at most", value: 0.5 },
          ],
        }),
      ).toEqual(["B-2", "E-5"]);
      expect(await numbers({ where: [{ property: "description", is: "absent" }] })).toEqual([
        "C-3",
      ]);
      expect(await numbers({ where: [{ property: "massKg", is: "present" }] })).toHaveLength(4);
      expect(
        await numbers({ where: [{ property: "isSafety", is: "equal", value: true }] }),
      ).toEqual(["D-4"]);
    });

    test("are narrowed by words as a search is", async () => {
      const { numbers } = await filled();
      expect(await numbers({ text: "oil" })).toEqual(["a-1", "B-2"]);
      expect(await numbers({ text: "grosse sea" })).toEqual(["E-5"]);
      expect(await numbers({ text: "d4" })).toEqual(["D-4"]);
      expect(await numbers({ text: "*" })).toEqual([]);
      expect(await numbers({ text: " " })).toHaveLength(5);
    });

    test("by a property the label does not have are refused", async () => {
      const { store } = await filled();
      const page = { label: "Part", offset: 0, limit: 5 } as const;
      for (const query of [
        { ...page, sortBy: `n"; DROP TABLE node` },
        { ...page, where: [{ property: "colour", is: "present" } as const] },
      ])
        expect((await problemOf(store.page(query))).code).toBe("input-invalid");
    });

    test("of every label can be asked for", async () => {
      const store = await open();
      await store.apply(smallFleet().set, occasion);
      const lots = await store.page({ label: "StockLot", offset: 0, limit: 9, sortBy: "quantity" });
      expect(lots.total).toBe(await store.count("StockLot"));
      expect(new Set(lots.owning.map(({ type }) => type))).toEqual(
        new Set(["STOWED_IN", "LOT_OF"]),
      );
    });
  });

  describe("suppliers' codes", () => {
    test("lead to their part, after the exact number and before longer ones", async () => {
      const store = await open();
      const { set, ids } = smallFleet();
      await store.apply(set, occasion);
      const draft = new Draft();
      const odd = draft.node("Part", { partNumber: "77-K" }, "x", "77-K");
      const long = draft.node("Part", { partNumber: "77-K-9" }, "x", "77-K-9");
      draft.link("OFFERS", ids.supplier, ids.impeller, { supplierCode: "77 K" });
      await store.apply(draft.set, occasion);
      const hits = await store.search("77k", 10);
      expect(hits.map(({ node }) => node.id)).toEqual([odd, ids.impeller, long]);
      expect(hits[1]).toMatchObject({ property: "OFFERS.supplierCode", matched: "77 K" });
      expect((await store.search("77k", 10, ["Supplier"])).length).toBe(0);
      await store.apply(
        {
          changes: [
            {
              kind: "update-link",
              type: "OFFERS",
              from: ids.supplier,
              to: ids.impeller,
              basedOn: 1,
              set: { supplierCode: "ZZ/1" },
            },
          ],
        },
        occasion,
      );
      expect((await store.search("zz1", 10)).map(({ node }) => node.id)).toEqual([ids.impeller]);
      expect((await store.search("77k", 10)).map(({ node }) => node.id)).toEqual([odd, long]);
      await store.apply(
        { changes: [{ kind: "delete-node", id: ids.impeller, basedOn: 1 }] },
        occasion,
      );
      expect(await store.search("zz1", 10)).toEqual([]);
    });
  });
}
