import { once } from "node:events";
import { Worker } from "node:worker_threads";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { Problem } from "../../api/errors/problem.ts";
import { importFile, readTable } from "../../importers/index.ts";
import { knownGraphOf } from "./known-graph-of.ts";

/**
 * Cells are found in place (`reading/cell-scanner.ts`) beside papaparse, which reads what the scanner leaves. Here
 * papaparse reads everything, as the reference: both must come to the same rows, lines, faults and notices.
 */
const everything = async (text: string, inPlace: boolean) => {
  try {
    const proposal = await importFile(text, knownGraphOf({ changes: [] }), {
      inPlace,
      vessel: "Tern",
    });
    const { table, rows, records, faults, rejectedRows, notices, changeSet } = proposal;
    return { header: table.header, rows, records, faults, rejectedRows, notices, changeSet };
  } catch (error) {
    if (error instanceof Problem) return { code: error.code, message: error.message };
    throw error;
  }
};

const asTable = (text: string, delimiter: "," | ";", inPlace: boolean) => {
  try {
    const { table, rows } = readTable(text, { delimiter, headerLine: 1, inPlace });
    return {
      rows,
      again: rows.map((_, row) => table.row(row)),
      lines: rows.map((_, row) => table.lineOf(row)),
      faults: [...table.faults].sort(([a], [b]) => a - b),
      skipped: table.skipped,
      notices: table.notices,
    };
  } catch (error) {
    if (error instanceof Problem) return { code: error.code, message: error.message };
    throw error;
  }
};

const mark = fc.constantFrom("," as const, ";" as const);
const end = fc.constantFrom("\n", "\r\n", "\r");

/** A cell as it stands in the file, mostly in order. */
const plain = fc.oneof(
  { weight: 6, arbitrary: fc.constantFrom("", "A-1", "00417", "12,5", "3/8 in", "'=1", "  x ") },
  { weight: 3, arbitrary: fc.string({ maxLength: 8 }).map((text) => text.replaceAll('"', "")) },
  { weight: 1, arbitrary: fc.constantFrom("\ud83d\udea4", "\ud83d", "é\u0301", "a\u0000b") },
);
const inQuotes = fc
  .array(fc.constantFrom("a", '""', ",", ";", "\n", "\r\n", "\r", " ", "é", "\udea4", "\u0000"), {
    maxLength: 6,
  })
  .map((pieces) => `"${pieces.join("")}"`);
const outOfOrder = fc.constantFrom('3/8"', '"a" b', '"never closed', 'a "b" c', '"', '"""');
const long = fc
  .constantFrom(32_766, 32_767, 32_768, 40_000, 70_000)
  .map((size) => "y".repeat(size));
const usual = fc.oneof({ weight: 8, arbitrary: plain }, { weight: 3, arbitrary: inQuotes });
const rarely = fc.oneof(
  { weight: 60, arbitrary: usual },
  { weight: 1, arbitrary: outOfOrder },
  { weight: 1, arbitrary: long },
  { weight: 1, arbitrary: long.map((text) => `"${text}\n"",${text}"`) },
);

/** Rows of about four cells: as many as the header has, more, fewer, or none. */
const row = fc.oneof(
  { weight: 12, arbitrary: fc.tuple(rarely, rarely, rarely, rarely) },
  { weight: 1, arbitrary: fc.array(usual, { maxLength: 7 }) },
  {
    weight: 1,
    arbitrary: fc.constantFrom([], [""], ["", "", "", ""], ["part number", "b", "c", "d"]),
  },
);

/** Rows that fill the text up to near the end of a stretch that is scanned at once. */
const filler = fc.oneof(
  { weight: 2, arbitrary: fc.constant(0) },
  fc.integer({ min: 32_600, max: 32_800 }),
  fc.integer({ min: 16_300, max: 16_450 }),
);
const fill = (size: number, delimiter: string, lineEnd: string): string => {
  const line = `f${delimiter}g${delimiter}h${delimiter}i${lineEnd}`;
  const whole = line.repeat(Math.floor(size / line.length));
  return `${whole}${"x".repeat(size - whole.length)}${delimiter}g${delimiter}h${delimiter}i${lineEnd}`;
};

const text = fc
  .record({ mark, end, filler, rows: fc.array(row, { maxLength: 12 }), isEnded: fc.boolean() })
  .map(({ mark: by, end: lineEnd, filler: size, rows, isEnded }) => {
    const header = ["part number", "b", "c", "d"].join(by) + lineEnd;
    const body = rows.map((cells) => cells.join(by)).join(lineEnd);
    const start = size === 0 ? "" : fill(size, by, lineEnd);
    return { by, text: `${header}${start}${body}${isEnded ? lineEnd : ""}` };
  });

/** Flat lists most rows of which are accepted. */
const list = fc
  .record({
    mark,
    end,
    rows: fc.array(
      fc.record({
        item: fc.integer({ min: 1, max: 5 }),
        part: fc.integer({ min: 1, max: 9 }),
        words: fc.constantFrom("seal", "seal, paper", "seal; paper", 'o-ring 3/8"', "two\nlines"),
        price: fc.constantFrom("", "12.50 EUR", "€ 3,20", "POA"),
        isQuoted: fc.boolean(),
        damage: fc.integer({ min: 0, max: 30 }),
      }),
      { minLength: 1, maxLength: 40 },
    ),
  })
  .map(({ mark: by, end: lineEnd, rows }) => {
    const quoted = (cell: string, isQuoted: boolean) =>
      isQuoted || /[",;\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell;
    const head = ["position", "maker", "model", "part number", "description", "qty", "price"];
    const lines = rows.map(({ item, part, words, price, isQuoted, damage }) => {
      const cells = [`winch ${item}`, "Works", `W${item}`, `0${part}-A`, words, "2", price];
      const line = [...cells, "Quay"].map((cell) => quoted(cell, isQuoted)).join(by);
      if (damage === 0) return line.slice(0, -6);
      if (damage === 1) return `${line}${by}more`;
      if (damage === 2) return `${line}${lineEnd}${line}`;
      if (damage === 3) return `"${line}`;
      return damage === 4 ? `Below deck${by.repeat(7)}` : line;
    });
    return [[...head, "supplier"].join(by), ...lines, ""].join(lineEnd);
  });

describe("cells found in place", () => {
  it("are those papaparse finds, with the same lines, faults and notices", () => {
    let scanned = 0;
    fc.assert(
      fc.property(text, ({ by, text: whole }) => {
        const found = asTable(whole, by, true);
        expect(found).toEqual(asTable(whole, by, false));
        if ("rows" in found) scanned += found.rows.length;
      }),
      { numRuns: 200 },
    );
    expect(scanned).toBeGreaterThan(500);
  });

  it("lead to the same proposal, most rows accepted", async () => {
    let accepted = 0;
    let read = 0;
    await fc.assert(
      fc.asyncProperty(list, async (whole) => {
        const found = await everything(whole, true);
        expect(found).toEqual(await everything(whole, false));
        if (!("rows" in found)) return;
        accepted += found.rows.accepted;
        read += found.rows.read;
      }),
      { numRuns: 150 },
    );
    expect(accepted).toBeGreaterThan(read / 2);
  });

  it("are those papaparse finds in any text", () => {
    const noise = fc
      .array(fc.constantFrom("a", "b", '"', ",", ";", "\n", "\r", "\r\n", " ", "\u0000", "'"), {
        maxLength: 60,
      })
      .map((pieces) => pieces.join(""));
    fc.assert(
      fc.property(noise, mark, (rest, by) => {
        const whole = `k${by}l\n${rest}`;
        expect(asTable(whole, by, true)).toEqual(asTable(whole, by, false));
      }),
      { numRuns: 1500 },
    );
  });

  it("are found in the end, wherever long quoted cells stand and whether or not they close", async () => {
    // A loop without end cannot be interrupted from within: it runs in a thread that can be stopped.
    const worker = new Worker(new URL("./read-long-cells.ts", import.meta.url));
    const timer = setTimeout(() => void worker.terminate(), 50_000);
    const [count] = await Promise.race([once(worker, "message"), once(worker, "exit")]);
    clearTimeout(timer);
    await worker.terminate();
    // 1 is what a stopped thread exits with.
    expect(count).toBe(186);
  }, 60_000);
});
