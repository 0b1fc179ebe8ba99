import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { kitAnswer } from "../../api/contract/kit.contract.ts";
import { Problem } from "../../api/errors/problem.ts";
import { planKit } from "../../api/plans/plan-kit.ts";
import type { GraphStore } from "../../api/store/graph-store.ts";
import { openStore } from "../../api/store/open-store.ts";
import type { NodeId } from "../../graph-schema/index.ts";
import { GraphSketch } from "../tools/graph-sketch.ts";

let store: GraphStore;
beforeEach(async () => {
  store = await openStore({ db: ":memory:", env: {} });
});
afterEach(async () => {
  await store.close();
});

const today = "2026-11-25";
const twentyDays = { daysExpected: 16, daysLongest: 20, departs: "2027-01-10" } as const;
const poisson = (mean: number, k: number): number => {
  let term = Math.exp(-mean);
  for (let i = 1; i <= k; i++) term *= mean / i;
  return term;
};

/** A boat whose gear takes the parts named, each with the mean demand given for twenty days. */
function boatWith(parts: readonly (readonly [name: string, mean: number])[]) {
  const sketch = new GraphSketch();
  const boat = sketch.vessel("Ysolvane");
  const supplier = sketch.supplier("Nordquay Stores");
  const id = new Map<string, NodeId>();
  for (const [name, mean] of parts) {
    const part = sketch.part(name);
    id.set(name, part);
    if (mean === 0) continue;
    const model = sketch.model(`Gear ${name}`);
    sketch.item(`Item ${name}`, boat, model, { hoursPerDay: 24 });
    sketch.link("USES", model, part, {
      quantity: 1,
      rate: mean / 0.48,
      rateBasis: "1000 hours",
      rateSource: "maker",
    });
  }
  const of = (name: string): NodeId => id.get(name) ?? expect.unreachable(name);
  const offer = (name: string, priceMinor: number) =>
    sketch.link("OFFERS", supplier, of(name), { priceMinor, currency: "EUR" });
  const replaced = (older: string, newer: string) =>
    sketch.link("SUPERSEDED_BY", of(older), of(newer), { source: "maker's list" });
  return { sketch, boat, of, offer, replaced };
}

describe("a part that was superseded", () => {
  test("is served by its successor, bought in its place once the old one is gone", async () => {
    const { sketch, boat, of, offer, replaced } = boatWith([
      ["OLD-1", 0.5],
      ["NEW-1", 0.7],
    ]);
    offer("NEW-1", 1000);
    replaced("OLD-1", "NEW-1");
    sketch.stock(of("OLD-1"), boat, 1);
    await sketch.into(store);
    const kit = kitAnswer.parse(
      await planKit(store, { ...twentyDays, targets: { passage: 0.95 } }, today),
    );
    // METHODS, section 6, summed here term by term: Pr(D_new <= x and D_old + D_new <= 1 + x).
    const joint = (x: number): number => {
      let sum = 0;
      for (let fresh = 0; fresh <= x; fresh++) {
        for (let old = 0; old + fresh <= 1 + x; old++)
          sum += poisson(0.7, fresh) * poisson(0.5, old);
      }
      return sum;
    };
    let least = 0;
    while (joint(least) < 0.95) least++;
    const passage = kit.tiers.find(({ tier }) => tier === "passage");
    expect(kit.lines.map(({ partNumber, buy }) => [partNumber, buy])).toEqual([
      ["NEW-1", least],
      ["OLD-1", 0],
    ]);
    expect(passage?.withKit).toBeCloseTo(joint(least), 10);
    expect(passage?.withAboard).toBeCloseTo(joint(0), 10);
    expect(kit.total.lowerBound).toBe(1000 * least);
    const [fresh, old] = kit.lines;
    expect(fresh?.chain).toMatchObject({
      older: [{ name: "Quillmark OLD-1" }],
      newer: [],
      source: "maker's list",
    });
    expect(old?.chain?.newer).toMatchObject([{ name: "Quillmark NEW-1" }]);
    expect(old?.shortWithKit).toBeCloseTo(1 - joint(least), 5);
  });

  test("counts its successor aboard, though no gear takes that one", async () => {
    const { sketch, boat, of, offer, replaced } = boatWith([
      ["OLD-1", 0.3],
      ["MID-1", 0],
      ["NEW-1", 0],
    ]);
    offer("NEW-1", 500);
    replaced("OLD-1", "MID-1");
    replaced("MID-1", "NEW-1");
    sketch.stock(of("NEW-1"), boat, 1);
    sketch.stock(of("MID-1"), boat, 1);
    await sketch.into(store);
    const kit = await planKit(store, { ...twentyDays, targets: { passage: 0.9 } }, today);
    expect(kit.total.buyPieces).toBe(0);
    const sum = poisson(0.3, 0) + poisson(0.3, 1) + poisson(0.3, 2);
    expect(kit.tiers.find(({ tier }) => tier === "passage")?.withKit).toBeCloseTo(sum, 10);
    expect(kit.lines.find(({ partNumber }) => partNumber === "NEW-1")?.reasons).toHaveLength(1);
  });

  test("does not serve its successor", async () => {
    const { sketch, boat, of, offer, replaced } = boatWith([
      ["OLD-1", 0.3],
      ["NEW-1", 0.3],
    ]);
    offer("NEW-1", 500);
    replaced("OLD-1", "NEW-1");
    sketch.stock(of("OLD-1"), boat, 9);
    await sketch.into(store);
    const kit = await planKit(store, { ...twentyDays, targets: { passage: 0.9 } }, today);
    expect(kit.tiers.find(({ tier }) => tier === "passage")?.withAboard).toBeCloseTo(
      poisson(0.3, 0),
      8,
    );
    expect(kit.lines[0]?.partNumber).toBe("NEW-1");
  });

  test("is still bought where it is for sale and cheaper", async () => {
    const { sketch, offer, replaced } = boatWith([
      ["OLD-1", 1],
      ["NEW-1", 0.05],
    ]);
    offer("NEW-1", 90_000);
    offer("OLD-1", 100);
    replaced("OLD-1", "NEW-1");
    await sketch.into(store);
    const kit = await planKit(store, { ...twentyDays, targets: { passage: 0.9 } }, today);
    expect(kit.lines.map(({ partNumber, buy }) => [partNumber, buy > 0])).toEqual([
      ["OLD-1", true],
      ["NEW-1", false],
    ]);
  });

  test("by itself in the end is a problem that names the circle", async () => {
    const { sketch, replaced } = boatWith([
      ["A-1", 0.3],
      ["B-1", 0.3],
      ["C-1", 0],
    ]);
    replaced("A-1", "B-1");
    replaced("B-1", "C-1");
    replaced("C-1", "A-1");
    await sketch.into(store);
    const refused = await planKit(store, twentyDays, today).catch((reason: unknown) => reason);
    if (!(refused instanceof Problem)) expect.unreachable("not refused");
    expect(refused.code).toBe("supersession-cycle");
    const told = /received (.+?) \(/.exec(refused.message)?.[1] ?? "";
    const names = told.split(" superseded by ");
    expect(names).toHaveLength(4);
    expect(names.at(-1)).toBe(names[0]);
    expect(["A-1B-1C-1", "B-1C-1A-1", "C-1A-1B-1"]).toContain(names.slice(0, 3).join(""));
  });

  test("by two parts counts one of them, and says so", async () => {
    const { sketch, boat, of, offer, replaced } = boatWith([
      ["OLD-1", 0.3],
      ["NEW-1", 0],
      ["NEW-2", 0],
    ]);
    offer("NEW-2", 500);
    replaced("OLD-1", "NEW-1");
    replaced("OLD-1", "NEW-2");
    sketch.stock(of("NEW-1"), boat, 5);
    await sketch.into(store);
    const kit = await planKit(store, twentyDays, today);
    expect(kit.notices.find(({ code }) => code === "supersession-split")?.text).toContain(
      "NEW-2 is counted",
    );
    expect(kit.lines.map(({ partNumber }) => partNumber)).toEqual(["NEW-2", "OLD-1"]);
  });

  test("two hundred times over is answered", async () => {
    const names = Array.from({ length: 200 }, (_, at) => `P-${at}`);
    const { sketch, offer, replaced } = boatWith(
      names.map((name, at) => [name, at % 9 === 0 ? 0.02 : 0]),
    );
    names.slice(1).forEach((name, at) => {
      replaced(names[at] ?? "", name);
    });
    offer("P-199", 300);
    await sketch.into(store);
    const kit = await planKit(store, twentyDays, today);
    expect(kit.status).toBe("optimal");
    expect(kit.lines.filter(({ buy }) => buy > 0).map(({ partNumber }) => partNumber)).toEqual([
      "P-199",
    ]);
  });
});

describe("interchange", () => {
  const pair = (confidence: string | undefined) => {
    const { sketch, boat, of, offer } = boatWith([
      ["A-1", 0.4],
      ["B-1", 0],
    ]);
    offer("A-1", 500);
    sketch.stock(of("B-1"), boat, 9);
    sketch.link("INTERCHANGES_WITH", of("A-1"), of("B-1"), {
      source: "yard's notebook",
      ...(confidence === undefined ? {} : { confidence }),
    });
    return sketch;
  };

  test.each([
    ["confirmed", false, 9, "confirmed"],
    ["confirmed", true, 9, "confirmed"],
    ["likely", false, 9, "likely"],
    ["likely", true, 0, ""],
    [undefined, false, 9, "not stated"],
    [undefined, true, 0, ""],
    ["unproven", false, 0, ""],
  ] as const)(
    "marked %s, only confirmed wanted: %s, counts %d aboard",
    async (confidence, confirmedOnly, aboard, shown) => {
      await pair(confidence).into(store);
      const kit = await planKit(store, { ...twentyDays, confirmedOnly }, today);
      const line = kit.lines.find(({ reasons }) => reasons.length > 0);
      expect(line?.aboard).toBe(aboard);
      expect(line?.interchange.map((said) => [said.confidence, said.source])).toEqual(
        shown === "" ? [] : [[shown, "yard's notebook"]],
      );
      const codes = kit.notices.map(({ code }) => code);
      expect(codes.includes("interchange-unconfirmed")).toBe(confirmedOnly && aboard === 0);
      expect(codes.includes("interchange-unproven")).toBe(confidence === "unproven");
    },
  );
});
