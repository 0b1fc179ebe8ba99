import { type Pmf, survival } from "../demand/pmf.ts";
import {
  addDemand,
  type ChainLink,
  chainLogSufficiency,
  logMet,
  overflow,
} from "../sufficiency/chain-sufficiency.ts";

/** A link of a supersession tree as something to stock: what is there already, what a piece costs. */
export interface StockedLink extends ChainLink {
  /** Pieces there already: usable stock and redundancy credit. */
  readonly base: number;
  /** Whole units of what is minimised, ≥ 0. */
  readonly unitCost: number;
  /** Whether it can be bought at all; a superseded part nobody offers any more cannot. */
  readonly buyable: boolean;
}

/** The ways of buying for a tree that no other way matches at less cost; step 0 buys nothing, or what is free. */
export interface ChainSteps {
  /** Rising strictly after step 0. */
  readonly cost: Float64Array;
  /** ln of the chance that every demand of the tree is met, rising strictly after step 0. */
  readonly logSufficiency: Float64Array;
  /** Pieces to buy of each link, per step. */
  readonly buys: readonly Int32Array[];
  /** False where too many ways had to be compared: the dearer old parts were then not bought at all. */
  readonly complete: boolean;
  /** Steps no way of buying beats; the same as `cost` and `logSufficiency` when complete. */
  readonly relaxed: {
    readonly cost: Float64Array;
    readonly logSufficiency: Float64Array;
  };
}

interface State {
  readonly cost: number;
  /** Demand this branch leaves to its successor. */
  readonly left: Pmf;
  readonly beyond: Float64Array;
  readonly buys: readonly (readonly [link: number, pieces: number])[];
}

/** Ways of buying for one branch kept at most. */
const mostStates = 1_000;

/**
 * Returns the undominated (cost, ln sufficiency) steps of a supersession tree.
 *
 * Minimise Σ c_v x_v over buys x with G(s + x) ≥ any given level, G of chain-sufficiency.ts. Proof of what is left
 * out: (1) a piece of v serves all that a piece of an older u does, so u is never bought where some newer v costs no
 * more; (2) of two ways of buying for a branch, the one that costs no more and leaves a demand stochastically no
 * greater is no worse in the whole tree, since sums and max(0, · - s) keep that order and G falls in it; (3) no way
 * is worth more than buying the newest alone for every demand that the arrays hold. What remains is enumerated, so no
 * concavity is needed: the steps go to `minimumKit` as one part with costs of its own.
 *
 * Source: Kettelle, Operations Research 10, 1962 (undominated sequences); own derivation of (1) to (3); oracle:
 * brute force over all buys, tests/properties.
 * Cost: the product of the levels of links of strictly falling price; mostly one or two of them are for sale. Where
 * a branch has more than 1 000 ways left, some of them spread over their cost go on and `complete` is false:
 * every step still is what it says, but a cheaper one may exist. `relaxed` then buys the newest at the least price of
 * any, which can only help, so it bounds what was not looked at.
 */
export function chainSteps(links: readonly StockedLink[]): ChainSteps {
  const worth = worthBuying(links);
  const { complete, ...found } = searchSteps(links, worth);
  if (complete) return { ...found, complete, relaxed: found };
  const least = Math.min(...worth.map((at) => links[at]?.unitCost ?? Number.POSITIVE_INFINITY));
  const relaxed = links.map((link) =>
    link.newer < 0 ? { ...link, unitCost: least, buyable: true } : { ...link, buyable: false },
  );
  return { ...found, complete, relaxed: searchSteps(relaxed, worthBuying(relaxed)) };
}

function worthBuying(links: readonly StockedLink[]): readonly number[] {
  // Newest first, so that what is newer has been settled: the least price from here on.
  const least = links.map(() => Number.POSITIVE_INFINITY);
  const worth: number[] = [];
  for (let at = links.length - 1; at >= 0; at--) {
    const link = links[at];
    if (link === undefined) continue;
    const onward = link.newer < 0 ? Number.POSITIVE_INFINITY : (least[link.newer] ?? 0);
    const isWorth = link.buyable && link.unitCost < onward;
    if (isWorth) worth.push(at);
    least[at] = isWorth ? link.unitCost : onward;
  }
  return worth.reverse();
}

function searchSteps(
  links: readonly StockedLink[],
  worth: readonly number[],
): Omit<ChainSteps, "relaxed"> {
  let complete = true;
  const thin = (states: readonly State[], most: number): readonly State[] => {
    if (states.length <= most) return states;
    complete = false;
    const every = states.length / most;
    const some = Array.from({ length: most }, (_, k) => states[Math.floor(k * every)]);
    return [...some, states.at(-1)].flatMap((state) => state ?? []);
  };
  const ceiling = dearestWorth(links, worth);
  const branches: (readonly State[] | undefined)[] = links.map(() => undefined);
  const nothing = links.map(() => 0);
  const steps: { cost: number; log: number; buys: Int32Array }[] = [];
  for (const [at, link] of links.entries()) {
    const arriving = branches[at];
    const asked: readonly State[] =
      arriving === undefined
        ? [stateOf(0, link.demand, [])]
        : arriving.map((state) =>
            stateOf(state.cost, addDemand(state.left, link.demand), state.buys),
          );
    const levelsEach = asked.reduce((most, state) => Math.max(most, state.left.mass.length), 1);
    const room = Math.max(1, Math.floor((20 * mostStates) / levelsEach));
    const levels = thin(asked, worth.includes(at) ? room : asked.length).flatMap((state) => {
      const most = worth.includes(at) ? Math.max(0, state.left.mass.length - 1 - link.base) : 0;
      const found: State[] = [];
      for (let bought = 0; bought <= most; bought++) {
        const cost = state.cost + bought * link.unitCost;
        if (cost > ceiling) break;
        const buys = bought === 0 ? state.buys : [...state.buys, [at, bought] as const];
        if (link.newer >= 0) {
          found.push(stateOf(cost, overflow(state.left, link.base + bought), buys));
          continue;
        }
        const vector = Int32Array.from(nothing);
        for (const [part, pieces] of buys) vector[part] = pieces;
        steps.push({ cost, log: logMet(state.left, link.base + bought), buys: vector });
      }
      return found;
    });
    if (link.newer < 0) continue;
    const branch = thin(undominated(levels), mostStates);
    const beside = branches[link.newer];
    if (beside === undefined) {
      branches[link.newer] = branch;
      continue;
    }
    const share = Math.min(1, Math.sqrt((20 * mostStates) / (beside.length * branch.length)));
    const few = (states: readonly State[]) => thin(states, Math.ceil(states.length * share));
    branches[link.newer] = undominated(joined(few(beside), few(branch), ceiling));
  }
  const none = chainLogSufficiency(links, (at) => links[at]?.base ?? 0);
  steps.sort((a, b) => a.cost - b.cost || b.log - a.log);
  const kept: typeof steps = [{ cost: 0, log: none, buys: Int32Array.from(nothing) }];
  for (const step of steps) if (step.log > (kept.at(-1)?.log ?? 0)) kept.push(step);
  // A free step takes the place of buying nothing.
  const from = kept.findLastIndex((step) => step.cost === 0);
  const used = kept.slice(Math.max(0, from));
  return {
    cost: Float64Array.from(used, (step) => step.cost),
    logSufficiency: Float64Array.from(used, (step) => step.log),
    buys: used.map((step) => step.buys),
    complete,
  };
}

function stateOf(cost: number, left: Pmf, buys: State["buys"]): State {
  return { cost, left, beyond: survival(left), buys };
}

/** Cost of the cheapest single-part way to meet every array whole: nothing dearer can do better. */
function dearestWorth(links: readonly StockedLink[], worth: readonly number[]): number {
  const newest = worth.at(-1);
  const length = links.reduce((sum, link) => sum + link.demand.mass.length - 1, 0);
  if (newest !== undefined && links[newest]?.newer === -1) {
    return length * (links[newest]?.unitCost ?? 0);
  }
  return Number.POSITIVE_INFINITY;
}

/** Every pair of ways for two branches that meet. */
function joined(one: readonly State[], other: readonly State[], ceiling: number): readonly State[] {
  return one.flatMap((a) =>
    other.flatMap((b) =>
      a.cost + b.cost > ceiling
        ? []
        : [stateOf(a.cost + b.cost, addDemand(a.left, b.left), [...a.buys, ...b.buys])],
    ),
  );
}

/** Ways that no way of at most their cost leaves at most as much after, cheapest first. */
function undominated(states: readonly State[]): readonly State[] {
  const order = [...states].sort(
    (a, b) => a.cost - b.cost || (a.beyond[0] ?? 0) - (b.beyond[0] ?? 0),
  );
  const kept: State[] = [];
  for (const state of order) {
    if (!kept.some((better) => leavesNoMore(better.beyond, state.beyond))) kept.push(state);
  }
  return kept;
}

const leavesNoMore = (one: Float64Array, other: Float64Array): boolean => {
  if (one.length > other.length) return false;
  for (let k = 0; k < one.length; k++) if ((one[k] ?? 0) > (other[k] ?? 0)) return false;
  return true;
};
