import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { openDemo } from "../../api/plans/open-demo.ts";
import { keepRows } from "../../api/scoring/snapshot/keep-rows.ts";
import { vesselPicture } from "../../api/scoring/snapshot/vessel-picture.ts";
import { SqliteStore } from "../../api/store/sqlite/sqlite-store.ts";
import { occasion, smallFleet } from "../contract/small-fleet.ts";
import { randomFleet } from "../tools/random-fleet.ts";

const demo = join(import.meta.dirname, "../../importers/demo");

/** The reference is the store's own reading of one vessel, in SQL. */
describe("a vessel's picture out of the whole fleet's", () => {
  it("is what the store reads for that vessel, on the demo and a small fleet", async () => {
    for (const fill of [
      (store: SqliteStore) => openDemo(store, demo, occasion),
      (store: SqliteStore) => store.apply(smallFleet().set, occasion),
    ]) {
      const store = SqliteStore.open(":memory:");
      await fill(store);
      const whole = await store.snapshot();
      for (const [row, id] of whole.vessels.id.entries()) {
        expect(vesselPicture(whole, row)).toStrictEqual(await store.snapshot(id));
      }
      await store.close();
    }
  });

  it("is the whole where there is one vessel and nothing else", async () => {
    for (let seed = 1; seed <= 12; seed++) {
      const store = SqliteStore.open(":memory:");
      const { sketch } = randomFleet(seed);
      await sketch.into(store);
      const whole = await store.snapshot();
      const [vessel] = whole.vessels.id;
      if (vessel === undefined) throw new Error("a random fleet has a vessel");
      expect(vesselPicture(whole, 0)).toStrictEqual(await store.snapshot(vessel));
      expect(keepRows(whole, { items: () => true, parts: () => true })).toStrictEqual(whole);
      await store.close();
    }
  });
});
