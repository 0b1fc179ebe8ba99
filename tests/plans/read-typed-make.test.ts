import { afterAll, beforeAll, expect, test } from "vitest";
import { typedReading } from "../../api/contract/what-if.contract.ts";
import { chooseGear } from "../../api/plans/choose-gear.ts";
import { readTypedMake } from "../../api/plans/read-typed-make.ts";
import type { GraphStore } from "../../api/store/graph-store.ts";
import { openStore } from "../../api/store/open-store.ts";
import { GraphSketch } from "../tools/graph-sketch.ts";

const make = { maker: "Ombrelux", designation: "OX-1" };
let store: GraphStore;

beforeAll(async () => {
  store = await openStore({ db: ":memory:", env: {} });
  const sketch = new GraphSketch();
  const boat = sketch.vessel("Ysolvane");
  sketch.item("Windlass", boat, sketch.model("Old", "winch"), { operationsPerDay: 4 });
  await sketch.into(store);
});
afterAll(async () => {
  await store.close();
});

/** A list as it comes: two lines of title, a column nobody declared, a row that is none. */
const partsCsv = [
  "Ombrelux exploded view",
  "",
  "Part no;Wotsit;Qty;Failure rate;Per",
  "OX-001;blue;2;0,5;year",
  "OX-002;red;zwei;1;year",
].join("\n");

test("says which columns and rows of a typed make's lists were understood, by the lines of the list itself", async () => {
  const read = typedReading.parse(
    await readTypedMake(store, {
      ...make,
      partsCsv,
      offersCsv: "Supplier,Part no,Price,Currency\nDearquay,OX-001,4.50,EUR\n",
    }),
  );
  const [parts, offers] = read.lists;
  expect(parts?.columns.map(({ header, property }) => [header, property])).toEqual([
    ["Part no", "Part.partNumber"],
    ["Wotsit", null],
    ["Qty", "USES.quantity"],
    ["Failure rate", "USES.rate"],
    ["Per", "USES.rateBasis"],
  ]);
  expect(parts?.rows).toEqual({ read: 2, accepted: 1, rejected: 1, skipped: 0 });
  expect(parts?.faults).toMatchObject([{ line: 5, column: "Qty", value: "zwei" }]);
  expect(parts?.sentence).toBe(
    'Of the parts list of Ombrelux OX-1, 1 of 2 rows is taken; 1 row could not be read; not understood, and left out: "Wotsit".',
  );
  expect(offers?.rows.accepted).toBe(1);
  expect(await store.count("Part")).toBe(0);
});

const asked = {
  replace: ["Windlass"],
  departs: "2027-01-10",
  daysExpected: 20,
  daysLongest: 20,
  turning: false,
};

// By hand: two pieces at .5 a year for 20 days, mean .0548: F(0) = .947 < .95, so one is bought, at 4.50.
test.each([
  [
    "an offers list that names no maker",
    { partsCsv, offersCsv: "Supplier,Part no,Price,Currency\nDearquay,OX-001,4.50,EUR\n" },
  ],
  [
    "columns of the parts list itself",
    {
      partsCsv:
        "Part no,Qty,Failure rate,Per,Supplier,Price\nOX-001,2,0.5,year,Dearquay,4.50 EUR\n",
    },
  ],
])("counts prices from %s, and takes the make to be of the kind asked about", async (_, lists) => {
  const answer = await chooseGear(
    store,
    { ...asked, typed: [{ ...make, priceMinor: 100, currency: "EUR", ...lists }] },
    "2026-11-25",
  );
  const typed = answer.candidates.find(({ typedIn }) => typedIn);
  expect(typed?.kit?.cost).toEqual({ minor: 450, currency: "EUR" });
  expect(typed?.kit?.priceAssumedPieces).toBe(0);
  expect(answer.lists.map(({ list }) => list)).toContain("parts");
});

test("a parts list of which no row could be read is no empty kit", async () => {
  const answer = await chooseGear(
    store,
    { ...asked, typed: [{ ...make, partsCsv: "Part no,Qty\nOX-001,two\n" }] },
    "2026-11-25",
  );
  expect(answer.candidates.find(({ typedIn }) => typedIn)).toMatchObject({
    kit: null,
    kitUnknown: "no row of its parts list could be read",
  });
});

test("a kit is unknown, not nothing, where its rates are per operation and no operations are given", async () => {
  const answer = await chooseGear(
    store,
    {
      ...asked,
      replace: undefined,
      position: { category: "Winches" },
      typed: [{ ...make, partsCsv: "Part no,Qty,Failure rate,Per\nOX-001,2,9,1000 ops\n" }],
    },
    "2026-11-25",
  );
  expect(answer.position.category).toBe("winch");
  expect(answer.candidates.find(({ typedIn }) => typedIn)?.kitUnknown).toMatch(/operations a day/);
  expect(answer.notices.map(({ code }) => code)).toContain("use-unsaid");
});
