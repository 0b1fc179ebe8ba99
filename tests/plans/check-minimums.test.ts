import { afterEach, beforeEach, expect, test } from "vitest";
import { minimumsAnswer } from "../../api/contract/minimums.contract.ts";
import { checkMinimums } from "../../api/plans/check-minimums.ts";
import type { GraphStore } from "../../api/store/graph-store.ts";
import { openStore } from "../../api/store/open-store.ts";
import { GraphSketch } from "../tools/graph-sketch.ts";

let store: GraphStore;
beforeEach(async () => {
  store = await openStore({ db: ":memory:", env: {} });
});
afterEach(() => store.close());

const today = "2026-11-25";
const passage = { departs: "2027-01-10", daysExpected: 16, daysLongest: 20 } as const;

/** Two identical halogen searchlights and an LED one; one bulb in date, one long out of it. */
async function lights(): Promise<void> {
  const sketch = new GraphSketch();
  const boat = sketch.vessel("Ysolvane");
  const halogen = sketch.model("H 100", "Searchlight");
  const led = sketch.model("L 7", "searchlights");
  const bulb = sketch.part("B-1", { description: "Bulb, 24 V", shelfLifeMonths: 120 });
  sketch.link("USES", halogen, bulb, { quantity: 1, failureEffect: "stop", fittableAtSea: true });
  sketch.item("Bridge, port", boat, halogen);
  sketch.item("Bridge, starboard", boat, halogen);
  sketch.item("Foredeck LED light", boat, led);
  sketch.stock(bulb, boat, 1, { expires: "2030-01-01" });
  sketch.stock(bulb, boat, 1, { expires: "2020-01-01" });
  await sketch.into(store);
}

test("holds published lists against what is in date aboard, and says what each rule rests on", async () => {
  await lights();
  const answer = await checkMinimums(store, passage, today);
  minimumsAnswer.parse(answer);
  expect(answer.lists.map(({ id }) => id)).toEqual(["canada-sor-2020-216", "france-221-v-28-ter"]);
  const [bulbs] = answer.lists[0]?.checks ?? [];
  expect(bulbs).toMatchObject({
    status: "short",
    required: 2,
    aboard: 1,
    withKit: 1,
    gear: ["Bridge, port", "Bridge, starboard"],
    leftOut: ["Foredeck LED light"],
    parts: [{ part: "Bulb, 24 V, B-1", aboard: 1, notUsable: 1, bought: 0 }],
  });
  expect(bulbs?.words).toContain("still to find");
  expect(answer.cautions.length).toBeGreaterThan(4);
});

test("takes a list of one's own, and by itself unless others are named", async () => {
  await lights();
  const own = {
    name: "ours",
    text: "House rules\nGear;Spare;Basis;Quantity;Per;At least;What it asks;Source\nsearchlight;bulb;number;1;2;1;A bulb for every two lights;house rule\n",
  };
  const answer = await checkMinimums(store, { ...passage, own }, today);
  expect(answer.lists).toHaveLength(1);
  // Three lights, two to a bulb: two bulbs.
  expect(answer.lists[0]).toMatchObject({
    title: "House rules",
    checks: [{ required: 2, aboard: 1, status: "short" }],
  });
  const both = await checkMinimums(
    store,
    { ...passage, own, lists: ["canada-sor-2020-216"] },
    today,
  );
  expect(both.lists.map(({ id }) => id)).toEqual(["canada-sor-2020-216", "ours"]);
});

test("refuses a list with every fault of every row, and an unknown one by naming those there are", async () => {
  await lights();
  const text =
    "Gear,Spare,Basis,Quantity,Must fit,What it asks,Source\nsearchlight,bulb,each,two,perhaps,x,\n,line,unit,1,,x,y\n";
  await expect(
    checkMinimums(store, { ...passage, own: { name: "ours", text } }, today),
  ).rejects.toMatchObject({
    code: "input-invalid",
    places: [
      { pointer: "/line/2/Basis" },
      { pointer: "/line/2/Source" },
      { pointer: "/line/2/Must fit" },
      { pointer: "/line/2/Quantity" },
      { pointer: "/line/3/Gear" },
    ],
  });
  await expect(
    checkMinimums(store, { ...passage, own: { name: "ours", text: "a,b\n1,2\n" } }, today),
  ).rejects.toMatchObject({ code: "input-invalid", message: expect.stringContaining("Basis") });
  await expect(
    checkMinimums(store, { ...passage, lists: ["atlantis"] }, today),
  ).rejects.toMatchObject({
    code: "not-found",
    message: expect.stringContaining("canada-sor-2020-216"),
  });
});

test("is set beside the lists for an imagined vessel", async () => {
  await lights();
  const answer = await checkMinimums(
    store,
    { ...passage, whatIf: { remove: [{ item: "Bridge, port" }, { item: "Bridge, starboard" }] } },
    today,
  );
  minimumsAnswer.parse(answer);
  // Only the LED light is left, of which the text asks nothing.
  expect(answer.lists[0]?.checks[0]).toMatchObject({ status: "not applicable" });
  const short = answer.comparison?.figures.find(({ figure }) => figure === "rules short");
  expect((short?.before ?? 0) - (short?.after ?? 0)).toBe(1);
});
