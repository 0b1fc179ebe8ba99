import type { Tier } from "../../api/scoring/kit/kit-problem.ts";
import type { Content, SaleOffer, SaleProblem } from "../../api/scoring/packs/sale-problem.ts";
import { poissonLogCdf, seededRandom } from "./random-kit.ts";

export interface SaleShape {
  readonly parts: number;
  /** Service kits, each with some of the parts inside. */
  readonly kits: number;
  /** Share of parts offered in packs or with a least order as well as singly. */
  readonly packs: number;
  readonly tiers: 1 | 3;
  /** Longest logCdf kept; small for trying every kit. */
  readonly levels?: number;
  readonly meanMost?: number;
}

/** A service kit costs 0.7 to 1.3 times its contents at the single price. */
export function randomSale(shape: SaleShape, seed: number): SaleProblem {
  const random = seededRandom(seed);
  const whole = (low: number, high: number): number =>
    low + Math.floor(random() * (high - low + 1));
  const meanMost = shape.meanMost ?? 3;
  const price = Array.from({ length: shape.parts }, () => Math.round(200 * 250 ** random()));
  const parts = price.map(() => ({
    logCdf: poissonLogCdf(0.01 * (meanMost / 0.01) ** random()).slice(0, shape.levels),
    tier: (shape.tiers === 1 ? 0 : whole(0, 2)) as Tier,
  }));
  const uses = (cost: number, pieces: number): SaleOffer["uses"] => ({
    cost,
    mass: pieces * whole(5, 900),
    volume: pieces * whole(5, 400),
    pieces,
  });
  const offers: SaleOffer[] = parts.map((_, part) => ({
    contents: [{ part, pieces: 1 }],
    uses: uses(price[part] ?? 1, 1),
  }));
  parts.forEach((_, part) => {
    if (random() >= shape.packs) return;
    const pack = [2, 5, 10][whole(0, 2)] ?? 2;
    const each = (price[part] ?? 1) * (0.4 + 0.6 * random());
    offers.push({
      contents: [{ part, pieces: pack }],
      uses: uses(Math.ceil(pack * each), pack),
      ...(random() < 0.3 ? { least: 2 } : {}),
    });
  });
  for (let kit = 0; kit < shape.kits; kit++) {
    const inside = new Map<number, number>();
    for (let n = whole(2, 6); n > 0; n--) inside.set(whole(0, shape.parts - 1), whole(1, 3));
    const contents: Content[] = [...inside].map(([part, pieces]) => ({ part, pieces }));
    const worth = contents.reduce((sum, c) => sum + (price[c.part] ?? 0) * c.pieces, 0);
    const pieces = contents.reduce((sum, c) => sum + c.pieces, 0);
    offers.push({ contents, uses: uses(Math.round(worth * (0.3 + 0.9 * random())), pieces) });
  }
  return {
    parts,
    offers,
    targets: shape.tiers === 1 ? [0.95, undefined, undefined] : [0.99, 0.95, 0.8],
    objective: "cost",
    caps: {},
    aim: "least",
    weights: [1, 1, 0.25],
  };
}
