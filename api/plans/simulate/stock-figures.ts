import type { SimulationAnswer } from "../../contract/simulation.contract.ts";
import {
  shortOfRow,
  tierLogSufficiency,
  type VesselKit,
} from "../../scoring/provision/vessel-kit.ts";
import type { CrossingTally, StockTally } from "../../scoring/simulation/crossing-tally.ts";
import { wilsonInterval } from "../../scoring/simulation/wilson-interval.ts";

type Compared = SimulationAnswer["tiers"][number]["withKit"];
type Survival = SimulationAnswer["functions"][number]["withKit"];

/** The figures of one stock, simulated beside computed. */
export interface StockFigures {
  tier(tier: 0 | 1 | 2): Compared;
  partShort(row: number): Compared;
  survival(f: number, computed: number, computedAtMost: number): Survival;
  readonly means: SimulationAnswer["kit"];
}

/** Rounding of the formulas' sums, far below any interval. */
const rounding = 1e-9;

/** @param pieces spares of the stock per row of the kit */
export function stockFigures(
  kit: VesselKit,
  tally: CrossingTally,
  stock: StockTally,
  pieces: Int32Array,
): StockFigures {
  const { crossings } = tally;
  const kept = (lost: number) => wilsonInterval(crossings - lost, crossings);
  const compare = (simulated: Compared["simulated"], computed: number): Compared => ({
    simulated,
    computed,
    inside: computed >= simulated.low - rounding && computed <= simulated.high + rounding,
  });
  return {
    tier: (tier) => {
      const log = tierLogSufficiency(kit, tier, (at) => pieces[at] ?? 0);
      return compare(kept(stock.tierShort[tier] ?? 0), Math.exp(log));
    },
    partShort: (at) => {
      const computed = shortOfRow(kit, at, (row) => pieces[row] ?? 0);
      return compare(wilsonInterval(stock.partShort[at] ?? 0, crossings), computed);
    },
    survival: (f, computed, computedAtMost) => ({
      asCounted: kept(stock.lostAsCounted[f] ?? 0),
      asLived: kept(stock.lostAsLived[f] ?? 0),
      computed,
      computedAtMost,
    }),
    means: {
      itemsStopped: stock.itemsStopped / crossings,
      piecesRobbed: stock.piecesRobbed / crossings,
    },
  };
}
