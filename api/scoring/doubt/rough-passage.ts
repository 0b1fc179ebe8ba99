import { type Pmf, pointMass, survival } from "../demand/pmf.ts";
import type { Passage } from "../provision/passage.ts";
import type { ProvisionGroup } from "../provision/provision-groups.ts";
import type { KitRow, VesselKit } from "../provision/vessel-kit.ts";
import type { Snapshot } from "../snapshot/snapshot.ts";
import { chainLogSufficiency } from "../sufficiency/chain-sufficiency.ts";
import { type GammaNodes, gammaNodes } from "./gamma-nodes.ts";
import { harderDemand } from "./harder-demand.ts";

/** The demands of every row at every point of the factor. */
export interface RoughPassage {
  readonly nodes: GammaNodes;
  /** demands[node][row]. */
  readonly demands: readonly (readonly Pmf[])[];
  /** logCdf[node][row][x] = ln Pr(D <= x); beyond its end the last value holds. */
  readonly logCdf: readonly (readonly Float64Array[])[];
}

const logCdfOf = (pmf: Pmf): Float64Array => survival(pmf).map((short) => Math.log1p(-short));

/**
 * Prepares the rows of a kit for a passage whose roughness G multiplies every failure rate alike.
 *
 * @param shape of the gamma factor G, mean 1, variance 1 / shape
 * Cost: one demand computation of the whole vessel per node (48).
 * Source: METHODS, doubt: "one gamma multiplier (mean 1) shared by all demands in a crossing".
 */
export function roughPassage(
  snapshot: Snapshot,
  rows: readonly KitRow[],
  passage: Passage,
  shape: number,
): RoughPassage {
  const nodes = gammaNodes(shape);
  const demands = Array.from(nodes.point, (factor) =>
    rows.map((row) =>
      row.demand.lines.every((line) => line.origin === "service")
        ? row.demand.pmf
        : harderDemand(snapshot, row.demand, passage, () => factor),
    ),
  );
  return { nodes, demands, logCdf: demands.map((own) => own.map(logCdfOf)) };
}

/**
 * Returns the sufficiency of some groups under the factor: sum over its points of weight x product of their chances.
 *
 * @param pieces usable and bought pieces of each row; credit is added here
 */
export function roughSufficiency(
  rough: RoughPassage,
  kit: Pick<VesselKit, "rows">,
  groups: readonly ProvisionGroup[],
  pieces: (row: number) => number,
): number {
  let sum = 0;
  for (const [node, weight] of rough.nodes.weight.entries()) {
    let log = 0;
    for (const group of groups) {
      const [only] = group.rows;
      if (group.rows.length === 1 && only !== undefined) {
        const curve = rough.logCdf[node]?.[only] ?? new Float64Array();
        const stock = pieces(only) + (kit.rows[only]?.demand.credit ?? 0);
        log += curve[Math.min(stock, curve.length - 1)] ?? 0;
        continue;
      }
      const links = group.rows.map((row, at) => ({
        demand: rough.demands[node]?.[row] ?? pointMass(0),
        newer: group.newer[at] ?? -1,
      }));
      log += chainLogSufficiency(links, (at) => {
        const row = group.rows[at] ?? -1;
        return pieces(row) + (kit.rows[row]?.demand.credit ?? 0);
      });
    }
    sum += weight * Math.exp(log);
  }
  return Math.min(1, sum);
}
