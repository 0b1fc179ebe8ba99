import { describe, expect, it } from "vitest";
import { solveInThread } from "../../api/plans/solve/solve-in-thread.ts";
import { leastOrder } from "../../api/scoring/order/least-order.ts";
import { mostPacks } from "../../api/scoring/order/order-milp.ts";
import {
  type OrderOffer,
  type OrderProblem,
  orderCost,
} from "../../api/scoring/order/order-problem.ts";

const limits = { seconds: 60 };

/** One piece of each need from each supplier, at a cost; a delivery charge to deal with one: plain facility location. */
const facilityLocation = (
  fixed: readonly number[],
  cost: readonly (readonly number[])[],
): OrderProblem => ({
  needs: cost.map(() => 1),
  suppliers: fixed.map((deliveryMinor) => ({
    deliveryMinor,
    freeFromMinor: undefined,
    minimumMinor: 0,
  })),
  offers: cost.flatMap((row, need) =>
    row.map((priceMinor, supplier) => ({
      supplier,
      priceMinor,
      dutyMinor: 0,
      leastPacks: 1,
      brings: [{ need, pieces: 1 }],
    })),
  ),
});

/** Every choice of open suppliers, each need from the cheapest of them. */
function byEnumeration(fixed: readonly number[], cost: readonly (readonly number[])[]): number {
  let best = Number.POSITIVE_INFINITY;
  for (let set = 1; set < 2 ** fixed.length; set++) {
    const open = [...fixed.keys()].filter((supplier) => (set >> supplier) & 1);
    const total =
      open.reduce((sum, supplier) => sum + (fixed[supplier] ?? 0), 0) +
      cost.reduce((sum, row) => sum + Math.min(...open.map((supplier) => row[supplier] ?? 0)), 0);
    best = Math.min(best, total);
  }
  return best;
}

describe("uncapacitated facility location", () => {
  // Data: L. A. Wolsey, Integer Programming, the six-client, five-depot instance (read in a public course notebook as a
  // minimisation); optimum derived here by enumerating all 31 choices of depots.
  const fixed = [4, 3, 4, 4, 7];
  const cost = [
    [12, 13, 6, 0, 1],
    [8, 4, 9, 1, 2],
    [2, 6, 6, 0, 1],
    [3, 5, 2, 1, 8],
    [8, 0, 5, 10, 8],
    [2, 0, 3, 4, 1],
  ];

  it("is solved to the optimum of the six-client, five-depot instance", async () => {
    const problem = facilityLocation(fixed, cost);
    const order = await leastOrder(problem, solveInThread, limits);
    expect(order.status).toBe("optimal");
    expect(order.totalMinor).toBe(byEnumeration(fixed, cost));
    expect(order.totalMinor).toBe(9);
    expect(orderCost(problem, order.packs)).toMatchObject({ totalMinor: 9, broken: [] });
  });

  it("is solved where opening everything or one is best", async () => {
    const free = facilityLocation([0, 0, 0, 0, 0], cost);
    expect((await leastOrder(free, solveInThread, limits)).totalMinor).toBe(0 + 1 + 0 + 1 + 0 + 0);
    const dear = fixed.map(() => 1000);
    const one = await leastOrder(facilityLocation(dear, cost), solveInThread, limits);
    expect(one.totalMinor).toBe(byEnumeration(dear, cost));
    expect(one.bills).toHaveLength(1);
  });
});

/** Small and repeatable: Lehmer's generator (Park & Miller 1988). */
function draws(seed: number): (below: number) => number {
  let state = seed;
  return (below) => {
    state = (state * 48_271) % 2_147_483_647;
    return state % below;
  };
}

function randomOrder(seed: number): OrderProblem {
  const draw = draws(seed * 7919 + 1);
  const needs = Array.from({ length: 1 + draw(3) }, () => 1 + draw(4));
  const suppliers = Array.from({ length: 1 + draw(3) }, () => ({
    deliveryMinor: draw(12),
    freeFromMinor: draw(2) === 0 ? undefined : 5 + draw(20),
    minimumMinor: draw(3) === 0 ? 3 + draw(12) : 0,
  }));
  const offers: OrderOffer[] = [];
  for (const [supplier] of suppliers.entries()) {
    for (const [need] of needs.entries()) {
      if (draw(4) === 0) continue;
      const other = (need + 1) % needs.length;
      offers.push({
        supplier,
        priceMinor: 1 + draw(9),
        dutyMinor: draw(3),
        leastPacks: 1 + (draw(3) === 0 ? draw(3) : 0),
        brings: [
          { need, pieces: 1 + draw(3) },
          ...(draw(4) === 0 && other !== need ? [{ need: other, pieces: 1 }] : []),
        ],
      });
    }
  }
  return { needs, suppliers, offers: offers.slice(0, 5) };
}

/** The least cost over every choice of whole packs up to each offer's most. */
function byTryingAll(problem: OrderProblem): number {
  const most = problem.offers.map((offer) => mostPacks(problem, offer));
  const packs = problem.offers.map(() => 0);
  let best = Number.POSITIVE_INFINITY;
  const tryFrom = (at: number): void => {
    if (at === packs.length) {
      const { totalMinor, broken } = orderCost(problem, packs);
      if (broken.length === 0) best = Math.min(best, totalMinor);
      return;
    }
    const least = problem.offers[at]?.leastPacks ?? 1;
    for (let count = 0; count <= (most[at] ?? 0); count++) {
      if (count > 0 && count < least) continue;
      packs[at] = count;
      tryFrom(at + 1);
    }
    packs[at] = 0;
  };
  tryFrom(0);
  return best;
}

describe("orders with packs, least orders and free delivery", () => {
  it("cost what trying every order finds, in 60 seeded cases; cheapest-first is never below", async () => {
    let infeasible = 0;
    let dearer = 0;
    for (let seed = 1; seed <= 60; seed++) {
      const problem = randomOrder(seed);
      const size = problem.offers.reduce((all, offer) => all * (mostPacks(problem, offer) + 1), 1);
      if (size > 300_000) continue;
      const exact = byTryingAll(problem);
      const order = await leastOrder(problem, solveInThread, limits);
      if (exact === Number.POSITIVE_INFINITY) {
        expect(order.status, `seed ${seed}`).toBe("infeasible");
        infeasible += 1;
        continue;
      }
      expect(order.status, `seed ${seed}`).toBe("optimal");
      expect(order.totalMinor, `seed ${seed}`).toBe(exact);
      expect(order.lowerBoundMinor).toBe(exact);
      expect(orderCost(problem, order.packs)).toMatchObject({ totalMinor: exact, broken: [] });
      if (order.eachAlone !== undefined) {
        expect(order.eachAlone.totalMinor).toBeGreaterThanOrEqual(exact);
        if (order.eachAlone.totalMinor > exact) dearer += 1;
      }
    }
    // The cases are such that both happen.
    expect(infeasible).toBeGreaterThan(3);
    expect(dearer).toBeGreaterThan(3);
  }, 60_000);
});
