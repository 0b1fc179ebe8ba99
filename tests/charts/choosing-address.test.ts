import fc from "fast-check";
import { expect, test } from "vitest";
import { chooseRequest } from "../../api/contract/choose.contract.ts";
import { decimalsFault, inMinor, inWhole } from "../../ui/components/money.ts";
import { needWithUnit, readNeed } from "../../ui/components/need-units.ts";
import { preferences } from "../../ui/data/preferences.ts";
import { choiceQuestion, readNeeds, writeNeeds } from "../../ui/pages/choosing/choice-question.ts";
import { makeOfDraft } from "../../ui/pages/choosing/make-draft.ts";
import { standardQuestion } from "../../ui/pages/choosing/standard-question.ts";
import { readMakes, tokenOf, writeMakes } from "../../ui/pages/choosing/typed-makes.ts";

// ISO 4217:2015, list one: the yen has no minor unit, the euro 2 digits, the Bahraini dinar 3.
test.each([
  ["JPY", 1500, 1500],
  ["EUR", 12.5, 1250],
  ["BHD", 1.234, 1234],
])("an amount typed in %s counts in its own minor units", (currency, amount, minor) => {
  expect(inMinor(amount, currency)).toBe(minor);
  expect(inWhole(minor, currency)).toBe(amount);
  expect(decimalsFault(amount, currency)).toBeUndefined();
  expect(decimalsFault(amount + 0.0001, currency)).toMatch(/decimals/);
});

test.each([
  ["JPY", 20_000],
  ["EUR", 2_000_000],
  ["BHD", 20_000_000],
])(
  "the budget for changes of make is asked in minor units of %s, the planning currency",
  (currency, minor) => {
    const asked = standardQuestion(new Map([["budget", "20000"]]), preferences(), currency);
    expect(asked.budgetMinor).toBe(minor);
    expect(asked.currency).toBe(currency);
  },
);

// Exact by definition: 1 lb = 0.45359237 kg, 1 in = 25.4 mm (1959); 1 US gal = 231 in³ = 3.785411784 l (NIST SP 811).
test.each([
  ["workingLoadKg", "2000", "imperial", 907.18474],
  ["workingLoadKg", "1.5 t", "imperial", 1500],
  ["workingLoadKg", "2000 lb", "metric", 907.18474],
  ["lineDiameterMm", "0.5", "imperial", 12.7],
  ["flowLitresPerHour", "500", "imperial", 1892.705892],
  ["voltage", "24 V", "metric", 24],
] as const)("a need %s typed as %j by a reader of %s units is %d", (name, text, units, value) => {
  expect(readNeed(name, text, units)).toEqual({ value: expect.closeTo(value, 4) });
});

test.each([
  ["workingLoadKg", "lots"],
  ["workingLoadKg", "1,200"],
  ["workingLoadKg", "3 stone"],
  ["voltage", "2000"],
  ["powerRatio", "48 kg"],
] as const)("a need %s typed as %j is refused in words", (name, text) => {
  expect(readNeed(name, text, "metric")).toEqual({ fault: expect.stringMatching(/\w/) });
});

test("a need is shown as it was typed", () => {
  expect(needWithUnit("workingLoadKg", 907.18474, "imperial")).toBe("2000 lb");
  expect(needWithUnit("powerRatio", 48, "imperial")).toBe("48");
});

test("needs and typed makes come out of an address as they went in", () => {
  const needs = { workingLoadKg: 900, voltage: 12 };
  expect(readNeeds(writeNeeds(needs))).toEqual(needs);
  expect(readNeeds("workingLoadKg:,nonsense:3,voltage:-1")).toEqual({});
  fc.assert(
    fc.property(fc.string({ minLength: 1, unit: "grapheme" }), fc.string(), (maker, partsCsv) => {
      const make = { maker, designation: "OX-1", partsCsv };
      const [read] = readMakes(writeMakes([{ token: tokenOf(make) }]));
      expect(read?.make).toEqual(make);
    }),
  );
  expect(readMakes("broken.~gone").map(({ make }) => make)).toEqual([undefined, undefined]);
});

test("the address of a new position is a question the program takes", () => {
  const draft = {
    maker: " Ombrelux ",
    designation: "OX-1",
    price: "1500,50",
    currency: "eur",
    mass: "20",
    can: { workingLoadKg: 1000 },
    parts: "",
    offers: "",
    instead: "",
  };
  const found = makeOfDraft(draft, "imperial");
  if ("faults" in found) throw new Error(JSON.stringify(found.faults));
  expect(found.make).toEqual({
    maker: "Ombrelux",
    designation: "OX-1",
    currency: "EUR",
    priceMinor: 150_050,
    massKg: 9.0718474,
    can: { workingLoadKg: 1000 },
  });
  const query = new Map([
    ["for", "new"],
    ["kind", "winch"],
    ["count", "2"],
    ["operations", "12"],
    ["needs", "workingLoadKg:900"],
    ["makes", tokenOf(found.make)],
    ["out", "a,b"],
  ]);
  const request = choiceQuestion(query, "some vessel");
  expect(chooseRequest.parse(request)).toEqual({
    vessel: "some vessel",
    position: { category: "winch", count: 2, operationsPerDay: 12 },
    needs: { workingLoadKg: 900 },
    without: ["a", "b"],
    typed: [found.make],
  });
  expect(choiceQuestion(new Map([["for", "new"]]), "some vessel")).toBeUndefined();
  expect(makeOfDraft({ ...draft, currency: "JPY" }, "metric")).toEqual({
    faults: { price: "JPY has no decimals: write a whole number." },
  });
});
