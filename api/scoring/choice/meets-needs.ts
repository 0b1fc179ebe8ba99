import { type NeedName, type NeedRule, needNames, needOf } from "../../../graph-schema/index.ts";
import type { Snapshot } from "../snapshot/snapshot.ts";

/** One figure gear must meet in a position, and where it is known from. */
export interface PositionNeed {
  readonly name: NeedName;
  readonly rule: NeedRule;
  readonly value: number;
  /** Stated with the position, in the question, or read off the gear fitted there now. */
  readonly from: "position" | "question" | "gear fitted now";
}

/** Why a model cannot go into a position. */
export type Misfit =
  | { readonly kind: "category"; readonly needed: string; readonly has: string }
  | { readonly kind: "unstated"; readonly need: PositionNeed }
  | { readonly kind: "unmet"; readonly need: PositionNeed; readonly has: number };

/**
 * Returns what the gear in all of the given positions must meet: what the question states; else what each position
 * states; else, for needs that are inherited (graph-schema/needs.ts), what the gear fitted there now can do, so that nothing is replaced by something weaker unawares. Of
 * needs met by "at least" only the greatest stays. O(items × needs).
 */
export function positionNeeds(
  snapshot: Snapshot,
  items: readonly number[],
  asked: Partial<Readonly<Record<NeedName, number>>>,
): readonly PositionNeed[] {
  const found: PositionNeed[] = [];
  for (const name of needNames) {
    const { rule } = needOf(name);
    const stated = asked[name];
    const own: PositionNeed[] =
      stated !== undefined
        ? [{ name, rule, value: stated, from: "question" }]
        : items.flatMap((item) => needOfItem(snapshot, item, name, rule));
    if (rule === "equal") {
      found.push(...own.filter(({ value }, at) => own.findIndex((n) => n.value === value) === at));
    } else {
      const [most] = own.toSorted((a, b) => b.value - a.value);
      if (most !== undefined) found.push(most);
    }
  }
  return found;
}

function needOfItem(
  { items, models }: Snapshot,
  item: number,
  name: NeedName,
  rule: NeedRule,
): PositionNeed[] {
  const stated = items.needs[name][item] ?? Number.NaN;
  if (!Number.isNaN(stated)) return [{ name, rule, value: stated, from: "position" }];
  if (!needOf(name).inherits) return [];
  const fitted = models.can[name][items.model[item] ?? -1] ?? Number.NaN;
  return Number.isNaN(fitted) ? [] : [{ name, rule, value: fitted, from: "gear fitted now" }];
}

/** A hair, relative, so that a load converted from pounds meets the same load in kilograms. */
const hair = 1e-6;

/**
 * Returns every reason why a model cannot go where a category and needs are asked; none where it can. A figure the
 * model does not state does not meet a need: nothing is presumed.
 */
export function misfits(
  { models }: Snapshot,
  model: number,
  category: string,
  needs: readonly PositionNeed[],
): readonly Misfit[] {
  const has = models.category[model] ?? "";
  if (has.trim().toLowerCase() !== category.trim().toLowerCase()) {
    return [{ kind: "category", needed: category, has }];
  }
  return needs.flatMap((need): Misfit[] => {
    const value = models.can[need.name][model] ?? Number.NaN;
    if (Number.isNaN(value)) return [{ kind: "unstated", need }];
    const isMet =
      need.rule === "equal"
        ? Math.abs(value - need.value) <= hair * Math.abs(need.value)
        : value >= need.value * (1 - hair);
    return isMet ? [] : [{ kind: "unmet", need, has: value }];
  });
}
