import { kitFrontier } from "../kit/frontier.ts";
import type { VesselKit } from "../provision/vessel-kit.ts";

/**
 * Returns what protection costs at the margin in today's kit, per tier: minor units per unit of ln sufficiency, the slope
 * of the last step on the convex frontier that the target needs. A tier that needs no buying takes the slope of its first
 * step; one without parts, the median of the others. Infinity where nothing has a price.
 * Source: Everett 1963 (frontier.ts).
 */
export function pricesOfProtection(
  kit: VesselKit,
  targets: readonly [number | undefined, number | undefined, number | undefined],
): readonly [number, number, number] {
  const slopes = ([0, 1, 2] as const).map((tier) => {
    const parts = kit.groups.map(({ part }) => part).filter((part) => part.tier === tier);
    if (parts.length === 0) return undefined;
    const frontier = kitFrontier(parts);
    const target = targets[tier] ?? 0;
    const reached = frontier.sufficiency.findIndex((value) => value >= target);
    const step = reached < 0 ? frontier.slope.length - 1 : Math.max(0, reached - 1);
    const slope = frontier.slope[step];
    return slope !== undefined && slope > 0 ? slope : undefined;
  });
  const known = slopes.filter((slope) => slope !== undefined).sort((a, b) => a - b);
  const median = known[Math.floor(known.length / 2)] ?? Number.POSITIVE_INFINITY;
  return [slopes[0] ?? median, slopes[1] ?? median, slopes[2] ?? median];
}
