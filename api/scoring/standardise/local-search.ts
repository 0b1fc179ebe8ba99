import { SearchState, type SingleMove } from "./search-state.ts";
import {
  type Assignment,
  keepAll,
  levelsOf,
  type StandardProblem,
  type StockLevels,
} from "./standard-problem.ts";

export interface LocalSearchLimits {
  readonly shouldStop?: () => boolean;
  readonly levels?: readonly StockLevels[];
  /** Where to start, within the budget; everything as it is when absent. */
  readonly start?: Assignment;
}

/**
 * Returns a good assignment of a standardising problem, never worse than where it starts, within the budget.
 *
 * Sweeps (every position that admits a model takes it: all of them, or those that draw on one stock, or of those only the
 * ones that have one certain other model) and single moves are made as long as any lowers the cost. Deterministic. It
 * proves nothing: the bound comes from the programme. Cost per pass O(moves × loads).
 */
export function localSearch(
  problem: StandardProblem,
  limits: LocalSearchLimits = {},
): Int32Array[] {
  const steps = searchSteps(problem, limits);
  let step = steps.next();
  while (!step.done) step = steps.next();
  return step.value;
}

/** The same, in small steps: other work may take its turn between two of them. */
export function* searchSteps(
  problem: StandardProblem,
  { shouldStop = () => false, levels = levelsOf(problem), start }: LocalSearchLimits = {},
): Generator<undefined, Int32Array[]> {
  const state = new SearchState(problem, start ?? keepAll(problem), levels);
  const places = placesOf(problem);
  for (let improved = true; improved && !shouldStop(); ) {
    improved = false;
    for (const groups of places) {
      for (const { from, to } of swapsWithin(problem, groups)) {
        if (shouldStop()) return state.taken();
        if (state.improve(sweepMoves(problem, state, groups, from, to))) improved = true;
      }
      yield undefined;
    }
    if (yield* singleMoves(problem, state, shouldStop)) improved = true;
  }
  return state.taken();
}

interface Swap {
  /** -1 for whatever is there. */
  readonly from: number;
  readonly to: number;
}

/** Sets of groups to sweep: all that admit a model, and those of them that draw on the same stock. */
function placesOf({ groups }: StandardProblem): readonly (readonly number[])[] {
  const byModel = new Map<string, number[]>();
  groups.forEach(({ options }, g) => {
    for (const { model, loads } of options) {
      for (const name of [`${model}`, `${model} ${loads[0]?.[0] ?? -1}`]) {
        const list = byModel.get(name);
        if (list === undefined) byModel.set(name, [g]);
        else list.push(g);
      }
    }
  });
  // Models of one kind stand in the same places: each place once.
  return [...new Map([...byModel.values()].map((list) => [list.join(" "), list])).values()];
}

function swapsWithin({ groups }: StandardProblem, within: readonly number[]): readonly Swap[] {
  const models = new Set<number>();
  for (const g of within) for (const { model } of groups[g]?.options ?? []) models.add(model);
  const list = [...models].sort((a, b) => a - b);
  return list.flatMap((to) => [
    { from: -1, to },
    ...list.filter((from) => from !== to).map((from) => ({ from, to })),
  ]);
}

/** Moves of everything (or of one model) in some groups to another model, as far as the budget goes. */
function sweepMoves(
  { groups, budget }: StandardProblem,
  state: SearchState,
  within: readonly number[],
  from: number,
  to: number,
): SingleMove[] {
  const moves: SingleMove[] = [];
  let { spent } = state;
  for (const group of within) {
    const options = groups[group]?.options ?? [];
    const target = options.findIndex(({ model }) => model === to);
    if (target < 0) continue;
    options.forEach(({ model, cost }, o) => {
      if (o === target || (from >= 0 && model !== from)) return;
      const extra = (options[target]?.cost ?? 0) - cost;
      const held = state.count(group, o);
      const afford = extra <= 0 ? held : Math.floor((budget - spent) / extra + 1e-9);
      const units = Math.min(held, Math.max(0, afford));
      if (units === 0) return;
      moves.push({ group, from: o, to: target, units });
      spent += units * extra;
    });
  }
  return moves;
}

/** Moves one position, or all of a group's option, while any move pays. */
function* singleMoves(
  problem: StandardProblem,
  state: SearchState,
  shouldStop: () => boolean,
): Generator<undefined, boolean> {
  let improvedEver = false;
  for (let improved = true; improved; ) {
    improved = false;
    for (const [group, { options }] of problem.groups.entries()) {
      if (shouldStop()) return improvedEver;
      if (group % 16 === 0) yield undefined;
      for (let from = 0; from < options.length; from++) {
        for (let to = 0; to < options.length; to++) {
          const held = state.count(group, from);
          if (to === from || held === 0) continue;
          for (const units of held > 1 ? [held, 1] : [1]) {
            if (state.improve([{ group, from, to, units }])) {
              improved = true;
              improvedEver = true;
              break;
            }
          }
        }
      }
    }
  }
  return improvedEver;
}
