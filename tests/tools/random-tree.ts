import type { Pmf } from "../../api/scoring/demand/pmf.ts";
import { poissonDemand } from "../../api/scoring/demand/poisson-demand.ts";
import type { StockedLink } from "../../api/scoring/kit/chain-steps.ts";

const short = (mass: readonly number[]): Pmf => {
  const total = mass.reduce((sum, p) => sum + p, 0);
  return { mass: Float64Array.from(mass, (p) => p / total), tail: 0 };
};

/** A random supersession tree: older links first, the last one the newest; demands of a few pieces, lumpy or Poisson. */
export function randomTree(random: () => number, count: number, isPoisson = false): StockedLink[] {
  const below = (n: number): number => Math.floor(random() * n);
  return Array.from({ length: count }, (_, at) => ({
    demand: isPoisson
      ? poissonDemand(0.05 + random())
      : random() < 0.2
        ? short([1])
        : short(
            Array.from({ length: 1 + below(4) }, () => (random() < 0.3 ? 0 : random())).concat(
              random() + 0.1,
            ),
          ),
    newer: at === count - 1 ? -1 : at + 1 + below(count - 1 - at),
    base: random() < 0.5 ? 0 : below(3),
    unitCost: below(12) === 0 ? 0 : 1 + below(9),
    buyable: random() < 0.75,
  }));
}
