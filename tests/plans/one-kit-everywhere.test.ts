import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { KitAnswer } from "../../api/contract/kit.contract.ts";
import { chooseGear } from "../../api/plans/choose-gear.ts";
import { openDemo } from "../../api/plans/open-demo.ts";
import { orderKit } from "../../api/plans/order-kit.ts";
import { planKit } from "../../api/plans/plan-kit.ts";
import { prepareDeparture } from "../../api/plans/prepare-departure.ts";
import { standardiseGear } from "../../api/plans/standardise-gear.ts";
import { weighDoubt } from "../../api/plans/weigh-doubt.ts";
import type { GraphStore } from "../../api/store/graph-store.ts";
import { openStore } from "../../api/store/open-store.ts";

const today = "2026-11-25";
const rates = { GBP: 1.17, USD: 0.92 };

let store: GraphStore;
beforeAll(async () => {
  store = await openStore({ db: ":memory:", env: {} });
  await openDemo(store, join(import.meta.dirname, "../../importers/demo"), {
    who: "test",
    at: `${today}T12:00:00Z`,
  });
}, 60_000);
afterAll(async () => {
  await store.close();
});

describe.each(["Quorrelind", "Umberwhist", "Ysolvane"])(
  "the kit of %s, in packs and service kits",
  (vessel) => {
    const asked = { vessel, rates };
    let kit: KitAnswer;
    beforeAll(async () => {
      kit = await planKit(store, asked, today);
      expect(kit.purchases.some(({ pack }) => pack > 1)).toBe(true);
    }, 60_000);

    test("is what doubt and the work before departure begin from", async () => {
      const doubt = await weighDoubt(store, { ...asked, most: 2 }, today);
      expect(doubt.kit).toEqual({
        cost: kit.total.cost.minor,
        money: kit.total.cost,
        pieces: kit.total.buyPieces,
      });
      for (const { tier, withKit } of kit.tiers)
        expect(doubt.tiers.find((own) => own.tier === tier)?.withKit).toBeCloseTo(withKit, 12);
      const prepared = await prepareDeparture(store, asked, today);
      expect(prepared.kit.cost).toEqual(kit.total.cost);
      expect(prepared.kit.pieces).toBe(kit.total.buyPieces);
      expect(prepared.kit.massKg).toBeCloseTo(kit.total.massKg, 6);
    }, 120_000);

    test("is what the order buys, to the cent and the piece, where suppliers ask nothing besides their prices", async () => {
      const order = await orderKit(store, asked, today);
      const sold = kit.purchases.filter(({ supplier }) => supplier !== undefined);
      expect(order.total.minor).toBe(
        sold.reduce((sum, { unitPrice, units }) => sum + (unitPrice?.minor ?? 0) * units, 0),
      );
      const pieces = (list: readonly (readonly [part: string, pieces: number])[]) => {
        const sum = new Map<string, number>();
        for (const [part, count] of list) sum.set(part, (sum.get(part) ?? 0) + count);
        return [...sum].sort();
      };
      expect(
        pieces(
          order.sheets.flatMap(({ lines }) => lines.map((l) => [l.part.id, l.pieces] as const)),
        ),
      ).toEqual(pieces(sold.map(({ part, units, pack }) => [part.id, units * pack] as const)));
    }, 60_000);

    test("is what a choice of gear and standardising set their figures against", async () => {
      const snapshot = await store.snapshot();
      const row = snapshot.vessels.name.indexOf(vessel);
      const item = snapshot.items.model.findIndex(
        (model, at) =>
          snapshot.items.vessel[at] === row && (snapshot.models.category[model] ?? "") !== "",
      );
      const position = snapshot.items.position[item] ?? "";
      const choice = await chooseGear(
        store,
        { ...asked, replace: [position], turning: false },
        today,
      );
      expect(choice.before.kit).toEqual(kit.total.cost);
      const standard = await standardiseGear(store, { ...asked, budgetMinor: 0 }, today);
      expect(standard.before.kit).toEqual(kit.total.cost);
    }, 120_000);
  },
);
