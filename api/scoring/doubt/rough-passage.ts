import type { Passage } from "../provision/passage.ts";
import {
  type GroupedRow,
  groupLogSufficiency,
  type ProvisionGroup,
} from "../provision/provision-groups.ts";
import type { KitRow } from "../provision/vessel-kit.ts";
import type { Snapshot } from "../snapshot/snapshot.ts";
import { type GammaNodes, gammaNodes } from "./gamma-nodes.ts";
import { harderDemand } from "./harder-demand.ts";

/** The rows of a kit at every point of the factor. */
export interface RoughPassage {
  readonly nodes: GammaNodes;
  /** rows[node][row], with the demand of that roughness. */
  readonly rows: readonly (readonly GroupedRow[])[];
}

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
  return {
    nodes,
    rows: Array.from(nodes.point, (factor) =>
      rows.map(({ demand, usable }) => ({
        usable,
        demand: { ...demand, pmf: harderDemand(snapshot, demand, passage, () => factor) },
      })),
    ),
  };
}

/**
 * Returns the sufficiency of some groups under the factor: sum over its points of weight x product of their chances.
 *
 * @param pieces usable and bought pieces of each row; credit is added here
 */
export function roughSufficiency(
  { nodes, rows }: RoughPassage,
  groups: readonly ProvisionGroup[],
  pieces: (row: number) => number,
): number {
  let sum = 0;
  for (const [node, weight] of nodes.weight.entries()) {
    const own = rows[node] ?? [];
    const log = groups.reduce((total, group) => total + groupLogSufficiency(group, own, pieces), 0);
    sum += weight * Math.exp(log);
  }
  return Math.min(1, sum);
}
