import { kitFrontier } from "../kit/frontier.ts";
import type { VesselKit } from "../provision/vessel-kit.ts";

/**
 * Returns the kit on the convex frontier over all tiers that costs no more than a sum of money: of the kits proven
 * surest for their own cost the dearest within it. Pieces to buy by row of the kit; cost in minor units.
 *
 * All tiers are weighed alike: the kit maximises the chance that no part at all runs short, not the tiers' targets.
 * Source: frontier.ts (Everett 1963); METHODS, function survival at equal spend.
 */
export function kitWithinSpend(
  kit: VesselKit,
  spend: number,
): { readonly buys: Int32Array; readonly cost: number } {
  const frontier = kitFrontier(kit.groups.map(({ part }) => part));
  const buys = new Int32Array(kit.rows.length);
  if ((frontier.cost[0] ?? 0) > spend) return { buys, cost: 0 };
  let last = 0;
  for (let k = 1; k < frontier.cost.length; k++) {
    if ((frontier.cost[k] ?? Number.POSITIVE_INFINITY) > spend) break;
    last = k;
  }
  const steps = frontier.buysAt(last);
  kit.groups.forEach((group, at) => {
    const step = steps[at] ?? 0;
    group.rows.forEach((row, place) => {
      buys[row] = group.steps === undefined ? step : (group.steps.buys[step]?.[place] ?? 0);
    });
  });
  return { buys, cost: frontier.cost[last] ?? 0 };
}
