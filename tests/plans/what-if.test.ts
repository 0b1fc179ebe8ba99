import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { kitAnswer } from "../../api/contract/kit.contract.ts";
import { simulationAnswer } from "../../api/contract/simulation.contract.ts";
import { suppliersAnswer } from "../../api/contract/suppliers.contract.ts";
import type { WhatIf } from "../../api/contract/what-if.contract.ts";
import { measureCommonality } from "../../api/plans/measure-commonality.ts";
import { planKit } from "../../api/plans/plan-kit.ts";
import { rankSuppliers } from "../../api/plans/rank-suppliers.ts";
import { simulateCrossing } from "../../api/plans/simulate-crossing.ts";
import type { GraphStore } from "../../api/store/graph-store.ts";
import { openStore } from "../../api/store/open-store.ts";
import { fitForGood } from "../tools/fit-for-good.ts";
import { GraphSketch } from "../tools/graph-sketch.ts";
import { randomFleet } from "../tools/random-fleet.ts";

const today = "2026-11-25";
const departs = "2027-01-10";

let store: GraphStore;
beforeEach(async () => {
  store = await openStore({ db: ":memory:", env: {} });
});
afterEach(async () => {
  await store.close();
});

describe("what if", () => {
  // The reference is the graph changed in earnest and asked again.
  test.each([1, 2, 3, 4, 5, 6, 7, 8])(
    "gives the kit of the graph changed in earnest, fleet %i",
    async (seed) => {
      const { sketch, days } = randomFleet(seed);
      await sketch.into(store);
      const snapshot = await store.snapshot();
      const first = String(snapshot.items.id[0]);
      const models = snapshot.models.id.map(String);
      const other = models.find((id) => id !== snapshot.models.id[snapshot.items.model[0] ?? 0]);
      const model = other ?? models[0] ?? "";
      const request = { departs, daysExpected: days, daysLongest: days };
      const sequence = await store.sequence();
      const whatIf: WhatIf = { replace: [{ item: first, model }] };
      const imagined = kitAnswer.parse(await planKit(store, { ...request, whatIf }, today));
      expect(await store.sequence()).toBe(sequence);
      const before = await planKit(store, request, today);
      await fitForGood(store, first, model, departs);
      const after = await planKit(store, request, today);
      const { comparison, ...rest } = imagined;
      expect(rest).toEqual(after);
      const money = comparison?.figures.find(({ kind }) => kind === "money");
      expect(money?.before).toBe(before.status === "infeasible" ? null : before.total.cost.minor);
      expect(money?.after).toBe(after.status === "infeasible" ? null : after.total.cost.minor);
    },
  );

  async function smallBoat(): Promise<void> {
    const sketch = new GraphSketch();
    const boat = sketch.vessel("Ysolvane");
    const winch = sketch.model("W40", "winch");
    const rival = sketch.model("R50", "winch");
    const dear = sketch.supplier("Dearquay");
    const cheap = sketch.supplier("Cheapquay");
    const rate = { quantity: 1, rateBasis: "year", rateSource: "maker" } as const;
    for (const [name, model, yearly] of [
      ["PAWL-1", winch, 2],
      ["GEAR-1", winch, 1],
      ["PAWL-9", rival, 0.5],
    ] as const) {
      const part = sketch.part(name);
      sketch.link("USES", model, part, { ...rate, rate: yearly });
      sketch.link("OFFERS", dear, part, { priceMinor: 900, currency: "EUR" });
      if (name !== "GEAR-1")
        sketch.link("OFFERS", cheap, part, { priceMinor: 300, currency: "EUR" });
    }
    const winches = ["Port", "Starboard"].map((name) => sketch.item(name, boat, winch));
    sketch.duty("Trim sails", boat, "passage", 2, winches);
    await sketch.into(store);
  }
  const twenty = { departs, daysExpected: 20, daysLongest: 20 };
  const figure = (
    answer: {
      comparison?: { figures: { figure: string; difference: number | null }[] } | undefined;
    },
    name: string,
  ) => answer.comparison?.figures.find((one) => one.figure === name)?.difference;

  test("imagines nothing and finds no difference", async () => {
    await smallBoat();
    const { comparison, ...kit } = await planKit(store, { ...twenty, whatIf: {} }, today);
    expect(kit).toEqual(await planKit(store, twenty, today));
    expect(comparison?.figures.every(({ difference }) => difference === 0)).toBe(true);
    expect(comparison?.parts).toEqual([]);
    const { comparison: sides, ...gear } = await measureCommonality(store, { whatIf: {} });
    expect(gear).toEqual(await measureCommonality(store, {}));
    expect(sides?.figures.every(({ difference }) => difference === 0)).toBe(true);
  });

  test("a supplier lost leaves the dearer price and parts only one sells", async () => {
    await smallBoat();
    const whatIf: WhatIf = { loseSuppliers: ["Cheapquay"] };
    const kit = await planKit(store, { ...twenty, whatIf }, today);
    const pawls = kit.lines.find(({ partNumber }) => partNumber === "PAWL-1");
    expect(pawls?.unitPrice?.minor).toBe(900);
    expect(figure(kit, "kit to buy")).toBe(600 * (pawls?.buy ?? 0));
    const suppliers = suppliersAnswer.parse(await rankSuppliers(store, { whatIf }));
    expect(figure(suppliers, "parts only one sells")).toBe(1);
    expect(suppliers.singleSource.length).toBe(2);
  });

  test("a part whose only supplier is lost keeps its price as an assumed one, however dear", async () => {
    const sketch = new GraphSketch();
    const boat = sketch.vessel("Ysolvane");
    const winch = sketch.model("W40", "winch");
    const rate = { quantity: 1, rate: 3, rateBasis: "year", rateSource: "maker" } as const;
    const quay = sketch.supplier("Cheapquay");
    for (const [name, priceMinor] of [
      ["PAWL", 300],
      ["SPRING", 200],
      ["CLIP", 100],
    ] as const) {
      const part = sketch.part(name);
      sketch.link("USES", winch, part, rate);
      sketch.link("OFFERS", quay, part, { priceMinor, currency: "EUR" });
    }
    const gearbox = sketch.part("GEARBOX");
    sketch.link("USES", winch, gearbox, rate);
    sketch.link("OFFERS", sketch.supplier("Dearquay"), gearbox, {
      priceMinor: 90_000,
      currency: "EUR",
    });
    sketch.item("Port", boat, winch);
    await sketch.into(store);
    const before = await planKit(store, twenty, today);
    const kit = await planKit(store, { ...twenty, whatIf: { loseSuppliers: ["Dearquay"] } }, today);
    const box = (of: typeof kit) => of.lines.find(({ partNumber }) => partNumber === "GEARBOX");
    expect(box(before)?.buy).toBeGreaterThan(0);
    expect(box(kit)?.buy).toBe(box(before)?.buy);
    expect(figure(kit, "kit to buy")).toBe(0);
    expect(kit.total.priceAssumedPieces).toBe(box(kit)?.buy);
    expect(kit.notices.map(({ text }) => text).join(" ")).toContain("before the change");
  });

  test("a rate doubled doubles the demand of its part and no other", async () => {
    await smallBoat();
    const before = await planKit(store, twenty, today);
    const after = await planKit(
      store,
      { ...twenty, whatIf: { rates: [{ part: "GEAR-1", times: 2 }] } },
      today,
    );
    const mean = (kit: typeof before, part: string) =>
      kit.lines.find(({ partNumber }) => partNumber === part)?.meanDemand ?? Number.NaN;
    expect(mean(after, "GEAR-1")).toBeCloseTo(2 * mean(before, "GEAR-1"), 5);
    expect(mean(after, "PAWL-1")).toBe(mean(before, "PAWL-1"));
  });

  test("items added and removed count, and a model typed in brings its parts through the importer", async () => {
    await smallBoat();
    const whatIf: WhatIf = {
      models: [
        {
          maker: "Skarrowend",
          designation: "SK-1",
          category: "winch",
          partsCsv: "Part no;Qty;Failure rate;Per\nSK-001;2;0,5;year\nSK-002;zwei;1;year\n",
          offersCsv: "Supplier,Maker,Part no,Price,Currency\nDearquay,Skarrowend,SK-001,4.50,EUR\n",
        },
      ],
      remove: [{ item: "Starboard" }],
      add: [{ position: "Mast", model: "SK-1", serves: ["Trim sails"], count: 2 }],
    };
    const kit = await planKit(store, { ...twenty, whatIf }, today);
    const line = kit.lines.find(({ partNumber }) => partNumber === "SK-001");
    expect(line?.maker).toBe("Skarrowend");
    // Two items of two pieces at .5 a year for 20 days.
    expect(line?.meanDemand).toBeCloseTo((4 * 0.5 * 20) / 365.25, 6);
    expect(line?.unitPrice).toEqual({ minor: 450, currency: "EUR" });
    const pawl = kit.lines.find(({ partNumber }) => partNumber === "PAWL-1");
    expect(pawl?.meanDemand).toBeCloseTo((2 * 20) / 365.25, 6);
    expect(kit.functions[0]?.fitted).toBe(3);
    expect(kit.comparison?.notices.join(" ")).toMatch(
      /1 of 2 rows of the parts list of Skarrowend SK-1 could not be read. Line 3: .*zwei/,
    );
    expect((await store.list("Model", 0, 10)).length).toBe(2);
  });

  test("a crossing is played with each side's own kit", async () => {
    await smallBoat();
    const answer = simulationAnswer.parse(
      await simulateCrossing(
        store,
        { ...twenty, crossings: 2000, whatIf: { rates: [{ part: "GEAR-1", times: 3 }] } },
        today,
        { threads: 1 },
      ),
    );
    // Means: pawls 2 × 2, gears 2 × 1 a year; three times as many gears add 4 a year.
    expect(figure(answer, "pieces asked for in a crossing")).toBeGreaterThan(0.1);
    expect(answer.comparison?.sentence).toContain("more demand");
  });

  test.each<readonly [string, WhatIf, string, RegExp]>([
    ["an item that is not there", { remove: [{ item: "Mizzen" }] }, "not-found", /Port/],
    ["a model that is not there", { replace: [{ item: "Port", model: "X" }] }, "not-found", /W40/],
    [
      "the same position added twice",
      {
        add: [
          { position: "Mast", model: "W40" },
          { position: "mast", model: "W40" },
        ],
      },
      "key-taken",
      /"mast" on Ysolvane has gear already/,
    ],
    ["a part on no list", { rates: [{ part: "NONE", times: 2 }] }, "not-found", /PAWL-1/],
    [
      "a list that is no parts list",
      { models: [{ maker: "M", designation: "D", partsCsv: "Colour,Mood\nred,good\n" }] },
      "columns-unmatched",
      /parts list of M D/,
    ],
    [
      "the same model typed in twice",
      {
        models: [
          { maker: "Skarrowend", designation: "SK-1" },
          { maker: "skarrowend", designation: "sk-1 " },
        ],
      },
      "key-taken",
      /must be new/,
    ],
  ])("refuses %s", async (_, whatIf, code, words) => {
    await smallBoat();
    await expect(planKit(store, { ...twenty, whatIf }, today)).rejects.toMatchObject({
      code,
      message: expect.stringMatching(words),
    });
  });
});
