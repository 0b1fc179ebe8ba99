import { expect, test } from "vitest";
import { moneyWords } from "../../api/plans/words.ts";

// ISO 4217: the forint and the Iraqi dinar have two and three minor digits, whatever is in use day to day.
test("money is written with the same minor digits it was read with", () => {
  expect(moneyWords(123_450, "HUF")).toBe("1\u202f234.50 HUF");
  expect(moneyWords(1500, "IQD")).toBe("1.500 IQD");
  expect(moneyWords(1500, "JPY")).toBe("1\u202f500 JPY");
});
