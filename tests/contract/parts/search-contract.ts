import { describe, expect, test } from "vitest";
import { occasion, smallFleet } from "../small-fleet.ts";
import type { StoreFactory } from "../store-contract.ts";

export function searchContract(open: StoreFactory): void {
  describe("search", () => {
    const filled = async () => {
      const store = await open();
      const { set, ids } = smallFleet();
      await store.apply(set, occasion);
      const first = async (text: string) => (await store.search(text, 10))[0]?.node.id;
      return { store, ids, first };
    };

    test("words are found by their beginning, whatever case and accents", async () => {
      const { ids, first } = await filled();
      expect(await first("grosse paw")).toBe(ids.pawl);
      expect(await first("GRÖSSE")).toBe(ids.pawl);
      expect(await first("größe")).toBe(ids.pawl);
      expect(await first("baia")).toBe(ids.supplier);
      expect(await first("MINDELO bar")).toBe(ids.crossing);
    });

    test("part numbers are found by prefix, to the letter, and with punctuation ignored", async () => {
      const { ids, first } = await filled();
      for (const text of ["0071-A.3", "0071-a", "0071A3", "0071a", "00 71 a3", "007"])
        expect(await first(text), text).toBe(ids.pawl);
      expect(await first("sp92")).toBe(ids.spring);
      expect(await first("sp-9.3")).toBe(ids.newSpring);
      expect(await first("dw40")).toBe(ids.winch);
      expect(await first("00071")).toBe(ids.port);
    });

    test("an exact number comes before longer ones, names before descriptions", async () => {
      const { store, ids } = await filled();
      const hits = await store.search("kit", 10);
      expect(hits[0]).toMatchObject({ node: { id: ids.kit }, property: "partNumber" });
      const winches = await store.search("winch", 10);
      expect(winches[0]).toMatchObject({
        node: { id: ids.port },
        property: "position",
        matched: "Winch, port",
      });
    });

    test("labels and limit narrow the answer", async () => {
      const { store, ids } = await filled();
      const hits = await store.search("winch", 10, ["Part", "Model"]);
      expect(hits.map(({ node }) => node.id).toSorted()).toStrictEqual(
        [ids.kit, ids.winch].toSorted(),
      );
      expect(await store.search("p", 1)).toHaveLength(1);
    });

    test("text without letters or digits, or with signs of a query language, is harmless", async () => {
      const { store } = await filled();
      for (const text of ["", "  ", '"', "* OR *", "NEAR(", "a AND", "words:x", "-", "'; DROP"])
        await expect(store.search(text, 5), text).resolves.toBeInstanceOf(Array);
      expect(await store.search("*", 5)).toStrictEqual([]);
    });

    test("a changed text is found by its new words and not by its old ones", async () => {
      const { store, ids, first } = await filled();
      await store.apply(
        {
          changes: [
            { kind: "update-node", id: ids.grease, basedOn: 1, set: { description: "Tallow" } },
          ],
        },
        occasion,
      );
      expect(await first("tallow")).toBe(ids.grease);
      expect(await first("grease")).toBeUndefined();
    });
  });
}
