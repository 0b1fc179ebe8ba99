import type { FittedKits } from "../../scoring/choice/fitted-kits.ts";
import type { TierTargets } from "../../scoring/kit/kit-problem.ts";
import type { Passage } from "../../scoring/provision/passage.ts";
import { imagine } from "../../scoring/snapshot/imagine.ts";
import type { Snapshot } from "../../scoring/snapshot/snapshot.ts";
import type { BoundFleet } from "../../scoring/standardise/bind-fleet.ts";
import {
  type Assignment,
  kitsNeeded,
  type StandardProblem,
  suppliersNeeded,
} from "../../scoring/standardise/standard-problem.ts";

/** A vessel whose kits can be solved with other gear fitted. */
export interface FleetVessel {
  readonly row: number;
  readonly snapshot: Snapshot;
  readonly passage: Passage;
  readonly targets: TierTargets;
  readonly kits: FittedKits;
}

/** Items of one model on one vessel that all change to one other. */
export interface FleetMove {
  readonly vessel: number;
  readonly from: number;
  readonly to: number;
  readonly items: readonly number[];
  /** Minor units. */
  readonly cost: number;
}

/** What a set of moves leaves to be paid, kits solved exactly. */
export interface FleetFigures {
  /** Undefined where some vessel's targets are out of reach. */
  readonly kit: number | undefined;
  readonly kits: number;
  readonly suppliers: number;
  /** Minor units a year. */
  readonly yearly: number;
  readonly change: number;
  readonly total: number | undefined;
}

/** The moves an assignment stands for, in order of vessel and model. */
export function movesOf(snapshot: Snapshot, bound: BoundFleet, taken: Assignment): FleetMove[] {
  const moves = new Map<
    string,
    { move: Omit<FleetMove, "items" | "cost">; items: number[]; cost: number }
  >();
  bound.problem.groups.forEach(({ options }, g) => {
    const items = bound.items[g] ?? [];
    let next = 0;
    options.forEach(({ model, cost }, o) => {
      const count = taken[g]?.[o] ?? 0;
      const own = items.slice(next, next + count);
      next += count;
      if (o === 0 || count === 0) return;
      const vessel = snapshot.items.vessel[own[0] ?? 0] ?? -1;
      const from = options[0]?.model ?? -1;
      const name = `${vessel} ${from} ${model}`;
      const known = moves.get(name) ?? { move: { vessel, from, to: model }, items: [], cost: 0 };
      known.items.push(...own);
      known.cost += cost * count;
      moves.set(name, known);
    });
  });
  return [...moves.values()].map(({ move, items, cost }) => ({
    ...move,
    items: items.sort((a, b) => a - b),
    cost,
  }));
}

/** Reckons sets of moves exactly: each vessel's kit solved again at its targets, once for each set. */
export class FleetReckoner {
  readonly #vessels: ReadonlyMap<number, FleetVessel>;
  readonly #bound: BoundFleet;
  readonly #charges: { readonly kit: number; readonly supplier: number; readonly years: number };
  readonly #kitCosts = new Map<string, number | undefined>();
  readonly #groupOf = new Map<number, number>();
  #isProven = true;

  constructor(
    vessels: readonly FleetVessel[],
    bound: BoundFleet,
    charges: { readonly kit: number; readonly supplier: number; readonly years: number },
  ) {
    this.#vessels = new Map(vessels.map((vessel) => [vessel.row, vessel]));
    this.#bound = bound;
    this.#charges = charges;
    bound.items.forEach((items, g) => {
      for (const item of items) this.#groupOf.set(item, g);
    });
  }

  /** False once some kit's service kits were too entangled for the fast methods: its cost is the best found. */
  get isProven(): boolean {
    return this.#isProven;
  }

  /** Cost of one vessel's least kit with some moves made; undefined where its targets are out of reach. */
  kitCost(row: number, moves: readonly FleetMove[]): number | undefined {
    const own = moves.filter(({ vessel }) => vessel === row);
    const replace = own
      .flatMap(({ items, to }) => items.map((item) => ({ item, model: to })))
      .sort((a, b) => a.item - b.item);
    const name = `${row}:${replace.map(({ item, model }) => `${item}>${model}`).join(" ")}`;
    if (this.#kitCosts.has(name)) return this.#kitCosts.get(name);
    const vessel = this.#vessels.get(row);
    if (vessel === undefined) return undefined;
    const { snapshot, passage, targets, kits } = vessel;
    const fitted =
      replace.length === 0
        ? snapshot
        : imagine(snapshot, { replace, fittedOnDay: passage.departsDay });
    const { answer, sale } = kits.kitOf(
      fitted,
      replace.map(({ item }) => item),
      passage,
      targets,
    );
    if (!sale.isSettled) this.#isProven = false;
    const cost = answer.status === "infeasible" ? undefined : answer.cost;
    this.#kitCosts.set(name, cost);
    return cost;
  }

  figures(moves: readonly FleetMove[]): FleetFigures {
    let kit: number | undefined = 0;
    for (const row of this.#vessels.keys()) {
      const own = this.kitCost(row, moves);
      kit = kit === undefined || own === undefined ? undefined : kit + own;
    }
    const { problem } = this.#bound;
    const needed = kitsNeeded(problem, this.#assignment(problem, moves));
    const kits = needed.filter(Boolean).length;
    const suppliers = suppliersNeeded(problem, needed).count;
    const yearly = kits * this.#charges.kit + suppliers * this.#charges.supplier;
    const change = moves.reduce((sum, { cost }) => sum + cost, 0);
    return {
      kit,
      kits,
      suppliers,
      yearly,
      change,
      total:
        kit === undefined ? undefined : change + kit + Math.round(yearly * this.#charges.years),
    };
  }

  /** The assignment some moves stand for. */
  #assignment(problem: StandardProblem, moves: readonly FleetMove[]): Int32Array[] {
    const taken = problem.groups.map(({ count, options }) => {
      const counts = new Int32Array(options.length);
      counts[0] = count;
      return counts;
    });
    for (const { items, to } of moves) {
      for (const item of items) {
        const g = this.#groupOf.get(item) ?? -1;
        const o = problem.groups[g]?.options.findIndex(({ model }) => model === to) ?? -1;
        const counts = taken[g];
        if (counts === undefined || o < 0) continue;
        counts[0] = (counts[0] ?? 0) - 1;
        counts[o] = (counts[o] ?? 0) + 1;
      }
    }
    return taken;
  }
}

/** More exact solves than this are not worth a step of polish. */
const mostMovesPolished = 24;

/**
 * Drops moves that do not pay when kits are solved exactly: the planning model takes demands for Poisson and leaves robbing
 * aside, so it may see a gain where there is none. Nothing is left where nothing pays.
 */
export function payingMoves(
  reckoner: FleetReckoner,
  moves: readonly FleetMove[],
  signal: AbortSignal | undefined,
): readonly FleetMove[] {
  let kept = [...moves];
  let total = reckoner.figures(kept).total ?? Number.POSITIVE_INFINITY;
  for (let dropped = kept.length <= mostMovesPolished; dropped; ) {
    dropped = false;
    for (const move of [...kept]) {
      signal?.throwIfAborted();
      const without = kept.filter((one) => one !== move);
      const then = reckoner.figures(without).total ?? Number.POSITIVE_INFINITY;
      if (then > total) continue;
      kept = without;
      total = then;
      dropped = true;
    }
  }
  const asIs = reckoner.figures([]).total ?? Number.POSITIVE_INFINITY;
  return total < asIs ? kept : [];
}

/** One step of the order in which moves pay best. */
export interface FleetStep {
  readonly move: FleetMove;
  /** What the step saves on kits, minor units, and a year in charges; may be below 0. */
  readonly kitSaving: number;
  readonly yearlySaving: number;
}

/**
 * Orders moves so that the next is always the one that saves most over the horizon per money it costs, given those
 * before; each step solved exactly. Beyond a dozen moves they are taken in order of what each saves alone.
 */
export function bestFirst(
  reckoner: FleetReckoner,
  moves: readonly FleetMove[],
  years: number,
  signal: AbortSignal | undefined,
): readonly FleetStep[] {
  const steps: FleetStep[] = [];
  const done: FleetMove[] = [];
  let left = [...moves];
  let now = reckoner.figures([]);
  const stepOf = (move: FleetMove): FleetStep & { readonly rate: number } => {
    const then = reckoner.figures([...done, move]);
    const kitSaving = (now.kit ?? 0) - (then.kit ?? 0);
    const yearlySaving = now.yearly - then.yearly;
    return {
      move,
      kitSaving,
      yearlySaving,
      rate: (kitSaving + yearlySaving * years) / Math.max(1, move.cost),
    };
  };
  const isMany = moves.length > 12;
  if (isMany)
    left = left
      .map(stepOf)
      .sort((a, b) => b.rate - a.rate)
      .map(({ move }) => move);
  while (left.length > 0) {
    signal?.throwIfAborted();
    const [first] = isMany
      ? left.slice(0, 1).map(stepOf)
      : left.map(stepOf).sort((a, b) => b.rate - a.rate);
    if (first === undefined) break;
    const { move, kitSaving, yearlySaving } = first;
    steps.push({ move, kitSaving, yearlySaving });
    done.push(move);
    left = left.filter((one) => one !== move);
    now = reckoner.figures(done);
  }
  return steps;
}

/** Years after which a change has paid for itself: 0 where the kits alone pay; undefined where it never does. */
export function paybackYears(
  cost: number,
  kitSaving: number,
  yearlySaving: number,
): number | undefined {
  const left = cost - kitSaving;
  if (left <= 0) return 0;
  return yearlySaving > 0 ? left / yearlySaving : undefined;
}
