import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { voyageAnswer } from "../../api/contract/voyage.contract.ts";
import { planKit } from "../../api/plans/plan-kit.ts";
import { planVoyage } from "../../api/plans/plan-voyage.ts";
import { horizonChances } from "../../api/scoring/provision/leg-horizons.ts";
import type { GraphStore } from "../../api/store/graph-store.ts";
import { openStore } from "../../api/store/open-store.ts";
import { GraphSketch } from "../tools/graph-sketch.ts";
import { seededRandom } from "../tools/random-kit.ts";

let store: GraphStore;
beforeEach(async () => {
  store = await openStore({ db: ":memory:", env: {} });
});
afterEach(async () => {
  await store.close();
});

const today = "2026-11-25";
const departs = "2027-01-10";
const poissonAtMost = (mean: number, k: number): number => {
  let term = Math.exp(-mean);
  let sum = term;
  for (let i = 1; i <= k; i++) {
    term *= mean / i;
    sum += term;
  }
  return sum;
};
const leastReaching = (chance: (pieces: number) => number, target: number): number => {
  let pieces = 0;
  while (chance(pieces) < target) pieces++;
  return pieces;
};

/** One pump running all day that loses 0.1 impellers a day; a supplier in Praia that may have them. */
async function impellerBoat(supplier: { port: string; country: string; lead?: number }) {
  const sketch = new GraphSketch();
  const boat = sketch.vessel("Ysolvane");
  const pump = sketch.model("P-1");
  const part = sketch.part("IMPELLER");
  sketch.item("Pump", boat, pump, { hoursPerDay: 24 });
  sketch.link("USES", pump, part, {
    quantity: 1,
    rate: 0.1 / 0.024,
    rateBasis: "1000 hours",
    rateSource: "maker",
  });
  const { lead, ...place } = supplier;
  const store_ = sketch.node("Supplier", "Nordquay Stores", { name: "Nordquay Stores", ...place });
  sketch.link("OFFERS", store_, part, {
    priceMinor: 1000,
    currency: "EUR",
    ...(lead === undefined ? {} : { leadTimeDays: lead }),
  });
  await sketch.into(store);
}
const legs = [
  { to: "Praia", days: 2, longestDays: 4, stayDays: 5, country: "Cabo Verde" },
  { to: "Bridgetown", days: 15, longestDays: 20 },
];
const levels = async (more: object) => {
  const answer = voyageAnswer.parse(
    await planVoyage(
      store,
      { departs, from: "Mindelo", legs, targets: { passage: 0.95 }, ...more },
      today,
    ),
  );
  return answer.departures.map(({ lines }) => lines[0]?.carry ?? "none");
};

describe("the kit at each departure of a voyage", () => {
  test("carries one leg where the next port surely supplies, both where it does not", async () => {
    await impellerBoat({ port: "Praia", country: "Cabo Verde" });
    const first = leastReaching((x) => poissonAtMost(0.4, x), 0.95);
    const second = leastReaching((x) => poissonAtMost(2, x), 0.95);
    const whole = leastReaching((x) => poissonAtMost(2.4, x), 0.95);
    expect(await levels({ reliability: 1 })).toEqual([first, second]);
    expect(await levels({ reliability: 0 })).toEqual([whole, second]);
    // Half the time it must last both legs: the mixture of the two Poisson laws.
    const mixed = leastReaching((x) => (poissonAtMost(0.4, x) + poissonAtMost(2.4, x)) / 2, 0.95);
    expect(await levels({ reliability: 0.5 })).toEqual([mixed, second]);
    const answer = await planVoyage(
      store,
      { departs, from: "Mindelo", legs, reliability: 0.5 },
      today,
    );
    expect(answer.departures[0]?.lines[0]?.shortWithKit).toBeCloseTo(
      1 - (poissonAtMost(0.4, mixed) + poissonAtMost(2.4, mixed)) / 2,
      10,
    );
    expect(answer.departures.map(({ from, to, departs: on }) => [from, to, on])).toEqual([
      ["Mindelo", "Praia", "2027-01-10"],
      ["Praia", "Bridgetown", "2027-01-19"],
    ]);
    expect(answer.withoutCalls.pieces).toBe(whole);
    const passage = answer.tiers.find(({ tier }) => tier === "passage");
    expect(passage?.whole).toBeCloseTo(
      (1 - (answer.departures[0]?.lines[0]?.shortWithKit ?? 0)) *
        (1 - (answer.departures[1]?.lines[0]?.shortWithKit ?? 0)),
      10,
    );
  });

  // Lead time against the stay of five days, by where the supplier is.
  test.each([
    [{ port: "PRAIA ", country: "Cabo Verde", lead: 5 }, {}, true],
    [{ port: "Praia", country: "Cabo Verde", lead: 6 }, {}, false],
    [{ port: "Mindelo", country: "cabo verde", lead: 5 }, {}, true],
    [{ port: "Mindelo", country: "Cabo Verde" }, {}, false],
    [{ port: "Lorient", country: "France", lead: 3 }, {}, false],
    [{ port: "Lorient", country: "France", lead: 3 }, { fromAbroad: true }, true],
    [{ port: "Lorient", country: "France", lead: 8 }, { fromAbroad: true }, false],
  ] as const)("a supplier of %j, asked %j, supplies: %s", async (supplier, more, supplies) => {
    await impellerBoat(supplier);
    const whole = leastReaching((x) => poissonAtMost(2.4, x), 0.95);
    const [first, second] = await levels({ reliability: 1, ...more });
    expect(second === "none").toBe(!supplies);
    expect(first === whole).toBe(!supplies);
  });

  test("of a crossing without legs is the plain kit, and says so", async () => {
    await impellerBoat({ port: "Praia", country: "Cabo Verde" });
    const plain = await planKit(store, { departs }, today);
    const answer = await planVoyage(store, { departs }, today);
    expect(answer.departures).toHaveLength(1);
    expect(answer.departures[0]?.kit.cost).toEqual(plain.total.cost);
    expect(answer.notices.map(({ code }) => code)).toContain("legs-none");
  });

  test("carries a service's parts for the leg on which it falls due", async () => {
    const sketch = new GraphSketch();
    const boat = sketch.vessel("Ysolvane");
    const engine = sketch.model("BR-1");
    const item = sketch.item("Main engine", boat, engine, { hoursPerDay: 10, hoursRun: 900 });
    const filter = sketch.part("FILTER");
    const service = sketch.node("ServiceTask", "250 h", { name: "Oil", intervalHours: 250 });
    sketch.link("SERVICE_OF", service, engine);
    sketch.link("CONSUMES", service, filter, { quantity: 1 });
    sketch.link("SERVICED", item, service, { lastDoneHours: 780 });
    const shop = sketch.node("Supplier", "Quay", { name: "Quay", port: "Praia" });
    sketch.link("OFFERS", shop, filter, { priceMinor: 900, currency: "EUR" });
    await sketch.into(store);
    const asked = (first: number) =>
      levels({
        reliability: 1,
        legs: [
          { to: "Praia", days: first, longestDays: first },
          { to: "Bridgetown", days: 20, longestDays: 20 },
        ],
      });
    // 130 h left, 10 h a day: due on day 13. Four days out, nine are left at Praia: due once more on the second leg.
    expect(await asked(4)).toEqual([0, 1]);
    // Fourteen days out it falls due on the first leg, and 24 days later again: after the second leg.
    expect(await asked(14)).toEqual([1, "none"]);
    // Twenty out: due on the 13th day of the first, 18 days into the second.
    expect(await asked(20)).toEqual([1, 1]);
  });

  test("refuses legs whose longest case is shorter than what is expected", async () => {
    await impellerBoat({ port: "Praia", country: "Cabo Verde" });
    await expect(
      planVoyage(store, { departs, legs: [{ to: "Praia", days: 5, longestDays: 4 }] }, today),
    ).rejects.toMatchObject({ code: "crossing-invalid" });
  });
});

describe("how many legs a part must last", () => {
  test("is drawn leg by leg: supplied and delivered, or on to the next", () => {
    const random = seededRandom(81);
    for (let run = 0; run < 20; run++) {
      const had = Array.from({ length: Math.floor(random() * 5) }, () => random() < 0.6);
      const reliability = random();
      const chances = horizonChances(had, reliability);
      expect(chances.reduce((sum, p) => sum + p, 0)).toBeCloseTo(1, 12);
      const counts = chances.map(() => 0);
      const rounds = 20_000;
      for (let round = 0; round < rounds; round++) {
        let leg = 0;
        while (leg < had.length && !(had[leg] === true && random() < reliability)) leg++;
        counts[leg] = (counts[leg] ?? 0) + 1;
      }
      chances.forEach((p, leg) => {
        expect((counts[leg] ?? 0) / rounds).toBeGreaterThan(p - 0.018);
        expect((counts[leg] ?? 0) / rounds).toBeLessThan(p + 0.018);
      });
    }
    expect(() => horizonChances([true], 1.5)).toThrow(/reliability/);
  });
});
