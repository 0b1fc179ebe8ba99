import { describe, expect, it } from "vitest";
import { importFile } from "../../api/plans/import-file.ts";
import { keepSnapshot } from "../../api/plans/keep-snapshot.ts";
import { undoImport } from "../../api/plans/undo-import.ts";
import { openStore } from "../../api/store/open-store.ts";

const occasion = { who: "test", at: "2026-11-20T12:00:00.000Z" };
const bytes = new TextEncoder().encode("Supplier,Port\nHarrowgate Stores,Mindelo\n");

describe("a kept snapshot", () => {
  it("is shared while the graph stands still, and drawn anew after every change", async () => {
    const store = keepSnapshot(await openStore({ db: ":memory:", env: {} }));
    const empty = await store.snapshot();
    expect(await store.snapshot()).toBe(empty);

    await importFile(store, { name: "a.csv", bytes }, { dryRun: true }, occasion);
    expect(await store.snapshot()).toBe(empty);

    await importFile(store, { name: "a.csv", bytes }, {}, occasion);
    const filled = await store.snapshot();
    expect(filled.suppliers.name).toEqual(["Harrowgate Stores"]);
    expect(empty.suppliers.name).toEqual([]);

    await undoImport(store, undefined, occasion);
    expect((await store.snapshot()).suppliers.name).toEqual([]);
    await store.close();
  });

  it("is not kept when it failed", async () => {
    const store = await openStore({ db: ":memory:", env: {} });
    let isBroken = true;
    const kept = keepSnapshot(
      new Proxy(store, {
        get(target, name) {
          if (name === "snapshot" && isBroken) return () => Promise.reject(new Error("broken"));
          const member: unknown = Reflect.get(target, name);
          return typeof member === "function" ? member.bind(target) : member;
        },
      }),
    );
    await expect(kept.snapshot()).rejects.toThrow("broken");
    isBroken = false;
    expect((await kept.snapshot()).vessels.id).toEqual([]);
    await store.close();
  });
});
