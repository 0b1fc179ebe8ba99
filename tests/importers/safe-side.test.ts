import { describe, expect, it } from "vitest";
import { cellReader } from "../../importers/columns/cell-reader.ts";
import { targets } from "../../importers/index.ts";
import { knownGraphOf } from "./known-graph-of.ts";
import { account, mapped, names, noticeCodes, takeText } from "./take-text.ts";

function readAs(id: string, cell: string): unknown {
  const target = targets.get(id);
  if (target === undefined) throw new Error(`no such field: ${id}`);
  const read = cellReader(target, { number: "unknown", dateOrder: "unknown" })(cell);
  return read.kind === "value" ? [read.value, read.note?.code] : read.kind;
}

// Common practice, no source: of a range the end that leaves nobody short is the safe one.
describe("figures that are no plain figure", () => {
  it.each([
    ["3-4 weeks", 28],
    ["2–3 Wochen", 21],
    ["von 2 bis 3 Wochen", 21],
    ["2 à 3 semaines", 21],
    ["entre 2 y 3 semanas", 21],
    ["10 days to 2 weeks", 14],
    ["3-4", 4],
    ["4-3", 4],
  ])("a lead time of %s is its longest", (cell, days) => {
    expect(readAs("OFFERS.leadTimeDays", cell)).toEqual([days, "range-most-taken"]);
  });

  it("a life, an interval and a count are their shortest and least", () => {
    expect(readAs("USES.meanLifeHours", "1500 - 2000 h")).toEqual([1500, "range-least-taken"]);
    expect(readAs("Part.shelfLifeMonths", "2-3 years")).toEqual([24, "range-least-taken"]);
    expect(readAs("StockLot.quantity", "3-4")).toEqual([3, "range-least-taken"]);
    expect(readAs("StockLot.quantity", "10+")).toEqual([10, "range-least-taken"]);
  });

  it("an interval in words is read by its shorter end, hours and months alike", async () => {
    const proposal = await takeText(
      "Maker,Model,Service,Interval\nA,M,oil,200-250 h / 12 months\nA,M,belt,2 to 3 years\n",
    );
    const tasks = [...knownGraphOf(proposal.changeSet).nodes("ServiceTask").values()];
    expect(tasks.map(({ properties }) => properties)).toEqual([
      { name: "oil", intervalHours: 200, intervalMonths: 12 },
      { name: "belt", intervalMonths: 24 },
    ]);
    expect(noticeCodes(proposal)).toContain("range-least-taken");
  });

  it("a rough figure is taken as it stands, a set as one, a half week as a whole day more; each is told", () => {
    expect(readAs("StockLot.quantity", "ca. 5")).toEqual([5, "rough-figure"]);
    expect(readAs("StockLot.quantity", "1 set")).toEqual([1, "container-counted"]);
    expect(readAs("OFFERS.leadTimeDays", "1.5 weeks")).toEqual([11, "time-rounded"]);
    expect(readAs("OFFERS.leadTimeDays", "within 48 h")).toEqual([2, undefined]);
    expect(readAs("OFFERS.packSize", "pack of 10")).toEqual([10, undefined]);
  });

  it("what cannot be told is a fault, and what says nothing is nothing", () => {
    for (const cell of ["2 m", "<5", "a couple", "2 dozen", "3-4-5", "-3"]) {
      expect(readAs("StockLot.quantity", cell), cell).toBe("fault");
    }
    for (const cell of ["n/a", "-", "?", "  "]) {
      expect(readAs("StockLot.quantity", cell), cell).toBe("empty");
    }
  });

  it("names units in the plural where there are many", () => {
    const target = targets.get("StockLot.quantity");
    const read = target && cellReader(target, { number: "point", dateOrder: "unknown" })("-1");
    expect(read).toMatchObject({ rule: "This must lie between 0 and 10\u202f000\u202f000 pieces" });
  });
});

describe("what a file leaves out", () => {
  it("a price without a supplier is kept, named and put right by saying whose list it is", async () => {
    const list = "Maker,Part number,Description,Price (EUR),Lead time\nA,1,seal,2.50,3 days\n";
    const bare = await takeText(list);
    expect(mapped(bare)["Price (EUR)"]).toBeUndefined();
    const notice = bare.notices.find(({ code }) => code === "column-orphaned");
    expect(notice?.text).toMatch(/“Price \(EUR\)”, “Lead time”: .*supplier.*--supplier/);
    const whose = await takeText(list, { supplier: "Quay" });
    expect(whose.matching.kind).toBe("offers");
    const offers = [...knownGraphOf(whose.changeSet).links("OFFERS").values()];
    expect(offers.map(({ properties }) => properties)).toEqual([
      { priceMinor: 250, currency: "EUR", leadTimeDays: 3 },
    ]);
  });

  it("a price in a list of stock is named too", async () => {
    const list = "Vessel,Locker,Maker,Part number,On board,Unit price\nT,Bin,A,1,2,3 EUR\n";
    expect(noticeCodes(await takeText(list))).toContain("column-orphaned");
  });

  it("the maker of the whole file stands where a row names none", async () => {
    const proposal = await takeText("Model,Part number,Qty\nM,1,2\n", { maker: "Alder" });
    expect(names(knownGraphOf(proposal.changeSet), "Maker", "name")).toEqual(["Alder"]);
    expect(noticeCodes(proposal)).not.toContain("part-maker-unknown");
  });

  it("merged cells are told of, and filled down only when asked", async () => {
    const list =
      "Vessel,Locker,Maker,Part number,On board\nT,Bin 1,A,1,2\nT,,A,2,2\nT,,A,3,2\nT,Bin 2,A,4,2\nT,,A,5,2\n";
    const bare = await takeText(list);
    expect(noticeCodes(bare)).toContain("column-merged");
    const places = (proposal: typeof bare) =>
      [...knownGraphOf(proposal.changeSet).links("STOWED_IN").values()].filter(({ to }) =>
        to.startsWith("Locker:"),
      ).length;
    expect(places(bare)).toBe(2);
    const filled = await takeText(list, { fillDown: ["Locker"] });
    expect(places(filled)).toBe(5);
    await expect(takeText(list, { fillDown: ["Shelf"] })).rejects.toMatchObject({
      code: "input-invalid",
    });
  });

  it("the units of a row below the header count, grams as grams", async () => {
    const proposal = await takeText("Maker,Model,Part number,Qty,Weight\n,,,pcs,g\nA,M,1,2,250\n");
    expect(account(proposal)).toMatchObject({ accepted: 1, rejected: 0, skipped: 1 });
    expect(names(knownGraphOf(proposal.changeSet), "Part", "massKg")).toEqual([0.25]);
    expect(noticeCodes(proposal)).toContain("units-passed");
  });
});

describe("rows that are no records, or stand twice", () => {
  it("rows that stand twice are counted once, with both lines named", async () => {
    const row = "T,Bin,A,1,2";
    const proposal = await takeText(
      `Vessel,Locker,Maker,Part number,On board\n${row}\nT,Bin,A,2,1\n${row}\n${row}\n`,
    );
    expect(account(proposal).accepted).toBe(4);
    const notice = proposal.notices.find(({ code }) => code === "row-repeated");
    expect(notice).toMatchObject({ count: 2, line: 4 });
    expect(notice?.text).toContain("line 4 as 2, 5 as 2");
  });

  it("rows that differ in a column nobody interprets do not stand twice", async () => {
    const proposal = await takeText(
      "Vessel,Locker,Maker,Part number,On board,Box\nT,Bin,A,1,2,red\nT,Bin,A,1,2,blue\n",
    );
    expect(noticeCodes(proposal)).not.toContain("row-repeated");
  });

  it("headings and sums are passed over, numbers that look like them are not", async () => {
    const proposal = await takeText(
      "Part number,Maker,Description,On board,Locker,Vessel\nWINCHES,,,,,\nTOTAL-5W40,A,oil,2,Bin,T\nTotal,,,2,,\nA-1,A,seal,1,Bin,T\n",
    );
    expect(account(proposal)).toMatchObject({ accepted: 2, rejected: 0, skipped: 2 });
    expect(names(knownGraphOf(proposal.changeSet), "Part", "partNumber")).toEqual([
      "A-1",
      "TOTAL-5W40",
    ]);
  });

  it("a table of which next to nothing is understood is refused", async () => {
    const list = "Source,Colour,Size,Mood,Weather\nharbour,red,2,good,fair\n";
    await expect(takeText(list)).rejects.toMatchObject({ code: "columns-unmatched" });
    expect((await takeText(list, { listKind: "suppliers" })).rows.accepted).toBe(1);
  });
});
