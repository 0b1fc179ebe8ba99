import type { Pmf } from "../demand/pmf.ts";
import type { TierTargets } from "../kit/kit-problem.ts";
import { minimumKit } from "../kit/minimum-kit.ts";
import type { DemandLine } from "../provision/demand-line.ts";
import { eachPartKit } from "../provision/each-part-kit.ts";
import type { Passage } from "../provision/passage.ts";
import { answerByRow, type ProvisionGroup, treeAsPart } from "../provision/provision-groups.ts";
import { logSufficiencyFrom, type VesselKit } from "../provision/vessel-kit.ts";
import type { Snapshot } from "../snapshot/snapshot.ts";
import { harderDemand } from "./harder-demand.ts";

/** What the kit becomes with one rate multiplied. */
export interface SwungKit {
  readonly factor: number;
  /** False: no stock reaches the tier's target any more. */
  readonly isFeasible: boolean;
  /** Change of the kit's cost, in units of the objective. */
  readonly cost: number;
  /** Change in pieces to buy. */
  readonly pieces: number;
  /** Rows whose buy changes. */
  readonly changes: readonly { readonly row: number; readonly from: number; readonly to: number }[];
}

/** One rate, halved and doubled. */
export interface RateSwing {
  readonly row: number;
  readonly line: DemandLine;
  readonly halved: SwungKit;
  readonly doubled: SwungKit;
}

/** A group as it is with other demands for some of its rows. */
export function groupWith(
  kit: VesselKit,
  group: ProvisionGroup,
  changed: ReadonlyMap<number, Pmf>,
): ProvisionGroup {
  if (!group.rows.some((row) => changed.has(row))) return group;
  if (group.links !== undefined) {
    const links = group.links.map((link, at) => ({
      ...link,
      demand: changed.get(group.rows[at] ?? -1) ?? link.demand,
    }));
    return { ...group, ...treeAsPart(links, group.part.tier) };
  }
  const [only] = group.rows;
  const row = kit.rows[only ?? -1];
  const pmf = changed.get(only ?? -1);
  if (row === undefined || pmf === undefined) return group;
  const logCdf = logSufficiencyFrom(pmf, row.usable + row.demand.credit);
  return { ...group, part: { ...group.part, logCdf } };
}

/** What a row's pieces cost in units of the objective. */
function unitCostOf(kit: Pick<VesselKit, "rows">, row: number): number {
  return kit.rows[row]?.part.unitCost ?? 0;
}

/**
 * Solves a kit again with the demands of some rows changed, and says what changes against the kit as it stands.
 * Only the tiers of those rows are solved: tiers have targets of their own.
 */
function swungKit(
  kit: VesselKit,
  targets: TierTargets,
  rule: "kit" | "each part",
  factor: number,
  changed: ReadonlyMap<number, Pmf>,
): SwungKit {
  const touched = kit.groups.filter((group) => group.rows.some((row) => changed.has(row)));
  const tiers = new Set(touched.map((group) => group.part.tier));
  const groups = kit.groups
    .filter((group) => tiers.has(group.part.tier))
    .map((group) => groupWith(kit, group, changed));
  const own = targets.map((target, tier) =>
    tiers.has(tier as 0 | 1 | 2) ? target : undefined,
  ) as unknown as TierTargets;
  const parts = groups.map((group) => group.part);
  const solved = rule === "kit" ? minimumKit({ parts, targets: own }) : eachPartKit(parts, own);
  const answer = answerByRow(solved, groups, kit.rows.length);
  const changes = groups
    .flatMap((group) => group.rows)
    .flatMap((row) => {
      const from = kit.rows[row]?.buy ?? 0;
      const to = answer.buys[row] ?? 0;
      return from === to ? [] : [{ row, from, to }];
    });
  return {
    factor,
    isFeasible: answer.status !== "infeasible",
    cost: changes.reduce((sum, { row, from, to }) => sum + (to - from) * unitCostOf(kit, row), 0),
    pieces: changes.reduce((sum, { from, to }) => sum + to - from, 0),
    changes,
  };
}

/**
 * Halves and doubles every failure rate by itself and solves the kit again at the same targets: the tornado of the
 * kit. A generator, so that the caller can show progress and stop; each step yields how many rates are done.
 *
 * @returns a swing per failure line of a part that can be replaced at sea, widest in cost first, then in pieces
 * Cost: two kit solutions of one tier per rate.
 * Source: METHODS, doubt: "which rates, halved or doubled, change the kit, and by what".
 */
export function* rateSwings(
  snapshot: Snapshot,
  kit: VesselKit,
  passage: Passage,
  targets: TierTargets,
  rule: "kit" | "each part",
): Generator<{ readonly done: number; readonly total: number }, readonly RateSwing[]> {
  const rates = kit.rows.flatMap((row, at) =>
    row.demand.lines
      .filter((line) => line.origin === "failure" && line.mean > 0)
      .map((line) => ({ row, at, line })),
  );
  const swings: RateSwing[] = [];
  for (const { row, at, line } of rates) {
    const [halved, doubled] = ([0.5, 2] as const).map((factor) => {
      const pmf = harderDemand(snapshot, row.demand, passage, (other) =>
        other === line ? factor : 1,
      );
      return swungKit(kit, targets, rule, factor, new Map([[at, pmf]]));
    });
    if (halved !== undefined && doubled !== undefined) {
      swings.push({ row: at, line, halved, doubled });
    }
    yield { done: swings.length, total: rates.length };
  }
  return swings.sort(widestFirst);
}

const span = ({ halved, doubled }: RateSwing, of: (kit: SwungKit) => number): number =>
  Math.abs(of(doubled) - of(halved));

/** Widest in cost first, then in pieces, then the most expected. */
export const widestFirst = (a: RateSwing, b: RateSwing): number =>
  span(b, (s) => s.cost) - span(a, (s) => s.cost) ||
  span(b, (s) => s.pieces) - span(a, (s) => s.pieces) ||
  b.line.mean - a.line.mean;
