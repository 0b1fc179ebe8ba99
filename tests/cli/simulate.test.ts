import { expect, it } from "vitest";
import { cautions } from "../../api/plans/cautions.ts";
import { sparewright } from "./run-command.ts";

it("simulate ends with the cautions and says where the models differ", async () => {
  const run = await sparewright(["simulate", "--demo", "--crossings", "5000", "--seed", "4"]);
  expect(run.status, run.err).toBe(0);
  expect(run.out).toMatch(/^Played 5\s000 times/);
  const flat = run.out.replaceAll(/\s+/g, " ");
  expect(flat).toContain("Where simulation and formulas differ by design");
  for (const caution of cautions) expect(flat).toContain(caution);
  for (const line of run.out.split("\n")) expect([...line].length).toBeLessThanOrEqual(100);
});

it("simulate --json is the same document for the same seed", async () => {
  const ask = () => sparewright(["simulate", "--demo", "--crossings", "6000", "--json"]);
  const [one, two] = await Promise.all([ask(), ask()]);
  expect(one?.status, one?.err).toBe(0);
  expect(one?.out).toBe(two?.out);
});

it("simulate names the option that is wrong", async () => {
  const run = await sparewright(["simulate", "--demo", "--crossings", "3"]);
  expect(run.status).toBe(2);
  expect(run.err).toContain("--crossings");
});
