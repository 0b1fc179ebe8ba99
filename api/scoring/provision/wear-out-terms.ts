import type { Pmf } from "../demand/pmf.ts";
import { poissonDemand } from "../demand/poisson-demand.ts";
import { renewalDemand } from "../demand/renewal-demand.ts";
import type { Snapshot } from "../snapshot/snapshot.ts";
import { ageAtDeparture } from "./piece-age.ts";

/** Lives in one exposure beyond which renewals are counted as Poisson. */
const mostLives = 20;

interface WearingPiece {
  readonly part: number;
  /** Mean life, hours. */
  readonly life: number;
  readonly shape: number;
  readonly quantity: number;
}

/**
 * Returns the wear-out demand of one line, a term per distinct age and exposure among its items.
 *
 * Items of one age and exposure share a renewal computation with quantity × items independent units. Where the
 * exposure holds more than 20 lives the renewals are taken as Poisson of the same mean: more spread for a shape of
 * 1 or above, hence never fewer spares.
 *
 * @param hours exposure of each item, hours, aligned with `items`
 */
export function wearOutTerms(
  snapshot: Snapshot,
  piece: WearingPiece,
  items: readonly number[],
  hours: readonly number[],
): { readonly terms: readonly Pmf[]; readonly tooShort: boolean } {
  const groups = new Map<string, { age: number | "unknown"; exposure: number; count: number }>();
  items.forEach((item, index) => {
    const age = ageAtDeparture(snapshot, item, piece.part, piece.life);
    const exposure = hours[index] ?? 0;
    const group = groups.get(`${age} ${exposure}`);
    if (group === undefined) groups.set(`${age} ${exposure}`, { age, exposure, count: 1 });
    else group.count += 1;
  });
  let tooShort = false;
  const terms = [...groups.values()].map(({ age, exposure, count }) => {
    const units = piece.quantity * count;
    if (exposure / piece.life > mostLives) {
      tooShort = true;
      return poissonDemand((units * exposure) / piece.life);
    }
    return renewalDemand({ meanLife: piece.life, shape: piece.shape, age, exposure, units });
  });
  return { terms, tooShort };
}
