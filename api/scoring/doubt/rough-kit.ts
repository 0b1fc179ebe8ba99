import type { TierTargets } from "../kit/kit-problem.ts";
import { minimumKit } from "../kit/minimum-kit.ts";
import { answerByRow } from "../provision/provision-groups.ts";
import type { VesselKit } from "../provision/vessel-kit.ts";
import { type RoughPassage, roughSufficiency } from "./rough-passage.ts";

/** A kit that keeps its targets on rough passages. */
export interface RoughKit {
  /** Pieces to buy per row; as in the plain kit where a tier cannot be reached. */
  readonly buys: readonly number[];
  /** Per tier, the target that was asked of plain passages; undefined where none reaches. */
  readonly nominal: readonly (number | undefined)[];
}

const steps = 24;
const highest = 1 - 1e-9;

/**
 * Finds, per tier, the lowest target for plain passages whose least kit still reaches the tier's own target when one
 * gamma factor multiplies all failure rates, by bisection on ln(1 - target).
 *
 * The answer is a kit that reaches the target (checked), least for its plain target; it is not proven least for rough
 * passages, where parts are no longer independent and the exact method does not hold.
 */
export function roughKit(kit: VesselKit, rough: RoughPassage, targets: TierTargets): RoughKit {
  const buys = kit.rows.map((row) => row.buy);
  const nominal = targets.map((target, tier): number | undefined => {
    if (target === undefined) return undefined;
    const groups = kit.groups.filter((group) => group.part.tier === tier);
    const rows = groups.flatMap((group) => group.rows);
    const parts = groups.map((group) => group.part);
    const solve = (plain: number): readonly number[] | "short" | "infeasible" => {
      const asked = [0, 1, 2].map((t) =>
        t === tier ? plain : undefined,
      ) as unknown as TierTargets;
      const solved = minimumKit({ parts, targets: asked });
      if (solved.status === "infeasible") return "infeasible";
      const bought = answerByRow(solved, groups, kit.rows.length).buys;
      const reached = roughSufficiency(
        rough,
        groups,
        (row) => (kit.rows[row]?.usable ?? 0) + (bought[row] ?? 0),
      );
      return reached >= target ? rows.map((row) => bought[row] ?? 0) : "short";
    };
    const keep = (found: readonly number[]): void => {
      rows.forEach((row, at) => {
        buys[row] = found[at] ?? 0;
      });
    };
    const plain = solve(target);
    if (plain === "infeasible") return undefined;
    if (plain !== "short") {
      keep(plain);
      return target;
    }
    let found: { at: number; buys: readonly number[] } | undefined;
    let low = Math.log1p(-target);
    let high = Math.log1p(-highest);
    for (let step = 0; step < steps; step++) {
      const middle = (low + high) / 2;
      const asked = -Math.expm1(middle);
      const answer = solve(asked);
      if (answer === "short") low = middle;
      else high = middle;
      if (answer !== "short" && answer !== "infeasible") found = { at: asked, buys: answer };
    }
    if (found === undefined) return undefined;
    keep(found.buys);
    return found.at;
  });
  return { buys, nominal };
}
