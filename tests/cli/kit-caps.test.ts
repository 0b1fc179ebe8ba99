import { expect, it } from "vitest";
import { gatherLocker, readMoney, readWeights } from "../../api/cli/read-caps.ts";
import { cautions } from "../../api/plans/cautions.ts";
import { sparewright } from "./run-command.ts";

it.each([
  ["2000EUR", 200_000, "EUR"],
  ["eur 2000", 200_000, "EUR"],
  ["2 000,50 EUR", 200_050, "EUR"],
  ["1.5 usd", 150, "USD"],
  ["3000JPY", 3000, "JPY"],
  ["1.234 BHD", 1234, "BHD"],
])("reads %s as money", (text, minor, currency) => {
  expect(readMoney(text)).toEqual({ minor, currency });
});

it.each(["2000", "EUR", "2,000,000EUR", "20.5JPY", "1.234EUR", ""])(
  "refuses %j as money",
  (text) => {
    expect(() => readMoney(text)).toThrow();
  },
);

it.each([
  ["Engine room", { locker: "Engine room" }],
  ["Box 3=40l", { locker: "Box 3", volumeLitres: 40 }],
  ["Saloon > Box 3 = 40 l, 20 kg", { locker: "Saloon > Box 3", volumeLitres: 40, massKg: 20 }],
  ["Box=2,5kg", { locker: "Box", massKg: 2.5 }],
])("reads %s as a locker", (text, locker) => {
  expect(gatherLocker(text)).toEqual([locker]);
  expect(gatherLocker("Other=1l", gatherLocker(text))).toHaveLength(2);
});

it.each(["=40l", "Box=40", "Box=forty l", "Box=40 barrels"])("refuses %j as a locker", (text) => {
  expect(() => gatherLocker(text)).toThrow();
});

it("reads three weights", () => {
  expect(readWeights("1, 1, 0.25")).toEqual({ safety: 1, passage: 1, comfort: 0.25 });
  expect(() => readWeights("1,2")).toThrow();
});

it("kit within a cap on money says what the cap allows, lists what to buy and ends with the cautions", async () => {
  const run = await sparewright(["kit", "--demo", "--max-cost", "2500EUR"]);
  expect(run.status, run.err).toBe(0);
  const flat = run.out.replaceAll(/\s+/g, " ");
  expect(flat).toContain("That is the most the caps allow");
  expect(flat).toContain("Caps");
  expect(flat).toMatch(/packs? of \d+/);
  for (const caution of cautions) expect(flat).toContain(caution);
  for (const line of run.out.split("\n")) expect([...line].length).toBeLessThanOrEqual(100);
}, 60_000);

it("kit below what safety needs is an answer, not a failure", async () => {
  const run = await sparewright(["kit", "--demo", "--max-kg", "1", "--json"]);
  expect(run.status, run.err).toBe(0);
  const answer = JSON.parse(run.out) as { status: string; sale: { shortfalls: unknown[] } };
  expect(answer.status).toBe("infeasible");
  expect(answer.sale.shortfalls).toHaveLength(1);
}, 60_000);

it.each([
  [["--max-cost", "much"], "--max-cost"],
  [["--max-kg", "-3"], "--max-kg"],
  [["--locker-cap", "Box=full"], "--locker-cap"],
  [["--least", "pieces of eight"], "--least"],
  [["--max-kg", "3", "--rule", "each part"], "each part"],
])(
  "kit %j names what is wrong",
  async (words, named) => {
    const run = await sparewright(["kit", "--demo", ...words]);
    expect(run.status).not.toBe(0);
    expect(run.err.replaceAll(/\s+/g, " ")).toContain(named);
  },
  60_000,
);
