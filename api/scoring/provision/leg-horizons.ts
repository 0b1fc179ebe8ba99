import { chance, requireNumber } from "../demand/require-number.ts";

/**
 * The chances that what is carried from one port must last exactly 1, 2, ... legs, until more can be had.
 *
 *   w_k = r^[k can be had] Π_(j < k) (1 - r)^[j can be had],   k = 1 .. n - 1;   w_n = what is left
 *
 * k counts legs from the departure; "can be had" after leg k says whether the port there supplies it within the stay; r is
 * the chance that what was asked for there has come when the vessel sails. The last leg always ends the need.
 *
 * @param hadAfter for each leg but the last, whether its port supplies the part
 * @param reliability r in [0, 1]
 * @returns one chance per leg, summing to 1. O(legs). Source: METHODS, section 3, resupply legs; own derivation.
 */
export function horizonChances(
  hadAfter: readonly boolean[],
  reliability: number,
): readonly number[] {
  requireNumber("The reliability of delivery", reliability, chance);
  let reached = 1;
  const chances = hadAfter.map((had) => {
    const ends = had ? reached * reliability : 0;
    reached -= ends;
    return ends;
  });
  return [...chances, reached];
}
