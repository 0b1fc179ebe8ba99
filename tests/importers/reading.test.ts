import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { Problem } from "../../api/errors/problem.ts";
import { decodeText } from "../../importers/reading/decode-text.ts";
import { readTable } from "../../importers/reading/read-table.ts";
import { sniffDelimiter } from "../../importers/reading/sniff-delimiter.ts";
import { isDeclaredName } from "../../importers/targets.ts";
import { writeCsv } from "../../importers/write-csv.ts";

const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);

function utf16(text: string, order: "le" | "be", mark: boolean): Uint8Array {
  const marked = mark ? `\uFEFF${text}` : text;
  const bytes = new Uint8Array(marked.length * 2);
  const view = new DataView(bytes.buffer);
  for (let at = 0; at < marked.length; at += 1)
    view.setUint16(at * 2, marked.charCodeAt(at), order === "le");
  return bytes;
}

const codeOf = (act: () => unknown): string => {
  try {
    act();
  } catch (error) {
    if (error instanceof Problem) return error.code;
    throw error;
  }
  return "none";
};

describe("decoding", () => {
  const text = "Teil;Größe;Preis\nDichtung;groß;12,50 €\n";

  it("finds the encoding with and without a byte order mark", () => {
    expect(decodeText(utf8(text))).toMatchObject({ text, encoding: "utf-8" });
    expect(decodeText(utf8(`\uFEFF${text}`))).toMatchObject({
      text,
      encoding: "utf-8",
      hadByteOrderMark: true,
    });
    for (const mark of [true, false]) {
      expect(decodeText(utf16(text, "le", mark))).toMatchObject({ text, encoding: "utf-16le" });
      expect(decodeText(utf16(text, "be", mark))).toMatchObject({ text, encoding: "utf-16be" });
    }
    // Windows-1252: ö F6, ß DF, € 80 (WHATWG Encoding Standard, index windows-1252).
    const bytes = Uint8Array.from(text, (letter) => (letter === "€" ? 0x80 : letter.charCodeAt(0)));
    expect(decodeText(bytes)).toMatchObject({ text, encoding: "windows-1252" });
  });

  it("refuses nothing, white space and binary files, saying what they are", () => {
    expect(codeOf(() => decodeText(new Uint8Array()))).toBe("file-empty");
    expect(codeOf(() => decodeText(utf8(" \r\n \n")))).toBe("file-empty");
    expect(codeOf(() => decodeText(Uint8Array.of(0x50, 0x4b, 3, 4, 20, 0)))).toBe("file-binary");
    expect(codeOf(() => decodeText(Uint8Array.of(1, 0, 0, 7, 255, 0, 3, 0, 0)))).toBe(
      "file-binary",
    );
    expect(codeOf(() => decodeText(Uint8Array.of(1, 2, 3, 4, 5, 6)))).toBe("file-binary");
  });
});

describe("delimiters", () => {
  it("finds comma, semicolon, tab and pipe", () => {
    for (const delimiter of [",", ";", "\t", "|"]) {
      const text = [
        ["Part", "Qty", "Price"],
        ["a", "1", "2"],
        ["b", "3", "4"],
      ]
        .map((row) => row.join(delimiter))
        .join("\n");
      expect(sniffDelimiter(text)).toBe(delimiter);
    }
  });

  it("is not misled by decimal commas, title lines, or commas within quotes", () => {
    expect(sniffDelimiter("Teil;Gewicht;Preis\na;1,5;2,50\nb;2,5;3,50\n")).toBe(";");
    expect(
      sniffDelimiter("Spares, as of 3 May, by the mate\n\nPart;Qty;Kg\na;1;1,5\nb;2;2,5\n"),
    ).toBe(";");
    expect(sniffDelimiter('Part;Text\na;"x, y, z"\nb;"p, q, r"\n')).toBe(";");
    expect(sniffDelimiter("sep=|\nPart|Qty\na|1\n")).toBe("|");
    expect(sniffDelimiter("Part\na\nb\n")).toBeUndefined();
  });
});

describe("tables", () => {
  it("passes over title lines and names the line of every row", () => {
    const { table, rows } = readTable(
      'Our boat, spares\n\nPart number,Description,Qty\nA,"two\nlines",1\n\nB,x,2\n',
      { isKnownName: isDeclaredName },
    );
    expect(table.titleLines).toEqual(["Our boat, spares".split(",").join(","), ""]);
    expect(table.header).toEqual(["Part number", "Description", "Qty"]);
    expect(rows).toEqual([
      ["A", "two\nlines", "1"],
      ["B", "x", "2"],
    ]);
    expect(rows.map((_, at) => table.lineOf(at))).toEqual([4, 7]);
    expect(table.row(0)).toEqual(["A", "two\nlines", "1"]);
    expect(table.skipped).toBe(1);
  });

  it("reads every kind of line end, mixed ones too", () => {
    for (const end of ["\n", "\r\n", "\r"]) {
      expect(readTable(`a,b${end}1,2${end}3,4${end}`).rows).toEqual([
        ["1", "2"],
        ["3", "4"],
      ]);
    }
    expect(readTable("a,b\r\n1,2\n3,4\r\n").rows).toEqual([
      ["1", "2"],
      ["3", "4"],
    ]);
    expect(readTable('a,b\r\n1,"x\ny"\r\n3,4\r\n').rows).toEqual([
      ["1", "x\ny"],
      ["3", "4"],
    ]);
  });

  it("refuses a header without rows", () => {
    expect(codeOf(() => readTable("Part number,Qty\n"))).toBe("file-empty");
    expect(codeOf(() => readTable("Part number,Qty\n,\n\n"))).toBe("file-empty");
  });

  it("rejects ragged rows with line and remedy, and trims empty surplus cells", () => {
    const { table, rows } = readTable("a,b,c\n1,2,3\n1,2\n1,2,3,4\n1,2,3,,\n");
    expect([...table.faults].map(([row, [fault]]) => [row, fault?.code, fault?.line])).toEqual([
      [1, "row-short", 3],
      [2, "row-long", 4],
    ]);
    expect(rows[3]).toEqual(["1", "2", "3"]);
  });

  it("takes short rows as they are where most rows are short", () => {
    const { table, rows } = readTable("a,b,c\n1,2\n1,2\n1,2\n1,2\n1,2,3\n");
    expect(table.faults.size).toBe(0);
    expect(rows[0]).toEqual(["1", "2", ""]);
    expect(table.notices).toMatchObject([{ code: "rows-short", count: 4 }]);
  });

  it("loses no line to a quote mark that is never closed", () => {
    const { table, rows } = readTable('a,b\n1,x\n2,"open\n3,y\n4,"z"\n5,"3/8"" hose"\n');
    expect(rows.map(([first]) => first)).toEqual(["1", "2", "3", "4", "5"]);
    expect(rows[4]).toEqual(["5", '3/8" hose']);
    expect([...table.faults.values()].flat()).toMatchObject([{ code: "quote-open", line: 3 }]);
    expect(table.row(1)).toEqual(["2", '"open']);
  });

  it("rejects a cell of 1 MB and keeps the rest", () => {
    const { table, rows } = readTable(`a,b\n1,${"x".repeat(1 << 20)}\n2,y\n`);
    expect(rows).toHaveLength(2);
    expect(table.faults.get(0)).toMatchObject([{ code: "cell-too-long", line: 2, column: "b" }]);
    expect(table.faults.get(0)?.[0]?.value.length).toBeLessThan(200);
  });

  it("names columns that share a name or have none", () => {
    const { table } = readTable("a,a,,b\n1,2,3,4\n");
    expect(table.header).toEqual(["a", "a (2)", "Column 3", "b"]);
    expect(table.notices).toMatchObject([{ code: "header-twice", line: 1, column: "a" }]);
  });

  it("gives any row again after the table has been gone through", () => {
    const lines = Array.from({ length: 30_000 }, (_, at) => `${at},"cell ${at}, quoted"`);
    const { table, rows } = readTable(`a,b\n${lines.join("\n")}\n`);
    expect(table.rowCount).toBe(30_000);
    for (const at of [0, 1, 777, 15_000, 29_999, 3]) expect(table.row(at)).toEqual(rows[at]);
    expect(table.lineOf(29_999)).toBe(30_001);
  });
});

describe("writing", () => {
  it("neutralises cells that a spreadsheet would run, and leaves plain numbers", () => {
    const text = writeCsv(
      ["x", "n"],
      [
        ["=1+1", "-5"],
        ["@a", "+3,5"],
        ["-x", "1"],
      ],
      { byteOrderMark: false },
    );
    expect(text).toBe("x,n\r\n'=1+1,-5\r\n'@a,\"+3,5\"\r\n'-x,1\r\n");
  });

  it("gives every cell back to the letter when read again", () => {
    const cell = fc.oneof(
      fc.string({ unit: "grapheme", maxLength: 12 }),
      fc.constantFrom(
        "=A1",
        "+x",
        "-x",
        "@x",
        "\tx",
        "\rx",
        "'=x",
        "''-x",
        "-5",
        "a,b",
        'q"q',
        "l\nm",
        "l\r\nm",
        "  s  ",
        "00123",
        "'",
        "\uFEFFz",
      ),
    );
    const table = fc.array(fc.tuple(fc.stringMatching(/^[a-z]{1,5}$/), cell, cell), {
      minLength: 1,
      maxLength: 8,
    });
    fc.assert(
      fc.property(table, fc.constantFrom(",", ";", "\t", "|" as const), (rows, delimiter) => {
        const text = writeCsv(["Part number", "Description", "Remark"], rows, {
          delimiter: delimiter as ",",
        });
        const back = readTable(utf8(text), { isKnownName: isDeclaredName });
        expect(back.rows).toEqual(rows);
        expect(back.table.faults.size).toBe(0);
      }),
      { numRuns: 300 },
    );
  });
});

describe("long quoted cells", () => {
  it("are read to their end wherever they stand, and the rows after them too", () => {
    for (const length of [40_000, 200_000]) {
      for (const rowsAfter of [0, 3]) {
        const long = `"${"y".repeat(length)}\nend"`;
        const rows = ["Part number,Remarks", "A-1,short", `A-2,${long}`];
        for (let at = 0; at < rowsAfter; at += 1) rows.push(`B-${at},"after, all"`);
        const { table, rows: read } = readTable(`${rows.join("\n")}\n`);
        expect(read.map(([number]) => number)).toStrictEqual(
          ["A-1", "A-2", "B-0", "B-1", "B-2"].slice(0, 2 + rowsAfter),
        );
        expect(read[1]?.[1]).toHaveLength(length + 4);
        expect([...table.faults.values()].flat().map(({ code }) => code)).toStrictEqual([
          "cell-too-long",
        ]);
      }
    }
  });
});
