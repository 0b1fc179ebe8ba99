import { expect, test } from "vitest";
import { groupDigits, massWords, moneyWords, roomWords } from "../../api/plans/words.ts";
import { massIn, roomIn } from "../../graph-schema/amounts.ts";
import { moneyAmountText, wholeText } from "../../ui/components/figures.ts";

// ISO 4217: the forint and the Iraqi dinar have two and three minor digits, whatever is in use day to day.
test("money is written with the same minor digits it was read with", () => {
  expect(moneyWords(123_450, "HUF")).toBe("1\u202f234.50 HUF");
  expect(moneyWords(1500, "IQD")).toBe("1.500 IQD");
  expect(moneyWords(1500, "JPY")).toBe("1\u202f500 JPY");
});

// NIST SP 811 (2008), appendix B.9: 1 lb = 4.535 924 E-01 kg, 1 cu ft = 2.831 685 E-02 m3.
test("weight and room are worded in the reader's units", () => {
  expect(massIn(0.453_592_4, "imperial")).toBeCloseTo(1, 6);
  expect(roomIn(28.316_85, "imperial")).toBeCloseTo(1, 6);
  expect(massWords(23)).toBe("23 kg");
  expect(massWords(23, "imperial")).toBe("51 lb");
  expect(massWords(0.12, "imperial")).toBe("0.26 lb");
  expect(massWords(1500)).toBe("1\u202f500 kg");
  expect(roomWords(40, "metric")).toBe("40 litres");
  expect(roomWords(40, "imperial")).toBe("1.4 cu ft");
});

test("the program's sentences and the screen's tables separate thousands alike", () => {
  for (const n of [0, 7, 999, 1000, 12_345, 1_234_567]) {
    expect(groupDigits(n)).toBe(wholeText(n));
    for (const currency of ["EUR", "JPY", "KWD"])
      expect(moneyWords(n, currency)).toBe(`${moneyAmountText(n, currency)} ${currency}`);
  }
});
