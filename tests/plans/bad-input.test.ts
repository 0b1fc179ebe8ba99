import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { kitRequest } from "../../api/contract/kit.contract.ts";
import { voyageRequest } from "../../api/contract/voyage.contract.ts";
import { planKit } from "../../api/plans/plan-kit.ts";
import { readRequest } from "../../api/plans/read-request.ts";
import type { GraphStore } from "../../api/store/graph-store.ts";
import { openStore } from "../../api/store/open-store.ts";
import { GraphSketch } from "../tools/graph-sketch.ts";

let store: GraphStore;
beforeEach(async () => {
  store = await openStore({ db: ":memory:", env: {} });
});
afterEach(async () => {
  await store.close();
});

const today = "2026-11-25";

describe("a fault in what is asked is told in plain words", () => {
  test.each([
    [kitRequest, { daysExpected: 0 }, "it must be more than 0; received 0"],
    [kitRequest, { daysLongest: 4000 }, "it must be at most 3650; received 4000"],
    [kitRequest, { targets: { passage: 0 } }, "it must be more than 0; received 0"],
    [kitRequest, { targets: { passage: 1 } }, "it must be less than 1; received 1"],
    [kitRequest, { targets: { safety: 1.5 } }, "it must be less than 1; received 1.5"],
    [kitRequest, { departs: "2027-02-30" }, "it must be a real day, written YYYY-MM-DD"],
    [kitRequest, { objective: "cheap" }, 'it must be "cost" or "mass" or "volume" or "pieces"'],
    [kitRequest, { robbing: "no" }, 'it must be true or false; received "no"'],
    [kitRequest, { dayz: 3 }, '"dayz" can\'t be asked here'],
    [voyageRequest, { legs: [] }, "it must hold at least 1; received []"],
    [voyageRequest, { legs: [{ to: "", days: 3 }] }, "it must have at least 1 letter; received"],
    [voyageRequest, { legs: [{ to: "Praia" }] }, "it must be a number; received nothing"],
    [voyageRequest, { reliability: 1.2 }, "it must be at most 1; received 1.2"],
  ] as const)("%#", (schema, asked, told) => {
    expect(() => readRequest(schema, asked, "What was asked")).toThrow(told);
  });
});

/** A winch that jams often, and what else the test says. */
async function winchBoat(
  more: (
    sketch: GraphSketch,
    boat: ReturnType<GraphSketch["vessel"]>,
    item: ReturnType<GraphSketch["item"]>,
  ) => void,
) {
  const sketch = new GraphSketch();
  const boat = sketch.vessel("Ysolvane");
  const winch = sketch.model("W-40");
  const item = sketch.item("Primary", boat, winch, { hoursPerDay: 24 });
  const pawl = sketch.part("PAWL-1", { description: "Pawl" });
  sketch.link("USES", winch, pawl, {
    quantity: 1,
    rate: 2,
    rateBasis: "1000 hours",
    rateSource: "maker",
  });
  more(sketch, boat, item);
  await sketch.into(store);
}

describe("what can't be reached is an answer with reasons", () => {
  test("a target beyond any stock names the best that can be reached and the part in the way", async () => {
    // What lies beyond a demand's array, some 1e-16 of it, no stock covers.
    await winchBoat((sketch, boat) => {
      const gear = sketch.model("G-1");
      sketch.item("Gear", boat, gear, { hoursPerDay: 24 });
      for (let at = 0; at < 12; at++) {
        const part = sketch.part(`DEEP-${at}`);
        sketch.link("USES", gear, part, { quantity: 1, usedCount: 9, usedOverYears: 0.3 });
      }
    });
    const kit = await planKit(
      store,
      { daysLongest: 20, targets: { passage: 0.9999999999999999 } },
      today,
    );
    expect(kit.status).toBe("infeasible");
    expect(kit.tiers.find(({ tier }) => tier === "passage")?.reachable).toBeGreaterThan(0.999999);
    expect(kit.sentence).toMatch(/in the way: .*DEEP-\d+.* and \d+ more\./);
    expect(kit.sentence).toContain(
      "the passage tier still runs short in below 1 in a million crossings",
    );
  });

  test("functions that too little gear serves are named beside the kit", async () => {
    await winchBoat((sketch, boat, item) => {
      sketch.duty("Hoist", boat, "passage", 3, [item]);
      sketch.duty("Steer", boat, "safety", 1, []);
    });
    const kit = await planKit(store, { daysLongest: 20 }, today);
    expect(kit.status).toBe("optimal");
    expect(kit.sentence).toContain('But "Hoist", "Steer" can\'t be met with what is fitted');
    expect(kit.functions.map(({ withKit, withKitAtMost }) => [withKit, withKitAtMost])).toEqual([
      [0, 0],
      [0, 0],
    ]);
    const codes = kit.notices.map(({ code }) => code);
    expect(codes).toContain("function-short");
    expect(codes).toContain("function-unserved");
  });

  test.each([
    [{}, true],
    [{ rateConfirmed: false }, true],
    [{ rateConfirmed: true }, false],
  ])(
    "a rate above 10 per 1000 h counts as it stands and is flagged until confirmed: %j %s",
    async (said, flagged) => {
      await winchBoat((sketch, boat) => {
        const pump = sketch.model("P-1");
        const seal = sketch.part("SEAL-1");
        sketch.item("Pump", boat, pump, { hoursPerDay: 1 });
        sketch.link("USES", pump, seal, {
          quantity: 1,
          rate: 50,
          rateBasis: "1000 hours",
          rateSource: "maker",
          ...said,
        });
      });
      const kit = await planKit(store, { daysLongest: 20 }, today);
      const notice = kit.notices.find(({ code }) => code === "rate-absurd");
      expect(notice?.text.includes("SEAL-1") ?? false).toBe(flagged);
      expect(kit.lines.find(({ partNumber }) => partNumber === "SEAL-1")?.meanDemand).toBeCloseTo(
        1,
        6,
      );
    },
  );
});
