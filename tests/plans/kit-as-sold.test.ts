import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { type KitRequest, kitAnswer } from "../../api/contract/kit.contract.ts";
import { planKit } from "../../api/plans/plan-kit.ts";
import type { GraphStore } from "../../api/store/graph-store.ts";
import { openStore } from "../../api/store/open-store.ts";
import type { NodeId } from "../../graph-schema/index.ts";
import { GraphSketch } from "../tools/graph-sketch.ts";

let store: GraphStore;
beforeEach(async () => {
  store = await openStore({ db: ":memory:", env: {} });
});
afterEach(() => store.close());

const today = "2026-11-25";
const voyage = { daysExpected: 16, daysLongest: 20, departs: "2027-01-10" } as const;
const ask = async (request: KitRequest) =>
  kitAnswer.parse(await planKit(store, { ...voyage, ...request }, today));

interface Scene {
  readonly sketch: GraphSketch;
  readonly boat: NodeId;
  readonly supplier: NodeId;
  /** A part of the one model with this expected demand on the voyage (24 h a day for 20 days is 480 h). */
  readonly part: (name: string, mean: number, properties?: object) => NodeId;
  readonly offer: (part: NodeId, priceMinor: number, terms?: object) => void;
}

function scene(): Scene {
  const sketch = new GraphSketch();
  const boat = sketch.vessel("Ysolvane");
  const model = sketch.model("Gear one");
  sketch.item("Only gear", boat, model, { hoursPerDay: 24 });
  const supplier = sketch.supplier("Nordquay Stores");
  return {
    sketch,
    boat,
    supplier,
    part: (name, mean, properties = {}) => {
      const id = sketch.part(name, { ...properties });
      sketch.link("USES", model, id, {
        quantity: 1,
        rate: mean / 0.48,
        rateBasis: "1000 hours",
        rateSource: "maker",
      });
      return id;
    },
    offer: (part, priceMinor, terms = {}) =>
      sketch.link("OFFERS", supplier, part, { priceMinor, currency: "EUR", ...terms }),
  };
}

describe("packs and least orders", () => {
  // Pr(Poisson(2) <= k): .9473 at 4, .9834 at 5 (standard tables): 95 % asks for five.
  test("five pieces out of packs of four take two packs, paid whole, three left over", async () => {
    const { sketch, part, offer } = scene();
    offer(part("SEAL", 2), 1000, { packSize: 4 });
    await sketch.into(store);
    const kit = await ask({ targets: { passage: 0.95 } });
    expect(kit.purchases).toMatchObject([
      { kind: "pack", units: 2, pack: 4, cost: { minor: 2000, currency: "EUR" } },
    ]);
    expect(kit.lines[0]).toMatchObject({ buy: 8, leftover: 3, lineCost: { minor: 2000 } });
    expect(kit.total.cost.minor).toBe(2000);
    expect(kit.notices.map(({ code }) => code)).toContain("sold-in-packs");
    expect(kit.lines[0]?.words).toContain("2 packs of 4");
  });

  test("a dear single piece tops up a pack where that costs less than a second pack", async () => {
    const { sketch, part, offer } = scene();
    const seal = part("SEAL", 2);
    offer(seal, 1000, { packSize: 4 });
    const other = sketch.supplier("Sudquay Stores");
    sketch.link("OFFERS", other, seal, { priceMinor: 700, currency: "EUR" });
    await sketch.into(store);
    const kit = await ask({ targets: { passage: 0.95 } });
    expect(kit.total.cost.minor).toBe(1700);
    expect(kit.purchases.map(({ kind, units }) => [kind, units])).toEqual([
      ["pack", 1],
      ["piece", 1],
    ]);
  });

  test("a least order is kept, and another supplier's dearer single piece beats it where that costs less", async () => {
    const { sketch, part, offer } = scene();
    // Pr(Poisson(.1) <= 0, 1) = .9048, .9953: 95 % asks for one.
    const seal = part("SEAL", 0.1);
    offer(seal, 100, { minimumOrder: 10 });
    await sketch.into(store);
    const alone = await ask({ targets: { passage: 0.95 } });
    expect(alone.purchases).toMatchObject([{ units: 10, leastUnits: 10, cost: { minor: 1000 } }]);
    expect(alone.notices.map(({ code }) => code)).toContain("least-order");
    const more = new GraphSketch();
    more.link("OFFERS", more.supplier("Sudquay Stores"), seal, {
      priceMinor: 900,
      currency: "EUR",
    });
    await more.into(store);
    expect((await ask({ targets: { passage: 0.95 } })).total.cost.minor).toBe(900);
  });

  test("the rule that looks at each part alone buys whole packs too", async () => {
    const { sketch, part, offer } = scene();
    offer(part("SEAL", 2), 1000, { packSize: 4 });
    await sketch.into(store);
    const kit = await ask({ targets: { passage: 0.95 }, rule: "each part" });
    expect(kit).toMatchObject({
      status: "optimal",
      total: { cost: { minor: 2000 }, buyPieces: 8 },
    });
  });
});

describe("service kits", () => {
  test("a kit cheaper than its contents is bought and counts by what is inside", async () => {
    const { sketch, part, offer } = scene();
    const a = part("A", 0.5);
    const b = part("B", 0.5);
    offer(a, 1000);
    offer(b, 1000);
    const box = sketch.part("KIT", { description: "Service kit" });
    offer(box, 1500);
    for (const inside of [a, b]) sketch.link("CONTAINS", box, inside, { quantity: 1 });
    const odd = sketch.part("STICKER");
    sketch.link("CONTAINS", box, odd, { quantity: 2 });
    await sketch.into(store);
    // Pr(Poisson(.5) <= 2)^2 = .9856^2 = .971; one of each gives .828: two of each are asked for.
    const kit = await ask({ targets: { passage: 0.95 } });
    expect(kit.total.cost.minor).toBe(3000);
    expect(kit.purchases).toMatchObject([{ kind: "service kit", units: 2 }]);
    expect(kit.purchases[0]?.contents.find(({ part: one }) => one.id === odd)).toMatchObject({
      pieces: 4,
      asked: false,
    });
    expect(kit.lines.map(({ buy, fromKits }) => [buy, fromKits])).toEqual([
      [2, 2],
      [2, 2],
    ]);
  });

  test("a kit is opened for one part where that is the cheapest way, boxes within boxes too", async () => {
    const { sketch, part, offer } = scene();
    const spring = part("SPRING", 0.5);
    offer(spring, 1000);
    const outer = sketch.part("OUTER");
    const inner = sketch.part("INNER");
    sketch.link("CONTAINS", outer, inner, { quantity: 2 });
    sketch.link("CONTAINS", inner, spring, { quantity: 3 });
    offer(outer, 900);
    await sketch.into(store);
    const kit = await ask({ targets: { passage: 0.95 } });
    expect(kit.purchases).toMatchObject([{ kind: "service kit", units: 1, cost: { minor: 900 } }]);
    expect(kit.lines[0]).toMatchObject({ buy: 6, fromKits: 6 });
  });

  test("a kit aboard counts by its contents; one that a service takes whole is opened only when it is left over", async () => {
    const { sketch, boat, part, offer } = scene();
    const spring = part("SPRING", 0.1);
    offer(spring, 1000);
    const box = sketch.part("KIT");
    sketch.link("CONTAINS", box, spring, { quantity: 1 });
    sketch.stock(box, boat, 1);
    await sketch.into(store);
    const kit = await ask({ targets: { passage: 0.95 } });
    expect(kit.lines[0]).toMatchObject({ aboard: 1, buy: 0 });
    expect(kit.total.buyPieces).toBe(0);
  });

  test("a kit aboard that gear asks for whole may be opened, and then no longer counts whole", async () => {
    const { sketch, boat, part, offer } = scene();
    const spring = part("SPRING", 0.1);
    offer(spring, 100_000);
    const box = part("KIT", 0.001);
    offer(box, 50);
    sketch.link("CONTAINS", box, spring, { quantity: 2 });
    sketch.stock(box, boat, 1);
    await sketch.into(store);
    const kit = await ask({ targets: { passage: 0.95 } });
    // Opening what is aboard is free; the box itself is so seldom needed that none need replace it.
    expect(kit.total.cost.minor).toBe(0);
    expect(kit.purchases).toMatchObject([{ kind: "service kit aboard", units: 1 }]);
    expect(kit.lines.map(({ part: one, aboard }) => [one.name, aboard])).toEqual(
      expect.arrayContaining([
        ["SPRING", 2],
        ["KIT", 0],
      ]),
    );
  });

  test.each([
    ["itself", ["KIT"]],
    ["itself through two others", ["KIT", "BOX", "BAG"]],
  ])("a kit that contains %s is refused by name", async (_, chain) => {
    const { sketch, part, offer } = scene();
    const spring = part("SPRING", 0.5);
    offer(spring, 1000);
    const kits = chain.map((name) => sketch.part(name));
    kits.forEach((kit, k) => {
      const next = kits[(k + 1) % kits.length];
      if (next !== undefined) sketch.link("CONTAINS", kit, next, { quantity: 1 });
      sketch.link("CONTAINS", kit, spring, { quantity: 1 });
    });
    await sketch.into(store);
    await expect(ask({})).rejects.toMatchObject({ code: "contents-circular" });
    await expect(ask({})).rejects.toThrow(/KIT.*in which is/);
  });
});

describe("caps", () => {
  // CHECK-VALUES, least-cost allocation: Poisson demands .5, 1, .25, 2 at 100, 40, 250, 15 (derived): .90 costs 645.
  async function fourParts(
    properties: (name: string) => object = (name) => ({ massKg: name === "D" ? 3 : 1 }),
  ): Promise<void> {
    const { sketch, part, offer } = scene();
    const rows = [
      ["A", 0.5, 100],
      ["B", 1, 40],
      ["C", 0.25, 250],
      ["D", 2, 15],
    ] as const;
    for (const [name, mean, price] of rows)
      offer(part(`000-${name}`, mean, properties(name)), price);
    await sketch.into(store);
  }
  const money = (minor: number) => ({ minor, currency: "EUR" });

  test("a cap just enough for the target reaches it; a cent less does not and says what it is short of", async () => {
    await fourParts();
    const enough = await ask({ targets: { passage: 0.9 }, caps: { cost: money(645) } });
    expect(enough.sale).toMatchObject({ aim: "most", caps: [{ what: "money", allowed: 6.45 }] });
    expect(enough.tiers[1]?.withKit).toBeGreaterThanOrEqual(0.9);
    const less = await ask({ targets: { passage: 0.9 }, caps: { cost: money(644) } });
    expect(less.status).toBe("optimal");
    expect(less.tiers[1]?.withKit).toBeLessThan(0.9);
    expect(less.sentence).toContain("short of the target for passage");
    expect(less.total.cost.minor).toBeLessThanOrEqual(644);
  });

  test("the least is asked for by name and stops at the targets within the caps", async () => {
    await fourParts();
    const kit = await ask({
      targets: { passage: 0.9 },
      caps: { cost: money(5000), massKg: 21 },
      objective: "cost",
    });
    // (2, 3, 1, 5) at 1, 1, 1 and 3 kg each.
    expect(kit).toMatchObject({ status: "optimal", total: { cost: { minor: 645 }, massKg: 21 } });
    const lighter = await ask({
      targets: { passage: 0.9 },
      caps: { massKg: 20 },
      objective: "cost",
    });
    expect(lighter.total.massKg).toBeLessThanOrEqual(20);
    expect(lighter.total.cost.minor).toBeGreaterThan(645);
    expect(lighter.tiers[1]?.withKit).toBeGreaterThanOrEqual(0.9);
  });

  test("money raises what is reached, never lowers it", async () => {
    await fourParts();
    let before = 0;
    for (const minor of [0, 100, 300, 600, 900, 1200]) {
      const kit = await ask({ caps: { cost: money(minor) } });
      expect(kit.total.cost.minor).toBeLessThanOrEqual(minor);
      const now = kit.tiers[1]?.withKit ?? 0;
      expect(now).toBeGreaterThanOrEqual(before);
      before = now;
    }
  });

  test("caps below what safety needs: an answer that says by how much and what stands in the way", async () => {
    await fourParts((name) => ({ isSafety: true, massKg: name === "D" ? 3 : 1 }));
    const kit = await ask({ targets: { safety: 0.9 }, caps: { cost: money(600), massKg: 50 } });
    expect(kit.status).toBe("infeasible");
    expect(kit.sale.shortfalls).toMatchObject([
      { what: "money", allowed: 6, needed: 6.45, unit: "EUR" },
    ]);
    expect(kit.sale.shortfalls[0]?.short).toBeCloseTo(0.45, 9);
    expect(kit.sale.shortfalls[0]?.inTheWay[0]?.words).toContain("000-C");
    expect(kit.sentence).toContain("0.45 EUR too little");
    expect(kit.total.cost.minor).toBeLessThanOrEqual(600);
    expect(kit.tiers[0]?.withKit).toBeGreaterThan(0.5);
    expect(kit.cautions.length).toBeGreaterThan(3);
  });

  test("caps that each would do, but not together, say so", async () => {
    await fourParts((name) => ({ isSafety: true, massKg: name === "D" ? 3 : 1 }));
    // .90 for 645 is (2, 3, 1, 5) alone, which weighs 21 kg; dearer kits weigh less.
    const kit = await ask({ targets: { safety: 0.9 }, caps: { cost: money(645), massKg: 20 } });
    expect(kit.status).toBe("infeasible");
    expect(kit.sale.shortfalls).toEqual([]);
    expect(kit.sentence).toContain("together they do not");
  });

  test("a cap of nothing buys nothing", async () => {
    await fourParts();
    const kit = await ask({ caps: { cost: money(0) } });
    expect(kit).toMatchObject({ status: "optimal", purchases: [], total: { buyPieces: 0 } });
  });

  test("pieces of unknown mass are told, and weigh something", async () => {
    await fourParts(() => ({}));
    const kit = await ask({ caps: { massKg: 1 }, objective: "cost" });
    expect(kit.sale.caps[0]?.unknownPieces).toBe(kit.total.buyPieces);
    expect(kit.sale.caps[0]?.used).toBeGreaterThan(0);
    expect(kit.notices.map(({ code }) => code)).toContain("size-unknown");
  });

  test("all that is bought is stowed in the lockers asked for, none over its room", async () => {
    const { sketch, boat, part, offer } = scene();
    for (const [name, litres] of [
      ["BIG", 3],
      ["MID", 2],
      ["SMALL", 1],
    ] as const)
      offer(part(name, 1, { volumeLitres: litres }), 100);
    const locker = (name: string, within: NodeId, litres?: number): NodeId => {
      const id = sketch.node("Locker", name, {
        name,
        ...(litres === undefined ? {} : { capacityLitres: litres }),
      });
      sketch.link("IS_WITHIN", id, within);
      return id;
    };
    const saloon = locker("Saloon", boat);
    locker("Port box", saloon, 7);
    locker("Starboard box", saloon, 5);
    await sketch.into(store);
    const kit = await ask({
      caps: { lockers: [{ locker: "port BOX" }, { locker: "Saloon > Starboard box" }] },
    });
    const boxes = kit.sale.caps.filter(({ what }) => what === "locker");
    expect(boxes.map(({ locker: name, allowed }) => [name, allowed])).toEqual([
      ["Saloon › Port box", 7],
      ["Saloon › Starboard box", 5],
    ]);
    for (const { used, allowed } of boxes) expect(used).toBeLessThanOrEqual(allowed);
    for (const { units, lockers } of kit.purchases)
      expect(lockers.reduce((sum, place) => sum + place.units, 0)).toBe(units);
    // Twelve litres in all hold two of each: Pr(Poisson(1) <= 2)^3; the room allows no better.
    expect(kit.tiers[1]?.withKit).toBeCloseTo(0.9197 ** 3, 3);
  });

  test.each([
    [{ lockers: [{ locker: "Attic" }] }, "not-found", /Attic/],
    [{ lockers: [{ locker: "Saloon" }] }, "input-invalid", /capacity is not stated/],
    [
      {
        lockers: [
          { locker: "Saloon", massKg: 3 },
          { locker: "saloon", massKg: 4 },
        ],
      },
      "input-invalid",
      /named once/,
    ],
    [
      {
        lockers: [
          { locker: "Saloon", massKg: 3 },
          { locker: "Port box", massKg: 4 },
        ],
      },
      "input-invalid",
      /inside it/,
    ],
    [{ cost: { minor: 100, currency: "USD" } }, "currency-mixed", /USD/],
  ])("refuses %j", async (caps, code, words) => {
    const { sketch, boat, part, offer } = scene();
    offer(part("A", 1), 100);
    const saloon = sketch.node("Locker", "Saloon", { name: "Saloon" });
    sketch.link("IS_WITHIN", saloon, boat);
    const box = sketch.node("Locker", "Port box", { name: "Port box" });
    sketch.link("IS_WITHIN", box, saloon);
    await sketch.into(store);
    await expect(ask({ caps })).rejects.toMatchObject({ code });
    await expect(ask({ caps })).rejects.toThrow(words);
  });

  test("refuses caps beside the rule for each part, and the most without a cap", async () => {
    await fourParts();
    await expect(ask({ rule: "each part", caps: { massKg: 1 } })).rejects.toThrow("each part");
    await expect(ask({ aim: "most" })).rejects.toThrow("within a cap");
  });

  test("is cancelled by its signal", async () => {
    await fourParts();
    const signal = AbortSignal.abort(new Error("no longer wanted"));
    const caps = { cost: money(300) };
    await expect(planKit(store, { ...voyage, caps }, today, { signal })).rejects.toThrow(
      "no longer wanted",
    );
  });
});
