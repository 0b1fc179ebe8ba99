import type { KitAnswer as KitDocument } from "../../contract/kit.contract.ts";
import { kitFrontier } from "../../scoring/kit/frontier.ts";
import type { VesselKit } from "../../scoring/provision/vessel-kit.ts";

const mostPoints = 160;
/** Beyond this the curve is flat to any eye; below it every kit is shown. */
const sureEnough = 0.99999;

/** Per tier, the kits proven least for their own sufficiency, thinned evenly where there are very many. */
export function tierFrontiers(kit: VesselKit): KitDocument["frontier"] {
  return { safety: frontierOf(kit, 0), passage: frontierOf(kit, 1), comfort: frontierOf(kit, 2) };
}

function frontierOf(kit: VesselKit, tier: 0 | 1 | 2): KitDocument["frontier"]["safety"] {
  const groups = kit.groups.filter((group) => group.part.tier === tier);
  if (groups.length === 0) return [];
  const curve = kitFrontier(groups.map((group) => group.part));
  const piecesAt = (group: number, step: number): number =>
    groups[group]?.steps?.buys[step]?.reduce((sum, n) => sum + n, 0) ?? step;
  const held = Int32Array.from(curve.buysAt(0));
  let pieces = held.reduce((sum, step, group) => sum + piecesAt(group, step), 0);
  const points: KitDocument["frontier"]["safety"] = [];
  for (let k = 0; k < curve.cost.length; k++) {
    if (k > 0) {
      const group = curve.part[k - 1] ?? 0;
      const now = curve.pieces[k - 1] ?? 0;
      pieces += piecesAt(group, now) - piecesAt(group, held[group] ?? 0);
      held[group] = now;
    }
    points.push({ cost: curve.cost[k] ?? 0, sufficiency: curve.sufficiency[k] ?? 0, pieces });
    if ((curve.sufficiency[k] ?? 0) > sureEnough) break;
  }
  const every = Math.max(1, Math.ceil(points.length / mostPoints));
  return points.filter((_, k) => k % every === 0 || k === points.length - 1);
}
