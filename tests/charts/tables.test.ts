import { describe, expect, it } from "vitest";
import { readDay } from "../../ui/components/read-day.ts";
import { type Column, compareValues } from "../../ui/components/table/column.ts";
import { rowWindow } from "../../ui/components/table/row-window.ts";
import { rowsAsCsv } from "../../ui/components/table/rows-as-csv.ts";

interface Row {
  readonly name: string;
  readonly count: number | null;
}
const columns: readonly Column<Row>[] = [
  { id: "name", name: "Part, number", kind: "name", cell: ({ name }) => name },
  {
    id: "count",
    name: "Pieces",
    cell: ({ count }) => `${count} pieces`,
    value: ({ count }) => count,
  },
];

describe("a table as a file", () => {
  it("quotes what RFC 4180 says must be quoted, and keeps numbers bare", () => {
    const text = rowsAsCsv(columns, [
      { name: 'seal "K", big', count: 2.5 },
      { name: "007", count: null },
    ]);
    expect(text).toBe('"Part, number",Pieces\r\n"seal ""K"", big",2.5\r\n007,\r\n');
  });

  it("lets no cell become a formula", () => {
    const text = rowsAsCsv(columns, [
      { name: "=HYPERLINK(1)", count: 1 },
      { name: "-40 seal", count: 1 },
      { name: "-B", count: 1 },
    ]);
    expect(text.split("\r\n").slice(1, 4)).toEqual(["'=HYPERLINK(1),1", "-40 seal,1", "'-B,1"]);
  });
});

describe("a long table", () => {
  it("draws all rows in sight and few others, wherever it is scrolled", () => {
    for (const top of [0, 1, 5_000, 123_457, 3_600_000]) {
      const { first, end } = rowWindow(100_000, 36, top, 700);
      const seenFirst = Math.floor(top / 36);
      const seenEnd = Math.min(100_000, Math.ceil((top + 700) / 36));
      expect(first).toBeLessThanOrEqual(Math.min(seenFirst, 99_999));
      expect(end).toBeGreaterThanOrEqual(seenEnd);
      expect(end - first).toBeLessThan(60);
    }
  });

  it("sorts as people do: by size, numbers in names by value, unknown last", () => {
    const sorted = ["B10", null, "B9", "a1"].sort(compareValues);
    expect(sorted).toEqual(["a1", "B9", "B10", null]);
    expect([3, null, 20].sort(compareValues)).toEqual([3, 20, null]);
  });
});

describe("a typed day", () => {
  it("is read in the ways people write it, the day before the month", () => {
    for (const typed of [
      "2027-01-12",
      "12 Jan 2027",
      "12. January 2027",
      "12.1.2027",
      "12/01/2027",
    ])
      expect(readDay(typed), typed).toBe("2027-01-12");
  });

  it("is none where there is no such day", () => {
    for (const typed of ["31.02.2027", "2027-13-01", "soon", "", "12 Foo 2027"])
      expect(readDay(typed), typed).toBeUndefined();
  });
});
