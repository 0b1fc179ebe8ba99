import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { Problem } from "../../api/errors/problem.ts";
import { importFile, listKindNames, rejectedCsv } from "../../importers/index.ts";
import { targets } from "../../importers/targets.ts";
import { knownGraphOf } from "./known-graph-of.ts";

/** Cells as untidy as people keep them. */
const cell = fc.oneof(
  { weight: 3, arbitrary: fc.constant("") },
  fc.constantFrom(
    ..."A-1|00417|1.23E+11|Mar-26|#REF!|n/a|-|?|–|x|ja|no|2 pcs|1 set|ca. 5|3-4 weeks|-3|0|1e9".split(
      "|",
    ),
    ..."12,5|1.234,50|1,234|€ 12,50|12.50 EUR|$4|kr 7|POA|1 gal|3 oz|0,4 kg|5 %|250 h|1 an".split(
      "|",
    ),
    ...'3/4/2026|31.02.2027|2027-03|Mar 2027|2019|45123|Total|Summe|----|=1+1|="007"|@home|\'x'.split(
      "|",
    ),
    ..."stop|safety|often|unproven|placed|Forepeak > Bin 3|Bin 3 > |> |W\u00a01|\ufeffQ|“Bin”|a\u0000b".split(
      "|",
    ),
    '3/8" hose',
    'an "open quote',
    "two\nlines",
  ),
  fc.string({ maxLength: 12 }),
  fc.integer({ min: -3, max: 4000 }).map(String),
);

const declared = [...targets.values()].flatMap(({ names }) => names);
const header = fc.oneof(
  { weight: 4, arbitrary: fc.constantFrom(...declared) },
  { weight: 1, arbitrary: fc.string({ maxLength: 10 }) },
);

const delimiter = fc.constantFrom(",", ";", "\t", "|");
const lineEnd = fc.constantFrom("\n", "\r\n", "\r");

const quoted = (text: string, mark: string): string =>
  text.includes(mark) || /[\r\n"]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;

const table = fc.record({
  titles: fc.array(fc.string({ maxLength: 20 }), { maxLength: 3 }),
  // The columns without which hardly any kind of list fits stand in most tables.
  needed: fc.subarray(["part number", "model", "maker", "quantity", "supplier", "on board"], {
    minLength: 2,
  }),
  header: fc.array(header, { maxLength: 7 }),
  rows: fc.array(fc.array(cell, { minLength: 1, maxLength: 14 }), { maxLength: 12 }),
  mark: delimiter,
  end: lineEnd,
  quotes: fc.boolean(),
  kind: fc.option(fc.constantFrom(...listKindNames), { nil: undefined }),
  vessel: fc.option(fc.constant("Tern"), { nil: undefined }),
  supplier: fc.option(fc.constant("Quay"), { nil: undefined }),
});

const written = ({
  titles,
  needed,
  header,
  rows,
  mark,
  end,
  quotes,
}: Omit<
  typeof table extends fc.Arbitrary<infer T> ? T : never,
  "kind" | "vessel" | "supplier"
>): string =>
  [titles, [...needed, ...header], ...rows]
    .flatMap((row, at) =>
      at === 0
        ? row.map((title) => title.replace(/[\r\n]/g, " "))
        : [row.map((text) => (quotes ? quoted(text, mark) : text)).join(mark)],
    )
    .join(end);

describe("any table at all", () => {
  it("is accounted for row by row, or refused as a whole with a problem of the catalogue", async () => {
    let read = 0;
    let refused = 0;
    await fc.assert(
      fc.asyncProperty(table, async ({ kind, vessel, supplier, ...made }) => {
        const text = written(made);
        let proposal: Awaited<ReturnType<typeof importFile>>;
        try {
          proposal = await importFile(new TextEncoder().encode(text), knownGraphOf(), {
            listKind: kind,
            vessel,
            supplier,
          });
        } catch (error) {
          expect(error).toBeInstanceOf(Problem);
          refused += 1;
          return;
        }
        read += 1;
        const { rows, faults, rejectedRows, records, changeSet } = proposal;
        expect(rows.read).toBe(rows.accepted + rows.rejected + rows.skipped);
        expect(rows.read).toBe(proposal.table.rowCount + proposal.table.skipped);
        expect(rejectedRows.length).toBe(rows.rejected);
        // No row is rejected without a reason, a rule and a remedy; none is both told of and taken in.
        const told = new Set(faults.map(({ line }) => line));
        for (const row of rejectedRows) expect(told).toContain(proposal.table.lineOf(row));
        for (const { rule, remedy } of faults)
          expect(rule.length * remedy.length).toBeGreaterThan(0);
        expect(rejectedCsv(proposal) === undefined).toBe(rows.rejected === 0);
        // What is proposed can be applied as it stands, and then nothing is left to do.
        expect(changeSet.changes.length).toBe(proposal.changeCount);
        const graph = knownGraphOf(changeSet);
        if (rows.accepted === 0) expect(records.every(({ created }) => created === 0)).toBe(true);
        const again = await importFile(new TextEncoder().encode(text), graph, {
          listKind: kind,
          vessel,
          supplier,
        });
        expect(again.rows).toEqual(rows);
        expect(again.changeCount).toBe(0);
      }),
      { numRuns: 400 },
    );
    // Both ways are gone; a generator whose tables are all refused would prove nothing.
    expect(read).toBeGreaterThan(100);
    expect(refused).toBeGreaterThan(5);
  });
});
