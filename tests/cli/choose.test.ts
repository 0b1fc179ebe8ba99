import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { readNeed } from "../../api/cli/read-need.ts";
import { typedMake } from "../../api/cli/typed-make.ts";
import type { ChooseAnswer } from "../../api/contract/choose.contract.ts";
import { cautions } from "../../api/plans/cautions.ts";
import { sparewright } from "./run-command.ts";

let folder = "";
const file = (name: string): string => join(folder, name);
const partsCsv =
  "Part no;Description;Qty;Failure rate;Per\nOX-001;R\u00fcckholfeder;4;0,02;1000 ops\nOX-002;Spring;two;1;year\n";

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "sparewright-choose-"));
  writeFileSync(file("parts.csv"), Buffer.from(partsCsv, "latin1"));
  writeFileSync(file("offers.csv"), "Supplier;Part no;Price;Currency\nNordquay;OX-001;12,50;EUR\n");
  writeFileSync(
    file("make.json"),
    JSON.stringify({
      maker: "Ombrelux",
      designation: "OX-1",
      price: "1500 EUR",
      mass: "20 lb",
      can: { "working load": "1 t" },
      partsFile: file("parts.csv"),
    }),
  );
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

// 1 t = 1000 kg; 1 lb = 0.45359237 kg exactly (agreement of 1959).
it.each([
  ["workingLoadKg=1500", ["workingLoadKg", 1500]],
  ["Working load = 1.5 t", ["workingLoadKg", 1500]],
  ["swl=2000 lb", ["workingLoadKg", 907.18474]],
  ["supply voltage=24", ["voltage", 24]],
  ["F\u00f6rderleistung=1200", ["flowLitresPerHour", 1200]],
])("reads %j as a need", (text, need) => {
  expect(readNeed(text)).toEqual(need);
});

it.each(["load=3", "swl=", "swl=strong", "swl=3 stone", "1500"])("refuses %j as a need", (text) => {
  expect(() => readNeed(text)).toThrow(/must/);
});

it("reads a make from a line in words as from a file", () => {
  const line = typedMake(
    `Ombrelux / OX-1; 1500 EUR; 20 lb; working load=1 t; parts=${file("parts.csv")}`,
  );
  expect(line).toEqual(typedMake(file("make.json")));
  expect(line).toEqual({
    maker: "Ombrelux",
    designation: "OX-1",
    priceMinor: 150_000,
    currency: "EUR",
    massKg: 9.0718474,
    can: { workingLoadKg: 1000 },
    partsCsv,
  });
});

it.each([
  ["Ombrelux OX-1; 1500", /neither a price/],
  ["Ombrelux; 1500 EUR", /begin with the maker/],
  ["Ombrelux OX-1; swl=strong", /digits|number/i],
  ["Ombrelux OX-1; parts=nowhere.csv", /nowhere.csv cannot be read/],
  ["parts.csv", /does not say whose it is/],
])("refuses the make %j in clear words", (text, words) => {
  expect(() => typedMake(text)).toThrow(words);
});

it("weighs it for a new position, and says what was understood of its lists", async () => {
  const asked = [
    "choose",
    "--demo",
    "--vessel",
    "Ysolvane",
    "--new",
    "Staysail winch",
    "--category",
    "Winches",
    "--operations",
    "12",
    "--serves",
    "Hoist and reef",
    "--need",
    "working load=900 kg",
    "--typed",
    `Ombrelux / OX-1; 1500 EUR; working load=1000 kg; parts=${file("parts.csv")}; offers=${file("offers.csv")}`,
    "--leave-out",
    "VG-60",
    "--no-turning",
  ];
  const run = await sparewright(asked);
  expect(run.status, run.err).toBe(0);
  const flat = run.out.replaceAll(/\s+/g, " ");
  expect(flat).toContain(
    'For "Staysail winch" on Ysolvane the Ombrelux OX-1 makes the cheapest boat',
  );
  expect(flat).toContain("Of the parts list of Ombrelux OX-1, 1 of 2 rows is taken");
  expect(flat).toContain("Of the offers list of Ombrelux OX-1, its one row is taken");
  expect(flat).not.toContain("Velgrath VG-60");
  for (const caution of cautions) expect(flat).toContain(caution);
  const told = JSON.parse((await sparewright([...asked, "--json"])).out) as ChooseAnswer;
  expect(told.lists[0]?.faults).toMatchObject([{ line: 3, value: "two" }]);
}, 90_000);

it("names the option at fault", async () => {
  const run = await sparewright(["choose", "--demo", "--new", "Mast", "--count", "0"]);
  expect(run.status).toBe(2);
  expect(run.err).toMatch(/--category: it must be a text/);
  expect(run.err).toMatch(/--count: it must be at least 1/);
}, 60_000);
