import type { Matrix } from "../../ui/charts/parts-matrix.ts";

/**
 * Two winches that share pawl and spring, a pump that shares nothing. Counted by hand: A takes p q r, B takes p q
 * (q twelvefold), C takes s. Shared: p, q. Lone: r, s.
 */
export const matrix: Matrix = {
  models: [
    { id: "m1", name: "A", category: "winch", maker: "Brasswick", items: 2, parts: 3 },
    { id: "m2", name: "B", category: "winch", maker: "Brasswick", items: 1, parts: 2 },
    { id: "m3", name: "C", category: "bilge pump", maker: "Tholepin", items: 4, parts: 1 },
  ],
  parts: [
    { id: "p", name: "001-P", description: "pawl", maker: "Brasswick", models: 2 },
    { id: "q", name: "001-Q", description: "spring", maker: "Brasswick", models: 2 },
    { id: "r", name: "001-R", description: "drum", maker: "Brasswick", models: 1 },
    { id: "s", name: "900", description: "diaphragm", maker: "Tholepin", models: 1 },
  ],
  cells: [
    [0, 0, 1],
    [0, 1, 1],
    [0, 2, 1],
    [1, 0, 1],
    [1, 1, 12],
    [2, 3, 1],
  ],
};

/** Three kits of one tier, the middle one chosen; each costs more and is ten times surer. */
export const curve = {
  points: [
    { cost: 0, sufficiency: 0.9, pieces: 0 },
    { cost: 1000, sufficiency: 0.99, pieces: 2 },
    { cost: 4000, sufficiency: 0.999, pieces: 5 },
  ],
  chosen: { cost: 1000, sufficiency: 0.99 },
  target: 0.98,
  width: 400,
  height: 240,
  amountText: (amount: number) => `${amount / 100} EUR`,
  tickText: String,
  amountScale: 100,
  sufficiencyText: String,
  name: "passage tier",
};

/** The best one, two and three suppliers of sixty items, of which fifty can be had. */
export const reach = {
  points: [
    { count: 1, reached: 10, withoutAnyOne: 0, upperBound: 10 },
    { count: 2, reached: 20, withoutAnyOne: 5, upperBound: 20 },
    { count: 3, reached: 30, withoutAnyOne: 10, upperBound: 34 },
  ],
  total: 60,
  coverable: 50,
  width: 400,
  height: 280,
};
