import type { Supersession } from "../classes/supersession.ts";
import { type ChainSteps, chainSteps, type StockedLink } from "../kit/chain-steps.ts";
import type { KitAnswer, KitPart, TierAnswer } from "../kit/kit-problem.ts";
import { chainLogSufficiency } from "../sufficiency/chain-sufficiency.ts";
import { logSufficiencyAt } from "../sufficiency/log-sufficiency.ts";
import type { ClassDemand } from "./class-demand.ts";

/** What a group is reckoned from: a class's demand (its credit and tier settled) and the usable pieces of it. */
export interface GroupedRow {
  readonly demand: ClassDemand;
  readonly usable: number;
}

/** Rows of the kit that must be judged together: one class, or the classes of one supersession tree. */
export interface ProvisionGroup {
  /** Indices of the rows; in a tree older ones before the one that replaced them. */
  readonly rows: readonly number[];
  /** Per row, the place in `rows` of its successor; -1 where none. */
  readonly newer: readonly number[];
  /** The group as the kit solver sees it. */
  readonly part: KitPart;
  /** How to buy, where the group is a tree, and what that was reckoned from. */
  readonly steps?: ChainSteps;
  readonly links?: readonly StockedLink[];
}

/**
 * Returns the classes that stand together: each class that is asked for with whatever supersedes it, step by step.
 *
 * @param asked classes with demand of their own
 * @returns lists of classes, older before newer; classes tied to no other stand alone. O(classes asked × chain)
 */
export function classGroups(
  asked: readonly number[],
  supersession: Supersession,
): readonly (readonly number[])[] {
  const { newer } = supersession;
  const wanted = new Set<number>();
  const rootOf = (start: number): number => {
    let at = start;
    for (;;) {
      wanted.add(at);
      const next = newer[at] ?? -1;
      if (next < 0) return at;
      at = next;
    }
  };
  const trees = new Map<number, number[]>();
  for (const one of asked) rootOf(one);
  for (const one of [...wanted].sort((a, b) => a - b)) {
    const root = rootOf(one);
    const tree = trees.get(root);
    if (tree === undefined) trees.set(root, [one]);
    else tree.push(one);
  }
  return [...trees.values()].map((tree) => {
    if (tree.length === 1) return tree;
    const stepsToRoot = new Map<number, number>();
    const distance = (one: number): number => {
      let steps = 0;
      for (let at = newer[one] ?? -1; at >= 0; at = newer[at] ?? -1) steps++;
      return steps;
    };
    for (const one of tree) stepsToRoot.set(one, distance(one));
    return tree.sort((a, b) => (stepsToRoot.get(b) ?? 0) - (stepsToRoot.get(a) ?? 0) || a - b);
  });
}

/** `ln` of the chance that a group runs short of nothing with `pieces(row)` spares of each row, credit added. */
export function groupLogSufficiency(
  group: Pick<ProvisionGroup, "rows" | "newer">,
  rows: readonly GroupedRow[],
  pieces: (row: number) => number,
): number {
  const [only] = group.rows;
  if (group.rows.length === 1 && only !== undefined) {
    const row = rows[only];
    return row === undefined
      ? 0
      : logSufficiencyAt(row.demand.pmf, pieces(only) + row.demand.credit);
  }
  const links = group.rows.flatMap((index, at) => {
    const row = rows[index];
    return row === undefined ? [] : [{ demand: row.demand.pmf, newer: group.newer[at] ?? -1 }];
  });
  return chainLogSufficiency(links, (at) => {
    const index = group.rows[at] ?? -1;
    return pieces(index) + (rows[index]?.demand.credit ?? 0);
  });
}

/** A supersession tree as one part of the kit problem, priced by its undominated steps. */
export function treeAsPart(
  links: readonly StockedLink[],
  tier: 0 | 1 | 2,
): {
  readonly part: KitPart;
  readonly steps: ChainSteps;
  readonly links: readonly StockedLink[];
} {
  const steps = chainSteps(links);
  return {
    part: { logCdf: steps.logSufficiency, stepCost: steps.cost, unitCost: 0, tier },
    steps,
    links,
  };
}

/** The solver's answer over groups, told by row: what to buy of each, and the rows in the way of a target. */
export function answerByRow(
  answer: KitAnswer,
  groups: readonly ProvisionGroup[],
  rowCount: number,
): KitAnswer {
  const buys = new Int32Array(rowCount);
  groups.forEach((group, at) => {
    const bought = answer.buys[at] ?? 0;
    group.rows.forEach((row, place) => {
      buys[row] = group.steps === undefined ? bought : (group.steps.buys[bought]?.[place] ?? 0);
    });
  });
  const byRow = (tier: TierAnswer): TierAnswer => ({
    ...tier,
    blocking: tier.blocking.flatMap((at) => groups[at]?.rows ?? []),
  });
  return {
    ...answer,
    buys,
    tiers: [byRow(answer.tiers[0]), byRow(answer.tiers[1]), byRow(answer.tiers[2])],
  };
}
