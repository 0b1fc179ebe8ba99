import { describe, expect, it } from "vitest";
import { minorDigits } from "../../graph-schema/index.ts";
import type { Cell } from "../../importers/cells/cell.ts";
import { isCurrency } from "../../importers/cells/currencies.ts";
import { parseBoolean } from "../../importers/cells/parse-boolean.ts";
import { choiceReader } from "../../importers/cells/parse-choice.ts";
import { parseDate, readDateOrder } from "../../importers/cells/parse-date.ts";
import { parseDuration } from "../../importers/cells/parse-duration.ts";
import { parseMoney } from "../../importers/cells/parse-money.ts";
import { parseNumber, readNumberConvention } from "../../importers/cells/parse-number.ts";
import { parsePartNumber } from "../../importers/cells/parse-part-number.ts";
import { parseQuantity } from "../../importers/cells/parse-quantity.ts";

const told = <T>(cell: Cell<T>): T | string =>
  cell.kind === "value" ? cell.value : cell.kind === "fault" ? cell.code : "empty";

describe("numbers", () => {
  const number = (cell: string, convention: "point" | "comma" | "unknown" = "unknown") =>
    told(parseNumber(cell, { convention }));

  it("reads decimal marks and thousands of either kind where only one reading is possible", () => {
    expect(number("12.5")).toBe(12.5);
    expect(number("12,5")).toBe(12.5);
    expect(number("1.234,5")).toBe(1234.5);
    expect(number("1,234.5")).toBe(1234.5);
    expect(number("1 234,50")).toBe(1234.5);
    expect(number("1'234.50")).toBe(1234.5);
    expect(number("1.234.567")).toBe(1_234_567);
    expect(number("0,125")).toBe(0.125);
    expect(number("−3")).toBe(-3);
    expect(number("(3)")).toBe(-3);
    expect(number("–")).toBe("empty");
  });

  it("leaves 1,234 to the column's convention and flags it without one", () => {
    expect(number("1,234")).toBe("number-ambiguous");
    expect(number("1,234", "comma")).toBe(1.234);
    expect(number("1,234", "point")).toBe(1234);
    expect(number("1.234", "comma")).toBe(1234);
    expect(told(parseNumber("1,234", { convention: "unknown", wholeOnly: true }))).toBe(1234);
  });

  it("learns the convention from cells that can be read in one way only", () => {
    expect(readNumberConvention(["1,234", "2,5"])).toBe("comma");
    expect(readNumberConvention(["1,234", "2.50"])).toBe("point");
    expect(readNumberConvention(["1,5", "2.5"])).toBe("unknown");
  });

  it("refuses what is no number", () => {
    expect(number("ca. 5")).toBe("number-unreadable");
    expect(number("1.2.3")).toBe("number-unreadable");
    expect(number("12/24")).toBe("number-unreadable");
  });
});

describe("money", () => {
  const money = (cell: string, currency?: string) => {
    const answer = parseMoney(cell, { convention: "unknown", currency });
    return answer.kind === "value"
      ? `${answer.value.minor} ${answer.value.currency}`
      : told(answer);
  };

  // Source: ISO 4217 minor units as in the check values: USD 2, JPY 0, BHD 3; HUF 2 and IQD 3 from list one.
  it("counts in the minor units of ISO 4217, not in those of everyday use", () => {
    expect(["USD", "JPY", "BHD", "HUF", "IQD"].map(minorDigits)).toEqual([2, 0, 3, 2, 3]);
    expect(money("12.50 USD")).toBe("1250 USD");
    expect(money("JPY 1,500")).toBe("1500 JPY");
    expect(money("0.125 BHD")).toBe("125 BHD");
    expect(money("JPY 12.5")).toBe("money-unreadable");
    expect(isCurrency("EUR")).toBe(true);
    expect(isCurrency("QQQ")).toBe(false);
  });

  it("reads signs and codes on either side", () => {
    expect(money("12,50 €")).toBe("1250 EUR");
    expect(money("€12.50")).toBe("1250 EUR");
    expect(money("EUR 1.234,50")).toBe("123450 EUR");
    expect(money("£1,234")).toBe("123400 GBP");
    expect(money("12.- CHF")).toBe("1200 CHF");
    expect(money("A$ 7.20")).toBe("720 AUD");
  });

  it("refuses a bare price unless the currency is given", () => {
    expect(money("12.50")).toBe("currency-missing");
    expect(money("12.50", "EUR")).toBe("1250 EUR");
    expect(money("12.50 USD", "EUR")).toBe("currency-ambiguous");
  });

  it("takes a bare $ for US dollars with a note, or for the dollar given", () => {
    const answer = parseMoney("$5", { convention: "point" });
    expect(answer).toMatchObject({ kind: "value", value: { minor: 500, currency: "USD" } });
    expect(answer.kind === "value" && answer.note?.code).toBe("dollar-presumed");
    expect(money("$5", "NZD")).toBe("500 NZD");
    expect(money("kr 5")).toBe("currency-ambiguous");
    expect(money("kr 5", "NOK")).toBe("500 NOK");
  });

  it("refuses prices below zero and remarks", () => {
    expect(money("-5 EUR")).toBe("number-out-of-range");
    expect(money("ask EUR")).toBe("money-unreadable");
    expect(money("5 EUR/m")).toBe("money-unreadable");
  });
});

describe("quantities", () => {
  const kg = (cell: string, headerUnit?: string) =>
    told(parseQuantity(cell, { convention: "unknown", unit: "kg", headerUnit }));
  const litres = (cell: string, headerUnit?: string) =>
    told(parseQuantity(cell, { convention: "unknown", unit: "litre", headerUnit }));

  // Source: NIST SP 811 (2008), appendix B.8: 1 lb = 0.45359237 kg, 1 oz = 0.028349523125 kg exactly.
  it("turns written masses into kilograms", () => {
    expect(kg("250 g")).toBe(0.25);
    expect(kg("0,25kg")).toBe(0.25);
    expect(kg("1 lb")).toBe(0.45359237);
    expect(kg("1 oz")).toBeCloseTo(0.028349523125, 12);
    expect(kg("250", "g")).toBe(0.25);
    expect(kg("2 kg", "g")).toBe(2);
  });

  it("reads halves and quarters, as inches and pounds are written", () => {
    expect(kg("2 1/2 lb")).toBeCloseTo(2.5 * 0.45359237, 10);
    expect(kg("2½ lb")).toBeCloseTo(2.5 * 0.45359237, 10);
    expect(kg("1/2 oz")).toBeCloseTo(0.028349523125 / 2, 11);
    expect(kg("¾ kg")).toBe(0.75);
    expect(kg("1-1/4", "kg")).toBe(1.25);
    expect(kg("5/4 kg")).toBe("unit-unknown");
    expect(kg("1/2/3 kg")).toBe("unit-unknown");
  });

  // Source: NIST SP 811, appendix B.8: US gallon 3.785412 l, imperial gallon 4.54609 l.
  it("asks which gallon is meant, and reads it when told", () => {
    expect(litres("5 gal")).toBe("unit-ambiguous");
    expect(litres("1 US gal")).toBeCloseTo(3.785412, 5);
    expect(litres("1 imp gal")).toBe(4.54609);
    expect(litres("750 ml")).toBe(0.75);
    expect(litres("75 cl")).toBe(0.75);
    expect(litres("750", "ml")).toBe(0.75);
  });

  it("refuses a unit of something else", () => {
    expect(kg("5 l")).toBe("unit-unknown");
    expect(litres("5 kg")).toBe("unit-unknown");
  });
});

describe("dates", () => {
  const expiry = (cell: string, order: "dmy" | "mdy" | "unknown" = "unknown") =>
    told(parseDate(cell, { order, monthMeans: "last-day" }));

  it("reads the usual ways to write a day", () => {
    for (const cell of [
      "2027-03-31",
      "31.03.2027",
      "31/3/27",
      "3/31/2027",
      "31 Mar 2027",
      "March 31, 2027",
      "31. März 2027",
      "31 mars 2027",
      "31 de marzo de 2027",
      "20270331",
    ]) {
      expect(expiry(cell), cell).toBe("2027-03-31");
    }
  });

  it("takes a month for its last day when it is an expiry, its first when it is a day of making", () => {
    for (const cell of ["Mar 2027", "2027-03", "03/2027", "3/27", "mars 2027"]) {
      expect(expiry(cell), cell).toBe("2027-03-31");
    }
    expect(expiry("Feb 2028")).toBe("2028-02-29");
    expect(told(parseDate("Mar 2027", { order: "unknown", monthMeans: "first-day" }))).toBe(
      "2027-03-01",
    );
  });

  it("resolves day and month by the column, and flags what no cell decides", () => {
    expect(expiry("03/04/2027")).toBe("date-ambiguous");
    expect(expiry("03/04/2027", readDateOrder(["03/04/2027", "25/12/2026"]))).toBe("2027-04-03");
    expect(expiry("03/04/2027", readDateOrder(["03/04/2027", "12/25/2026"]))).toBe("2027-03-04");
    expect(expiry("03.04.2027")).toBe("2027-04-03");
  });

  it("refuses dates that cannot be", () => {
    for (const cell of ["31/02/2027", "2027-02-29", "2027-13-01", "00/10/2027", "32.01.2027"]) {
      expect(expiry(cell), cell).toBe("date-impossible");
    }
    expect(expiry("45000")).toBe("date-unreadable");
    expect(expiry("soon")).toBe("date-unreadable");
  });
});

describe("part numbers", () => {
  it("keeps them to the letter", () => {
    for (const cell of [
      "00123",
      "10-12-2",
      "1E5-204",
      "5E-10",
      "2E10",
      "MAR-27",
      "10.12.02",
      "aB/7 x",
      "123-4567-2002",
      "=12",
      "6-Set",
    ]) {
      expect(told(parsePartNumber(cell)), cell).toBe(cell);
    }
  });

  it("flags what a spreadsheet has mangled and never guesses", () => {
    for (const cell of [
      "1.23E+11",
      "1,23E+11",
      "5E+10",
      "1.5E-05",
      "12-Oct",
      "Oct-12",
      "12-okt",
      "10/12/2002",
      "2002-12-10",
      "10.12.2002",
      "10-12-2002",
      "2002-12-10 00:00:00",
      "#REF!",
      "#N/A",
    ]) {
      expect(told(parsePartNumber(cell)), cell).toBe("part-number-mangled");
    }
  });
});

describe("other cells", () => {
  it("reads yes and no in several languages", () => {
    expect(["yes", "Ja", "oui", "sí", "x", "TRUE"].map((cell) => told(parseBoolean(cell)))).toEqual(
      Array(6).fill(true),
    );
    expect(["no", "Nein", "non", "nee", "0"].map((cell) => told(parseBoolean(cell)))).toEqual(
      Array(5).fill(false),
    );
    expect(told(parseBoolean("perhaps"))).toBe("boolean-unreadable");
  });

  it("reads intervals with their unit", () => {
    expect(told(parseDuration("250 h", "unknown"))).toEqual({ hours: 250 });
    expect(told(parseDuration("1 an", "unknown"))).toEqual({ months: 12 });
    expect(told(parseDuration("250 Std. oder 12 Monate", "unknown"))).toEqual({
      hours: 250,
      months: 12,
    });
    expect(told(parseDuration("250", "unknown"))).toBe("duration-unreadable");
  });

  it("reads choices by their own and usual other words", () => {
    const tier = choiceReader(["safety", "passage", "comfort"]);
    expect(["Safety", "Sicherheit", "confort"].map((cell) => told(tier(cell)))).toEqual([
      "safety",
      "safety",
      "comfort",
    ]);
    expect(told(tier("whatever"))).toBe("choice-unknown");
  });
});
