import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { chooseAnswer } from "../../api/contract/choose.contract.ts";
import { standardiseAnswer } from "../../api/contract/standardise.contract.ts";
import type { Comparison, WhatIf } from "../../api/contract/what-if.contract.ts";
import { chooseGear } from "../../api/plans/choose-gear.ts";
import { openDemo } from "../../api/plans/open-demo.ts";
import { planKit } from "../../api/plans/plan-kit.ts";
import { standardiseGear } from "../../api/plans/standardise-gear.ts";
import type { GraphStore } from "../../api/store/graph-store.ts";
import { openStore } from "../../api/store/open-store.ts";

const today = "2026-11-25";
const vessel = "Ysolvane";
const port = "Primary winch, port forward";
const starboard = "Primary winch, starboard forward";

let store: GraphStore;
beforeAll(async () => {
  store = await openStore({ db: ":memory:", env: {} });
  await openDemo(store, join(import.meta.dirname, "../../importers/demo"), {
    who: "test",
    at: `${today}T12:00:00Z`,
  });
}, 60_000);
afterAll(async () => {
  await store.close();
});

function figureOf(comparison: Comparison | undefined, name: string) {
  const found = comparison?.figures.find(({ figure }) => figure === name);
  if (found === undefined) throw new Error(`the comparison has no ${name}`);
  return found;
}

describe("what if, asked of a choice", () => {
  const ask = async (whatIf?: WhatIf, replace = [port]) =>
    chooseAnswer.parse(await chooseGear(store, { vessel, replace, turning: false, whatIf }, today));

  test("sets the boat as it is beside the boat as imagined, each as the kit itself reckons it", async () => {
    const plain = await ask();
    const whatIf: WhatIf = { remove: [{ item: starboard }] };
    const answer = await ask(whatIf);
    const kits = figureOf(answer.comparison, "kit with the gear fitted now");
    expect(kits.before).toBe((await planKit(store, { vessel }, today)).total.cost.minor);
    expect(kits.after).toBe((await planKit(store, { vessel, whatIf }, today)).total.cost.minor);
    expect(kits.after).not.toBe(kits.before);
    const boats = figureOf(answer.comparison, "the cheapest boat, make and kit");
    expect(boats.before).toBe(plain.candidates[0]?.boat?.minor);
    expect(boats.after).toBe(answer.candidates[0]?.boat?.minor);
    expect(answer.comparison?.changes.join(" ")).toContain(starboard);
    expect(answer.comparison?.sentence).toContain(answer.cheapest?.name ?? "no make");
  });

  test("a place that is only imagined has no answer before, and that is said", async () => {
    const plain = await ask();
    const model = plain.candidates[0]?.model.id ?? "";
    const answer = await ask({ add: [{ position: "Staysail winch", model }] }, ["Staysail winch"]);
    expect(answer.comparison?.sentence).toMatch(/only once it is imagined/);
    for (const { before, difference } of answer.comparison?.figures ?? [])
      expect([before, difference]).toEqual([null, null]);
    expect(figureOf(answer.comparison, "kit with the gear fitted now").after).toBe(
      answer.before.kit?.minor,
    );
    await expect(ask(undefined, ["Staysail winch"])).rejects.toThrow(/Staysail winch/);
  });
});

test("what if, asked of what to standardise on, sets the changes that pay side by side", async () => {
  const request = { vessel, categories: ["winch"], seconds: 5 };
  const ask = async (whatIf?: WhatIf) =>
    standardiseAnswer.parse(await standardiseGear(store, { ...request, whatIf }, today));
  const plain = await ask();
  const stages = new Set<string>();
  const whatIf: WhatIf = { remove: [{ item: port }, { item: starboard }] };
  const answer = standardiseAnswer.parse(
    await standardiseGear(store, { ...request, whatIf }, today, {
      progress: (stage) => stages.add(stage),
    }),
  );
  const kits = figureOf(answer.comparison, "kits with the gear kept");
  expect(kits.before).toBe(plain.before.kit?.minor);
  expect(kits.after).toBe((await planKit(store, { vessel, whatIf }, today)).total.cost.minor);
  expect(figureOf(answer.comparison, "changes that pay").before).toBe(plain.changes.length);
  expect(answer.changes.flatMap(({ positions }) => positions)).not.toContain(port);
  for (const stage of stages) expect(stage).toMatch(/^as (it is|imagined), /);
}, 60_000);
