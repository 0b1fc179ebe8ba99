import type { RoughKit } from "../../scoring/doubt/rough-kit.ts";
import { type RoughPassage, roughSufficiency } from "../../scoring/doubt/rough-passage.ts";
import type { TierTargets } from "../../scoring/kit/kit-problem.ts";
import type { SoldKit } from "../../scoring/provision/kit-sale.ts";
import { answerByRow } from "../../scoring/provision/provision-groups.ts";
import {
  type KitSettings,
  solveGroups,
  type VesselKit,
} from "../../scoring/provision/vessel-kit.ts";

/** The kit for rough passages as it is sold; `nominal` per tier the target asked of plain passages, undefined where none reaches. */
export interface RoughSold {
  readonly kit: SoldKit;
  readonly nominal: readonly (number | undefined)[];
}

const mostTries = 40;
const highest = 1 - 1e-9;

/**
 * Buys the kit for rough passages as it is sold: at the plain targets that keep the tiers' own by the piece; where packs and
 * service kits then fall short of one on rough passages, its plain target is raised a fifth of the way to 1 and tried again.
 *
 * @param piece the kit every piece of which is bought singly
 */
export async function roughSold(
  piece: VesselKit,
  found: RoughKit,
  rough: RoughPassage,
  settings: KitSettings,
  asSold: (piece: VesselKit, settings: KitSettings) => Promise<SoldKit>,
): Promise<RoughSold> {
  const nominal = [...found.nominal];
  for (let tries = 0; ; tries++) {
    const [safety, passage, comfort] = settings.targets.map((target, t) => nominal[t] ?? target);
    const targets: TierTargets = [safety, passage, comfort];
    const own = { ...settings, targets };
    const answer = answerByRow(solveGroups(piece.groups, own), piece.groups, piece.rows.length);
    const rows = piece.rows.map((row, at) => ({ ...row, buy: answer.buys[at] ?? 0 }));
    const kit = await asSold({ ...piece, rows, answer }, own);
    const short = ([0, 1, 2] as const).filter((tier) => {
      const groups = piece.groups.filter((group) => group.part.tier === tier);
      const carried = (at: number): number =>
        (kit.rows[at]?.usable ?? 0) + (kit.rows[at]?.buy ?? 0);
      return (
        nominal[tier] !== undefined &&
        groups.length > 0 &&
        roughSufficiency(rough, groups, carried) < (settings.targets[tier] ?? 0)
      );
    });
    if (short.length === 0) return { kit, nominal };
    for (const tier of short) {
      const raised = 1 - (1 - (nominal[tier] ?? 0)) * 0.8;
      nominal[tier] = tries >= mostTries || raised > highest ? undefined : raised;
    }
  }
}
