import { type Pmf, survival } from "../demand/pmf.ts";
import type { Passage } from "../provision/passage.ts";
import type { KitRow } from "../provision/vessel-kit.ts";
import type { Snapshot } from "../snapshot/snapshot.ts";
import { type GammaNodes, gammaNodes } from "./gamma-nodes.ts";
import { harderDemand } from "./harder-demand.ts";

/** Ln Pr(D <= x) of every row at every point of the factor. */
export interface RoughPassage {
  readonly nodes: GammaNodes;
  /** logCdf[row][node][x]; beyond its end the last value holds. */
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
  const logCdf = rows.map((row) =>
    row.demand.lines.every((line) => line.origin === "service")
      ? Array.from(nodes.point, () => logCdfOf(row.demand.pmf))
      : Array.from(nodes.point, (factor) =>
          logCdfOf(harderDemand(snapshot, row.demand, passage, () => factor)),
        ),
  );
  return { nodes, logCdf };
}

/**
 * Returns the sufficiency of some rows under the factor: sum over its points of weight x product of F_p(pieces_p | g).
 *
 * @param rows indices into the rows prepared
 * @param pieces usable, credited and bought pieces of each row
 */
export function roughSufficiency(
  rough: RoughPassage,
  rows: readonly number[],
  pieces: (row: number) => number,
): number {
  let sum = 0;
  for (const [node, weight] of rough.nodes.weight.entries()) {
    let log = 0;
    for (const row of rows) {
      const curve = rough.logCdf[row]?.[node] ?? new Float64Array();
      log += curve[Math.min(pieces(row), curve.length - 1)] ?? 0;
    }
    sum += weight * Math.exp(log);
  }
  return Math.min(1, sum);
}
