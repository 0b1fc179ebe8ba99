import { describe, expect, it } from "vitest";
import type { RecordDocument } from "../../api/contract/records.contract.ts";
import { massText, massUnit, roomText, roomUnit } from "../../ui/components/units.ts";
import { readRates, settledTerms, writeRates } from "../../ui/pages/crossing/money-terms.ts";
import { dealLabels, labelSheets } from "../../ui/pages/labels/label-sheets.ts";
import { placesOf } from "../../ui/pages/lockers/stowage.ts";

describe("sheets of labels", () => {
  it("hold their labels within the paper, none over another", () => {
    for (const sheet of labelSheets) {
      const paper = sheet.paper === "A4" ? [210, 297] : [215.9, 279.4];
      expect(sheet.pitch, sheet.id).toBeGreaterThanOrEqual(sheet.width);
      expect(
        sheet.left + (sheet.across - 1) * sheet.pitch + sheet.width,
        sheet.id,
      ).toBeLessThanOrEqual((paper[0] ?? 0) + 0.1);
      expect(sheet.top + sheet.down * sheet.height, sheet.id).toBeLessThanOrEqual(paper[1] ?? 0);
    }
  });

  it("are dealt in order, with used places left empty and none lost", () => {
    const labels = Array.from({ length: 25 }, (_, index) => index);
    const sheets = dealLabels(labels, { across: 2, down: 5 }, 3);
    expect(sheets.map((sheet) => sheet.length)).toEqual([10, 10, 8]);
    expect(sheets[0]?.slice(0, 4)).toEqual([undefined, undefined, undefined, 0]);
    expect(sheets.flat().filter((label) => label !== undefined)).toEqual(labels);
  });
});

describe("imperial units", () => {
  it("are the international pound and the cubic foot, exactly as agreed in 1959", () => {
    expect(massText(0.45359237, "imperial")).toBe("1");
    expect(massText(100, "imperial")).toBe("220.5");
    expect(roomText(28.316846592, "imperial")).toBe("1");
    expect([massText(2.5, "metric"), massUnit("imperial"), roomUnit("metric")]).toEqual([
      "2.5",
      "lb",
      "litres",
    ]);
  });
});

describe("exchange rates in an address", () => {
  it("come back as they were written", () => {
    const rates = { GBP: 1.17, USD: 0.92 };
    expect(readRates(writeRates(rates))).toEqual(rates);
  });

  it("are read as people type them, and what is no rate is left out", () => {
    expect(readRates("gbp 1.17; USD=0.92, EU:3, CHF:-1, SEK:x")).toEqual({ GBP: 1.17, USD: 0.92 });
  });

  it("complete a question that does not say them, and never overrule one that does", () => {
    const set = {
      units: "metric",
      currency: "EUR",
      rates: [{ currency: "GBP", value: 1.2, asOf: "2026-11-20" }],
      marginDays: 14,
      paper: "A4",
      labelAddress: "",
      terms: [],
      ownList: null,
    } as const;
    expect(settledTerms(new Map(), set)).toEqual({
      margin: "14",
      currency: "EUR",
      rates: "GBP:1.2",
    });
    expect(settledTerms(new Map([["margin", "3"]]), set)).not.toHaveProperty("margin");
  });
});

const record = (
  id: string,
  properties: RecordDocument["properties"],
  owners: readonly (readonly [type: string, id: string])[],
): RecordDocument => ({
  id,
  label: "X",
  name: id,
  title: id,
  version: 1,
  properties,
  extra: {},
  owners: owners.map(([type, owner]) => ({ type, id: owner, label: "X", name: owner })),
});

describe("stowage", () => {
  const lockers = [
    record("Shelf", {}, [["IS_WITHIN", "Room"]]),
    record("Room", {}, [["IS_WITHIN", "V"]]),
    record("Adrift", {}, [["IS_WITHIN", "gone"]]),
  ];

  it("walks through the ship from the vessel down, and loses no locker", () => {
    const places = placesOf([{ id: "V", name: "V" }], lockers);
    expect(places.map(({ path, depth }) => [path, depth])).toEqual([
      ["V", 0],
      ["V › Room", 1],
      ["V › Room › Shelf", 2],
      ["Adrift", 1],
    ]);
    expect([...(places[0]?.within ?? [])]).toEqual(["V", "Room", "Shelf"]);
  });
});
