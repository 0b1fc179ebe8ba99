import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { orderAnswer } from "../../api/contract/order.contract.ts";
import { receiveAnswer, savedOrders } from "../../api/contract/orders.contract.ts";
import { readTerms } from "../../api/plans/order/read-terms.ts";
import { orderKit } from "../../api/plans/order-kit.ts";
import { planKit } from "../../api/plans/plan-kit.ts";
import { receiveOrder } from "../../api/plans/receive-order.ts";
import { saveOrders } from "../../api/plans/save-orders.ts";
import type { GraphStore } from "../../api/store/graph-store.ts";
import { openStore } from "../../api/store/open-store.ts";
import { GraphSketch } from "../tools/graph-sketch.ts";

let store: GraphStore;
beforeEach(async () => {
  store = await openStore({ db: ":memory:", env: {} });
});
afterEach(() => store.close());

const today = "2026-11-25";
const passage = { departs: "2027-01-10", daysExpected: 16, daysLongest: 20 } as const;
const writer = { who: "test", at: "2026-11-25T08:00:00.000Z" };

interface Offer {
  readonly price?: number;
  readonly currency?: string;
  readonly pack?: number;
  readonly least?: number;
  readonly lead?: number;
}

/** A winch whose parts fail so often that one of each is to be bought; each part sold as told, by supplier. */
async function fleet(parts: Record<string, Record<string, Offer>>): Promise<void> {
  const sketch = new GraphSketch();
  const boat = sketch.vessel("Ysolvane");
  const winch = sketch.model("W 40", "winch");
  const shops = new Map<string, ReturnType<GraphSketch["supplier"]>>();
  for (const [name, offers] of Object.entries(parts)) {
    const part = sketch.part(name, {
      description: `${name} of steel`,
      ...(name === "seal" ? { shelfLifeMonths: 60 } : {}),
    });
    sketch.link("USES", winch, part, {
      quantity: 1,
      failureEffect: "stop",
      fittableAtSea: true,
      rate: 2,
      rateBasis: "year",
      rateSource: "maker",
    });
    for (const [shop, { price, currency = "EUR", pack, least, lead }] of Object.entries(offers)) {
      if (!shops.has(shop)) shops.set(shop, sketch.supplier(shop));
      sketch.link("OFFERS", shops.get(shop) ?? boat, part, {
        supplierCode: `${shop}-${name}`,
        ...(price === undefined ? {} : { priceMinor: price, currency }),
        ...(pack === undefined ? {} : { packSize: pack }),
        ...(least === undefined ? {} : { minimumOrder: least }),
        ...(lead === undefined ? {} : { leadTimeDays: lead }),
      });
    }
  }
  sketch.duty("Sheet", boat, "passage", 1, [sketch.item("Port winch", boat, winch)]);
  await sketch.into(store);
}

/** One piece of each part, whatever they cost: Pr(none fails) is .896, one spare gives .994. */
const onePiece = { targets: { passage: 0.95 } } as const;

describe("the order", () => {
  test("weighs delivery against price: by hand, one parcel of 23.00 beats two of 20.00 and 6.00 more", async () => {
    await fleet({
      pawl: { Nordquay: { price: 800, lead: 5 }, Eastwick: { price: 1000, lead: 9 } },
      spring: { Nordquay: { price: 1000, lead: 3 }, Eastwick: { price: 700, lead: 4 } },
    });
    const kit = await planKit(store, { ...passage, ...onePiece }, today);
    expect(kit.lines.map(({ buy }) => buy)).toEqual([1, 1]);
    const terms = [
      { supplier: "Nordquay", deliveryMinor: 500 },
      { supplier: "Eastwick", deliveryMinor: 600 },
    ];
    const answer = await orderKit(store, { ...passage, ...onePiece, terms }, today);
    orderAnswer.parse(answer);
    // Nordquay alone 8 + 10 + 5 = 23.00; Eastwick alone 10 + 7 + 6 = 23.00; both 8 + 7 + 5 + 6 = 26.00.
    expect(answer).toMatchObject({
      status: "optimal",
      total: { minor: 2300, currency: "EUR" },
      lowerBound: { minor: 2300 },
      eachAlone: { minor: 2600 },
      unmet: [],
    });
    expect(answer.sheets).toHaveLength(1);
    const free = [
      { supplier: "Eastwick", deliveryMinor: 600, freeFromMinor: 1700 },
      ...terms.slice(0, 1),
    ];
    const better = await orderKit(store, { ...passage, ...onePiece, terms: free }, today);
    expect(better.total.minor).toBe(1700);
    expect(better.sheets[0]).toMatchObject({
      supplier: { name: "Eastwick" },
      delivery: { minor: 0 },
      arrives: "2026-12-04",
      contact: "",
    });
    expect(better.sheets[0]?.words).toContain("no contact line");
    expect(better.sheets[0]?.lines[0]?.parcel).toContain("ship's spares");
  });

  test("counts packs, least orders, duty and a dated rate, and says what is left over", async () => {
    await fleet({
      pawl: { Nordquay: { price: 1000, currency: "USD", pack: 2, least: 4, lead: 5 } },
      spring: { Nordquay: { price: 300, currency: "USD", lead: 5 } },
    });
    const answer = await orderKit(
      store,
      {
        ...passage,
        ...onePiece,
        currency: "EUR",
        rates: { USD: 0.9 },
        ratesAsOf: "2026-11-24",
        terms: [{ supplier: "nordquay", dutyPercent: 10, minimumMinor: 2500, currency: "USD" }],
      },
      today,
    );
    // Two packs of two pawls 2 x 9.00, a spring 2.70: 20.70. The least order is 22.50, so another spring: 23.40; duty .90 x 2 + .27 x 2.
    expect(answer.sheets[0]).toMatchObject({
      goods: { minor: 2340 },
      duty: { minor: 234 },
      total: { minor: 2574, currency: "EUR" },
    });
    const pawl = answer.sheets[0]?.lines.find(({ partNumber }) => partNumber === "pawl");
    expect(pawl).toMatchObject({
      packs: 2,
      packSize: 2,
      pieces: 4,
      // The kit is bought as it is sold, so all four are its own.
      spare: 0,
      supplierCode: "Nordquay-pawl",
      packPrice: { minor: 1000, currency: "USD" },
    });
    const spring = answer.sheets[0]?.lines.find(({ partNumber }) => partNumber === "spring");
    expect(spring).toMatchObject({ packs: 2, spare: 1 });
    expect(answer.ratesAsOf).toBe("2026-11-24");
    expect(answer.notices.map(({ code }) => code)).not.toContain("rates-undated");
  });

  test("says of each part that cannot be had why, and orders the rest", async () => {
    await fleet({
      pawl: { Nordquay: { price: 800, lead: 5 } },
      late: { Nordquay: { price: 100, lead: 60 }, Eastwick: { price: 100, lead: 50 } },
      unknown: { Nordquay: { price: 100 } },
      dollar: { Nordquay: { price: 100, currency: "USD", lead: 2 } },
      asked: { Nordquay: { lead: 2 } },
      lone: {},
      shut: { Hollin: { price: 100, lead: 1 } },
    });
    const asked = { ...passage, ...onePiece, neededBy: "2027-01-05", without: ["hollin"] };
    const answer = await orderKit(store, { ...asked, currency: "EUR" }, today);
    const why = Object.fromEntries(answer.unmet.map((need) => [need.part.name, need.why]));
    expect(why).toEqual({
      late: "too late",
      unknown: "lead time unknown",
      dollar: "no rate",
      asked: "no price",
      lone: "nobody offers",
      shut: "left out",
    });
    // 41 days from 25 November to 5 January: the quicker one takes 50, hence 9 days late.
    expect(answer.unmet.find(({ part }) => part.name === "late")).toMatchObject({
      daysLate: 9,
      words: "The quickest is Eastwick, 9 days too late.",
    });
    expect(answer.sheets[0]?.lines.map(({ partNumber }) => partNumber)).toEqual(["pawl"]);
    const bold = await orderKit(store, { ...asked, unknownLead: true, rates: { USD: 0.9 } }, today);
    const lines = bold.sheets.flatMap((sheet) => sheet.lines.map((line) => line.partNumber));
    expect(lines.toSorted()).toEqual(["dollar", "pawl", "unknown"]);
    expect(bold.sheets.find(({ arrives }) => arrives === undefined)?.words).toContain("ask");
  });

  test("is set beside the order of an imagined graph, which is not written", async () => {
    await fleet({
      pawl: { Nordquay: { price: 800, lead: 5 }, Eastwick: { price: 1000, lead: 9 } },
      spring: { Nordquay: { price: 1000, lead: 3 } },
    });
    const answer = await orderKit(
      store,
      { ...passage, ...onePiece, whatIf: { loseSuppliers: ["Nordquay"] } },
      today,
    );
    orderAnswer.parse(answer);
    const figure = (name: string) => answer.comparison?.figures.find((one) => one.figure === name);
    expect(figure("order in all")).toMatchObject({ before: 1800, after: 1000, difference: -800 });
    expect(figure("parts that cannot be had")).toMatchObject({ before: 0, after: 1 });
    expect(answer.unmet.map(({ part, why }) => [part.name, why])).toEqual([
      ["spring", "nobody offers"],
    ]);
    expect((await orderKit(store, { ...passage, ...onePiece }, today)).total.minor).toBe(1800);
  });

  test("refuses what makes no sense, by rule, value and remedy", async () => {
    await fleet({ pawl: { Nordquay: { price: 800, lead: 5 } } });
    await expect(
      orderKit(store, { ...passage, neededBy: "2026-11-01" }, today),
    ).rejects.toMatchObject({ code: "input-invalid" });
    await expect(
      orderKit(store, { ...passage, terms: [{ supplier: "Atlantis" }] }, today),
    ).rejects.toMatchObject({ code: "not-found" });
    const usd = [{ supplier: "Nordquay", deliveryMinor: 100, currency: "USD" }];
    await expect(orderKit(store, { ...passage, terms: usd }, today)).rejects.toMatchObject({
      code: "currency-mixed",
    });
    const short = [{ supplier: "Nordquay", minimumMinor: 0, deliveryMinor: 0 }];
    await expect(orderKit(store, { ...passage, terms: short }, today)).resolves.toMatchObject({
      status: "optimal",
    });
  });
});

describe("terms of suppliers", () => {
  test("are read from a list as people keep it", () => {
    const text =
      "What they ask\nSupplier;Delivery;Free from;Least order;Duty %;Currency\nNordquay;12,50 €;150 €;;;\nEastwick;20;;30;6,5 %;USD\n";
    expect(readTerms(text)).toEqual([
      { supplier: "Nordquay", deliveryMinor: 1250, freeFromMinor: 15_000, currency: "EUR" },
      {
        supplier: "Eastwick",
        deliveryMinor: 2000,
        minimumMinor: 3000,
        dutyPercent: 6.5,
        currency: "USD",
      },
    ]);
  });

  test("are refused with every fault of every row", () => {
    const text = "Supplier,Delivery,Duty %\n,12 EUR,\nNordquay,twelve,-4\nEastwick,5,\n";
    expect(() => readTerms(text)).toThrow(
      expect.objectContaining({
        code: "input-invalid",
        places: [
          expect.objectContaining({ pointer: "/line/2/supplier" }),
          expect.objectContaining({ pointer: "/line/3/dutyPercent" }),
          expect.objectContaining({ pointer: "/line/3/deliveryMinor" }),
          expect.objectContaining({ pointer: "/line/4/deliveryMinor" }),
        ],
      }),
    );
    expect(() => readTerms("Delivery\n12 EUR\n")).toThrow(/Supplier/);
  });
});

describe("a kept order", () => {
  test("becomes stock when it comes, counts aboard from then on, and can be undone", async () => {
    await fleet({
      pawl: { Nordquay: { price: 800, lead: 5 } },
      seal: { Nordquay: { price: 300, lead: 5 } },
    });
    const asked = { ...passage, ...onePiece };
    const kept = await saveOrders(store, asked, today, writer);
    savedOrders.parse(kept);
    expect(kept.saved).toHaveLength(1);
    const reference = kept.saved[0]?.order.name ?? "";
    expect(reference).toBe("2026-11-25 Ysolvane Nordquay");
    const again = await orderKit(store, asked, today);
    expect(again.notices.find(({ code }) => code === "on-order")?.text).toContain(reference);

    const come = await receiveOrder(store, reference, {}, today, writer);
    receiveAnswer.parse(come);
    expect(
      come.lots.map(({ part, pieces, place, added }) => [part.name, pieces, place, added]),
    ).toEqual([
      ["pawl", 1, "Ysolvane", false],
      ["seal", 1, "Ysolvane", false],
    ]);
    // The seal perishes and came without a date: it does not count.
    expect(come.notices.map(({ code }) => code)).toEqual(["date-missing"]);
    const kit = await planKit(store, asked, today);
    expect(kit.lines.map(({ partNumber, aboard, buy }) => [partNumber, aboard, buy])).toEqual(
      expect.arrayContaining([
        ["pawl", 1, 0],
        ["seal", 0, 1],
      ]),
    );
    await expect(receiveOrder(store, reference, {}, today, writer)).rejects.toMatchObject({
      code: "input-invalid",
      message: expect.stringContaining("arrived"),
    });
    await store.undo(come.sequence ?? -1, writer);
    expect((await planKit(store, asked, today)).total.buyPieces).toBe(2);
    const dated = await receiveOrder(
      store,
      reference,
      { dates: [{ part: "seal", expires: "2031-01-31" }], on: "2026-12-01" },
      today,
      writer,
    );
    expect(dated.notices).toEqual([]);
    expect((await planKit(store, asked, today)).total.buyPieces).toBe(0);
  });

  test("takes a second reference, adds to a like lot, and refuses dates of what was not ordered", async () => {
    await fleet({ pawl: { Nordquay: { price: 800, lead: 5 } }, lone: {} });
    const asked = { ...passage, ...onePiece };
    await saveOrders(store, asked, today, writer);
    const second = await saveOrders(store, asked, today, writer);
    expect(second.saved[0]?.order.name).toBe("2026-11-25 Ysolvane Nordquay 2");
    await expect(
      receiveOrder(
        store,
        second.saved[0]?.order.id ?? "",
        { dates: [{ part: "lone" }] },
        today,
        writer,
      ),
    ).rejects.toMatchObject({ code: "input-invalid", message: expect.stringContaining("not in") });
    await receiveOrder(store, "2026-11-25 Ysolvane Nordquay", {}, today, writer);
    const more = await receiveOrder(store, second.saved[0]?.order.id ?? "", {}, today, writer);
    expect(more.lots).toMatchObject([{ pieces: 1, added: true }]);
    const kit = await planKit(store, asked, today);
    expect(kit.lines.find(({ partNumber }) => partNumber === "pawl")?.aboard).toBe(2);
    await expect(receiveOrder(store, "Atlantis", {}, today, writer)).rejects.toMatchObject({
      code: "not-found",
    });
  });
});
