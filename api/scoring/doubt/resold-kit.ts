import type { Pmf } from "../demand/pmf.ts";
import type { SoldKit } from "../provision/kit-sale.ts";
import { answerByRow } from "../provision/provision-groups.ts";
import { soldKit } from "../provision/sold-kit.ts";
import { type KitSettings, solveGroups, type VesselKit } from "../provision/vessel-kit.ts";
import type { Snapshot } from "../snapshot/snapshot.ts";
import { groupWith, type SwungKit } from "./rate-swings.ts";

/**
 * Solves a kit again as it is sold, with the demands of some rows changed, and says what changes against it.
 *
 * @param piece the kit every piece of which is bought singly, from which `kit` was made
 */
export function resoldKit(
  snapshot: Snapshot,
  settings: KitSettings,
  piece: VesselKit,
  kit: SoldKit,
  factor: number,
  changed: ReadonlyMap<number, Pmf>,
): SwungKit {
  const groups = piece.groups.map((group) => groupWith(piece, group, changed));
  const answer = answerByRow(solveGroups(groups, settings), groups, piece.rows.length);
  const rows = piece.rows.map((row, at) => {
    const pmf = changed.get(at) ?? row.demand.pmf;
    const own = groups[row.group];
    const part = own?.rows.length === 1 ? own.part : row.part;
    return { ...row, demand: { ...row.demand, pmf }, part, buy: answer.buys[at] ?? 0 };
  });
  const sold = soldKit(snapshot, settings, { ...piece, rows, groups, answer });
  const changes = sold.rows.flatMap(({ buy: to }, row) => {
    const from = kit.rows[row]?.buy ?? 0;
    return from === to ? [] : [{ row, from, to }];
  });
  return {
    factor,
    isFeasible: sold.answer.status !== "infeasible",
    cost: sold.answer.cost - kit.answer.cost,
    pieces: changes.reduce((sum, { from, to }) => sum + to - from, 0),
    changes,
  };
}
