import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { commonalityAnswer } from "../../api/contract/commonality.contract.ts";
import { measureCommonality } from "../../api/plans/measure-commonality.ts";
import type { GraphStore } from "../../api/store/graph-store.ts";
import { openStore } from "../../api/store/open-store.ts";
import { GraphSketch } from "../tools/graph-sketch.ts";

let folder = "";
let store: GraphStore;
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), "commonality-plan-"));
  store = await openStore({ db: join(folder, "graph.db"), env: {} });
});
afterEach(async () => {
  await store.close();
  rmSync(folder, { recursive: true, force: true });
});

/** The toy of CHECK-VALUES (numbers derived): models A, B, C; items fitted 3, 2, 1; quantities per part and model. */
async function toyFleet(): Promise<void> {
  const sketch = new GraphSketch();
  const boat = sketch.vessel("Ysolvane");
  const supplier = sketch.supplier("Nordquay Stores");
  const quantities = ["222", "111", "110", "033", "100", "010", "004"];
  const prices = [10, 5, 20, 4, 8, 6, 2];
  const models = ["A", "B", "C"].map((name) => sketch.model(name, "winch"));
  [3, 2, 1].forEach((count, m) => {
    const model = models[m];
    for (let n = 0; n < count && model !== undefined; n++) sketch.item(`${m} ${n}`, boat, model);
  });
  quantities.forEach((row, p) => {
    const part = sketch.part(`p${p + 1}`);
    sketch.link("OFFERS", supplier, part, { priceMinor: prices[p] ?? 0, currency: "EUR" });
    [...row].forEach((digit, m) => {
      const model = models[m];
      if (digit !== "0" && model !== undefined) {
        sketch.link("USES", model, part, { quantity: Number(digit) });
      }
    });
  });
  await sketch.into(store);
}

test("the toy fleet's indices are those of the papers' formulas", async () => {
  await toyFleet();
  const answer = commonalityAnswer.parse(await measureCommonality(store, {}));
  expect(answer.whole).toMatchObject({
    models: 3,
    items: 6,
    distinctParts: 7,
    lines: 13,
    usedByOneModelOnly: 3,
  });
  expect(answer.whole.degreeOfCommonality).toBeCloseTo(13 / 7, 12);
  expect(answer.whole.totalConstantCommonality).toBeCloseTo(0.5, 12);
  expect(answer.whole.componentCommonality).toBeCloseTo(0.75, 12);
  expect(answer.whole.weightedCommonality).toBeCloseTo(766 / 330, 12);
  expect(answer.whole).toMatchObject({ distinctKits: 3, maximalKits: 3 });
  expect(answer.matrix.cells).toHaveLength(13);
  const best = answer.opportunities[0];
  expect(best).toMatchObject({ items: 1, partsVanishing: 1, kitsVanishing: 1 });
  expect(best?.replace.name).toContain("C");
});

test("one category and one vessel narrow the scope; an unknown category names those there are", async () => {
  await toyFleet();
  const winches = await measureCommonality(store, { category: "WINCH", vessel: "ysolvane" });
  expect(winches.whole.models).toBe(3);
  await expect(measureCommonality(store, { category: "sextant" })).rejects.toThrow(
    /There are: winch/,
  );
});
