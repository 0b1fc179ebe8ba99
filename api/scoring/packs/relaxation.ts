import { breakSlope } from "../kit/break-slope.ts";
import { convexSteps } from "../kit/convex-steps.ts";
import { logTarget } from "../kit/log-target.ts";
import { type Budget, eachKitChoice, type KitChoice } from "./kit-choices.ts";
import type { SaleGroups } from "./sale-groups.ts";
import type { SaleProblem } from "./sale-problem.ts";
import { joinLevels, partLevels, priceTable } from "./tier-levels.ts";

/** The bound by multipliers: what the problem costs at least when loss is priced instead of limited. */
export interface Relaxation {
  /** No purchase costs less. */
  readonly bound: number;
  /** Per group the least of its share of the bound, and the counts of kits that give it. */
  readonly least: readonly number[];
  readonly choices: readonly Int32Array[];
  /** Per tier: what its parts not tied to kits add to the bound, less its multiplier × loss allowed. */
  readonly shares: readonly number[];
  /** Price tables of the parts tied to kits, at these multipliers. */
  readonly table: (part: number) => Float64Array;
  /** Rounding allowance on the bound and on sums of it. */
  readonly slack: number;
}

const SWEEPS = 3;
const HALVINGS = 18;

/**
 * Returns the bound at good multipliers, one per tier, found by halving on each tier in turn.
 *
 * The bound is concave in the multipliers, and its slope in m_t is (loss of the choices) - (loss allowed), falling
 * in m_t; halving finds where it changes sign. In turn over the tiers this need not end at the best multipliers where
 * kits tie tiers together; any multipliers give a valid bound, and the best seen is kept.
 * O(sweeps × halvings × levels).
 */
export function bestMultipliers(
  problem: SaleProblem,
  groups: SaleGroups,
  budget: Budget,
): Relaxation | undefined {
  const { parts, targets } = problem;
  const tied = new Set(groups.groups.flatMap((group) => group.parts));
  const held = Int32Array.from(parts, (part) => part.held ?? 0);
  const allowed = targets.map((target) => (target === undefined ? 0 : -logTarget(target)));
  const alone = ([0, 1, 2] as const).map((tier) =>
    targets[tier] === undefined
      ? []
      : parts.flatMap((part, p) => {
          const cover = groups.covers[p];
          if (part.tier !== tier || tied.has(p) || cover === undefined) return [];
          return [partLevels(part, cover, groups.last[p] ?? 0, held[p] ?? 0)];
        }),
  );
  if (alone.some((tier) => tier.some((levels) => levels.gain.length === 0))) return undefined;

  let previous: readonly Int32Array[] = [];
  const evaluate = (m: readonly number[]) => {
    const tables = new Map(
      [...tied].flatMap((p) => {
        const part = parts[p];
        return part === undefined
          ? []
          : [[p, priceTable(part, groups, p, m[part.tier] ?? 0)] as const];
      }),
    );
    const table = (p: number): Float64Array => tables.get(p)?.value ?? new Float64Array(1);
    const loss = [0, 0, 0];
    const shares = [0, 0, 0];
    let bound = 0;
    let size = 0;
    alone.forEach((tier, t) => {
      const price = m[t] ?? 0;
      for (const levels of tier) {
        let least = Infinity;
        let here = 0;
        for (let j = 0; j < levels.cost.length; j++) {
          const value = (levels.cost[j] ?? 0) + price * (levels.loss[j] ?? 0);
          if (value < least) {
            least = value;
            here = levels.loss[j] ?? 0;
          }
        }
        bound += least;
        size += least;
        shares[t] = (shares[t] ?? 0) + least;
        loss[t] = (loss[t] ?? 0) + here;
      }
    });
    const least: number[] = [];
    const choices: Int32Array[] = [];
    for (const [g, group] of groups.groups.entries()) {
      let best: KitChoice | undefined;
      eachKitChoice(
        group,
        held,
        groups.last,
        table,
        () => best?.value ?? Infinity,
        (choice) => {
          if (best === undefined || choice.value < best.value) best = choice;
        },
        budget,
        previous[g],
      );
      if (best === undefined || budget.left <= 0) return undefined;
      const counts = best.units;
      bound += best.value;
      size += Math.abs(best.value);
      least.push(best.value);
      choices.push(counts);
      for (const p of group.parts) {
        const gained = group.kits.reduce((sum, kit, k) => {
          const content = kit.contents.find((c) => c.part === p);
          return sum + (content?.pieces ?? 0) * (counts[k] ?? 0);
        }, held[p] ?? 0);
        const at = Math.min(gained, groups.last[p] ?? 0);
        const tier = parts[p]?.tier ?? 0;
        loss[tier] = (loss[tier] ?? 0) + (tables.get(p)?.loss[at] ?? 0);
      }
    }
    allowed.forEach((limit, t) => {
      bound -= (m[t] ?? 0) * limit;
      size += (m[t] ?? 0) * limit;
      shares[t] = (shares[t] ?? 0) - (m[t] ?? 0) * limit;
    });
    previous = choices;
    return { bound, least, choices, table, shares, loss, slack: 1e-7 + size * 1e-12 };
  };

  const used = ([0, 1, 2] as const).filter((t) => targets[t] !== undefined);
  const multipliers = [0, 0, 0];
  for (const t of used) multipliers[t] = startSlope(problem, groups, held, t, allowed[t] ?? 0);
  let best = evaluate(multipliers);
  if (best === undefined) return undefined;
  for (let sweep = 0; sweep < (used.length > 1 ? SWEEPS : 1); sweep++) {
    const before = best.bound;
    for (const t of used) {
      let low = (multipliers[t] ?? 1) / (sweep === 0 ? 64 : 4);
      let high = (multipliers[t] ?? 1) * (sweep === 0 ? 64 : 4);
      let kept = multipliers[t] ?? 1;
      for (let turn = 0; turn < HALVINGS; turn++) {
        const middle = Math.sqrt(low * high);
        multipliers[t] = middle;
        const here = evaluate(multipliers);
        if (here === undefined) return undefined;
        if (here.bound > best.bound) {
          best = here;
          kept = middle;
        }
        if ((here.loss[t] ?? 0) > (allowed[t] ?? 0)) low = middle;
        else high = middle;
      }
      multipliers[t] = kept;
    }
    if (best.bound - before <= 0.5) break;
  }
  return best;
}

/** The multiplier at which the tier's parts, bought by themselves, just reach its target: where halving starts. */
function startSlope(
  { parts }: SaleProblem,
  { covers, last }: SaleGroups,
  held: Int32Array,
  tier: 0 | 1 | 2,
  allowed: number,
): number {
  const own = parts.flatMap((part, p) => {
    const cover = covers[p];
    if (part.tier !== tier || cover === undefined) return [];
    const levels = partLevels(part, cover, last[p] ?? 0, held[p] ?? 0);
    return levels.gain.length === 0 ? [] : [levels];
  });
  const levels = joinLevels(
    own.map((_, k) => k),
    own,
  );
  const steps = convexSteps(levels);
  const need = own.reduce((sum, part) => sum + (part.loss[0] ?? 0), -allowed);
  return Math.max(1e-9, breakSlope(steps.slope, steps.gain, Math.max(0, need)));
}
