import { convolve, cutTail, type Pmf } from "../demand/pmf.ts";

/** One part class of a supersession chain or tree, older ones before the one that replaced them. */
export interface ChainLink {
  readonly demand: Pmf;
  /** Place of the link that supersedes this one, greater than this link's own; -1 for the newest. */
  readonly newer: number;
}

/**
 * `ln Pr(every demand of a supersession tree is met)`, where a newer part also serves what it superseded.
 *
 *   O_v = max(0, D_v + Σ_(u superseded by v) O_u - s_v),   met = { O_newest = 0 }
 *
 * D_v demand of link v, s_v pieces of it, O_v what v leaves to its successor. Children are independent, so each O_v
 * is one convolution cut off at s_v: exact. For a chain old, new it is Pr(D_new ≤ s_new and D_old + D_new ≤ s_old +
 * s_new).
 *
 * Proof. Piece v serves exactly the demands of v and of all that lead to v. By Hall's theorem all demands can be
 * served if and only if D(U) ≤ s(U) for every set U of links closed under "newer". Unrolled, O_newest is the largest
 * of D(U) - s(U) over those U that hold the newest (each max(0, ·) is the choice to take u's branch into U or not),
 * and 0; so O_newest = 0 says the same. Taking the own part first and then the nearest newer one attains it in any
 * order of time: of the pieces that fit a demand the nearest serves the fewest others.
 * Source: P. Hall, On representatives of subsets, J. London Math. Soc. 10 (1935); own derivation of the tree form;
 * oracle: enumeration and Hall's condition, tests/properties.
 *
 * @param pieces pieces of each link, ≥ 0, whole; fewer links need not be bought to be given
 * @returns ln of the chance in [-Infinity, 0]; what the demands' tails leave out counts as unmet.
 * Cost O(links × length²).
 */
export function chainLogSufficiency(
  links: readonly ChainLink[],
  pieces: (link: number) => number,
): number {
  const inflow: (Pmf | undefined)[] = links.map(() => undefined);
  let log = 0;
  links.forEach((link, at) => {
    const asked = addDemand(inflow[at], link.demand);
    if (link.newer < 0) {
      log += logMet(asked, pieces(at));
      return;
    }
    inflow[link.newer] = addDemand(inflow[link.newer], overflow(asked, pieces(at)));
  });
  return log;
}

/** The sum of two independent demands, where either may be absent. */
export const addDemand = (one: Pmf | undefined, other: Pmf): Pmf =>
  one === undefined || (one.mass.length === 1 && one.tail === 0) ? other : convolve(one, other);

/** What `pieces` leave of a demand: `max(0, D - pieces)`. */
export function overflow(demand: Pmf, pieces: number): Pmf {
  if (pieces <= 0) return demand;
  const { mass, tail } = demand;
  const left = new Float64Array(Math.max(1, mass.length - pieces));
  for (let k = 0; k < mass.length; k += 1) {
    const at = Math.max(0, k - pieces);
    left[at] = (left[at] ?? 0) + (mass[k] ?? 0);
  }
  return cutTail(left, tail);
}

/** `ln Pr(D ≤ pieces)`, from whichever end is nearer one half. */
export function logMet({ mass, tail }: Pmf, pieces: number): number {
  let below = 0;
  for (let k = 0; k <= pieces && k < mass.length; k += 1) below += mass[k] ?? 0;
  if (below < 0.5) return Math.log(below);
  let beyond = tail;
  for (let k = mass.length - 1; k > pieces; k -= 1) beyond += mass[k] ?? 0;
  return Math.log1p(-Math.min(1, beyond));
}
