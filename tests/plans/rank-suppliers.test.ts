import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { suppliersAnswer } from "../../api/contract/suppliers.contract.ts";
import { rankSuppliers } from "../../api/plans/rank-suppliers.ts";
import type { GraphStore } from "../../api/store/graph-store.ts";
import { openStore } from "../../api/store/open-store.ts";
import { GraphSketch } from "../tools/graph-sketch.ts";

let folder = "";
let store: GraphStore;
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), "suppliers-plan-"));
  store = await openStore({ db: join(folder, "graph.db"), env: {} });
});
afterEach(async () => {
  await store.close();
  rmSync(folder, { recursive: true, force: true });
});

/**
 * Counted by hand. Three winches take p1 and p2; a bilge pump takes p3 and p4; a horn takes p5 (sold by nobody,
 * but inside set K) and p6; a lamp has no parts list; a mast takes only what cannot be replaced at sea.
 * Nordquay sells p1, p2, p6; Eastwick p1, p3; Hollin p2, p4, and K; Idle nothing of use.
 */
async function fleet(): Promise<void> {
  const sketch = new GraphSketch();
  const boat = sketch.vessel("Ysolvane");
  const part = (name: string) => sketch.part(name);
  const [p1, p2, p3, p4, p5, p6, p7] = [
    part("p1"),
    part("p2"),
    part("p3"),
    part("p4"),
    part("p5"),
    part("p6"),
    part("p7"),
  ];
  const kit = part("K");
  const winch = sketch.model("Winch", "winch");
  const pump = sketch.model("Pump", "bilge pump");
  const horn = sketch.model("Horn", "horn");
  const lamp = sketch.model("Lamp", "lamp");
  const mast = sketch.model("Mast", "mast");
  const uses = (model: typeof winch, of: typeof p1, effect = "stop", atSea = true): void =>
    sketch.link("USES", model, of, { quantity: 1, failureEffect: effect, fittableAtSea: atSea });
  uses(winch, p1);
  uses(winch, p2, "degrade");
  uses(pump, p3);
  uses(pump, p4);
  uses(horn, p5);
  uses(horn, p6, "none");
  uses(mast, p7, "stop", false);
  for (const name of ["port", "starboard", "halyard"]) sketch.item(name, boat, winch);
  const bilge = sketch.item("bilge", boat, pump);
  sketch.item("foredeck", boat, horn);
  sketch.item("masthead", boat, lamp);
  sketch.item("mast", boat, mast);
  sketch.duty("Pump the bilge", boat, "safety", 1, [bilge]);
  sketch.link("CONTAINS", kit, p5, { quantity: 1 });
  const sells = (name: string, parts: readonly (typeof p1)[], contact?: string): void => {
    const id = sketch.node("Supplier", name, { name, ...(contact ? { contact } : {}) });
    for (const one of parts) sketch.link("OFFERS", id, one, { priceMinor: 100, currency: "EUR" });
  };
  sells("Nordquay Stores", [p1, p2, p6], "stores@nordquay.example");
  sells("Eastwick", [p1, p3], "desk@eastwick.example");
  sells("Hollin", [p2, p4, kit]);
  sells("Idle", []);
  await sketch.into(store);
}

test("reach of each supplier, of the best few and of the least for everything on sale", async () => {
  await fleet();
  const answer = suppliersAnswer.parse(await rankSuppliers(store, {}));
  expect(answer.gear).toEqual({ items: 5, coverable: 4, parts: 6, partsSold: 5 });
  expect(
    answer.suppliers.map((row) => [
      row.supplier.name,
      row.gearWhole,
      row.gearPartly,
      row.parts,
      row.onlySourceOf,
    ]),
  ).toEqual([
    ["Nordquay Stores", 3, 4, 3, 1],
    ["Eastwick", 0, 4, 2, 1],
    ["Hollin", 0, 4, 2, 1],
    ["Idle", 0, 0, 0, 0],
  ]);
  expect(
    answer.curve.map(({ count, gearWhole, gearPartly, parts }) => [
      count,
      gearWhole.reached,
      gearPartly.reached,
      parts.reached,
    ]),
  ).toEqual([
    [1, 3, 4, 3],
    [2, 4, 5, 4],
    [3, 4, 5, 5],
  ]);
  // Eastwick and Hollin together do the winches and the pump: neither does one alone.
  expect(answer.curve[1]?.gearWhole.suppliers.map(({ name }) => name)).toEqual([
    "Eastwick",
    "Hollin",
  ]);
  expect(answer.curve[2]?.parts.withoutAnyOne).toBe(2);
  expect(answer.least).toMatchObject({ status: "optimal", cost: 3, lowerBound: 3, gap: 0 });
  expect(answer.least.greedy.cost).toBeGreaterThanOrEqual(answer.least.cost);
  const pairs = answer.overlaps.map(({ a, b, shared, jaccard }) => [
    [a.name, b.name].sort(),
    shared,
    jaccard,
  ]);
  expect(pairs).toHaveLength(2);
  expect(pairs).toContainEqual([["Eastwick", "Nordquay Stores"], 1, 1 / 4]);
  expect(pairs).toContainEqual([["Hollin", "Nordquay Stores"], 1, 1 / 4]);
  expect(answer.sentence).toMatch(
    /^Nordquay Stores offers every sparable part of 3 of 5 fitted items; three suppliers cover all 5 parts that anyone sells/,
  );
  expect(answer.counterweight).toContain("one point of failure");
  expect(answer.cautions.length).toBeGreaterThan(3);
});

test("parts at stake are ranked by tier, then by what they stop; unsold parts stay listed", async () => {
  await fleet();
  const answer = await rankSuppliers(store, {});
  expect(
    answer.singleSource.map((row) => [
      row.part.name,
      row.supplier.name,
      row.tier,
      row.itemsStopped,
      row.items,
    ]),
  ).toEqual([
    ["Quillmark p3", "Eastwick", "safety", 1, 1],
    ["Quillmark p4", "Hollin", "safety", 1, 1],
    ["Quillmark p6", "Nordquay Stores", "comfort", 0, 1],
  ]);
  expect(answer.unsold).toMatchObject([
    { part: { name: "Quillmark p5" }, tier: "passage", itemsStopped: 1, soldInside: ["K"] },
  ]);
  const notices = Object.fromEntries(answer.notices.map(({ code, text }) => [code, text]));
  expect(notices["parts-list-unknown"]).toContain("Lamp");
  expect(notices["nothing-to-spare"]).toContain("1 fitted item");
  expect(notices["contact-unknown"]).toContain("Hollin");
  expect(notices["offers-nothing"]).toContain("Idle");
});

test("weights give the least total, by name without regard to case; an unknown one is refused", async () => {
  await fleet();
  const weighed = await rankSuppliers(store, { weights: [{ supplier: "hollin", weight: 7.5 }] });
  expect(weighed.leastWeighted).toMatchObject({ status: "optimal", cost: 9.5 });
  await expect(
    rankSuppliers(store, { weights: [{ supplier: "Nobody", weight: 1 }] }),
  ).rejects.toThrow(/No supplier is called "Nobody"/);
  await expect(rankSuppliers(store, { vessel: "Nowhere" })).rejects.toThrow(/No vessel is called/);
});

test("an empty graph and a graph without offers are answered in words", async () => {
  expect((await rankSuppliers(store, {})).sentence).toContain("Import a parts list");
  const sketch = new GraphSketch();
  const model = sketch.model("Winch");
  sketch.item("port", sketch.vessel("Ysolvane"), model);
  sketch.link("USES", model, sketch.part("p1"), { quantity: 1 });
  await sketch.into(store);
  const answer = suppliersAnswer.parse(await rankSuppliers(store, {}));
  expect(answer.sentence).toContain("None of the 1 part");
  expect(answer.unsold).toHaveLength(1);
  expect(answer.curve).toEqual([]);
});
