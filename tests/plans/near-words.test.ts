import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { findSpares } from "../../api/plans/find-spares.ts";
import { recordByWord } from "../../api/plans/records/find-record.ts";
import type { GraphStore } from "../../api/store/graph-store.ts";
import { smallApp } from "../http/small-app.ts";

let store: GraphStore;
beforeAll(async () => {
  ({ store } = await smallApp(true));
});
afterAll(() => store.close());

const sentence = async (text: string) => (await findSpares(store, { text }, "2026-11-21")).sentence;

describe("words nothing answers to", () => {
  it.each(["sprng", "sprign", "Sprinng", "pawl sprimg"])("%s is near spring", async (text) => {
    expect(await sentence(text)).toContain("Near it: “spring”.");
  });

  it("are left alone where nothing is near, or they are short", async () => {
    expect(await sentence("springboard")).toContain("Try the start of a part number");
    expect(await sentence("spq")).toContain("Try the start of a part number");
  });

  it("name parts near them with what they are", async () => {
    await expect(recordByWord(store, "pawl", ["Part"])).rejects.toThrow(
      'Near it: "0040-07" (Pawl spring)',
    );
    await expect(recordByWord(store, "sprign", ["Part"])).rejects.toThrow('Near it: "spring".');
  });
});
