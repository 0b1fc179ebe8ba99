import { logTarget } from "../kit/log-target.ts";
import { logAt } from "./judge-sale.ts";
import { MilpBuilder, type MilpProgramme } from "./milp.ts";
import type { Room, SaleProblem } from "./sale-problem.ts";
import { lastUseful, mostUseful } from "./useful-units.ts";

/** ln sufficiency counts this many times over in rows and objective, so that the solver's tolerances bite less. */
const SCALE = 1000;
/** The most is proven once no kit can have more ln sufficiency than this above the kit found. */
export const NEAR_ENOUGH = 1e-7;
/** A part that cannot work at all counts as this ln F where the most is sought, so that as many as possible can work. */
export const IMPOSSIBLE = -40;

export interface SaleProgramme {
  readonly programme: MilpProgramme;
  /** Units of each offer in a solution, rounded to whole numbers. */
  readonly unitsOf: (values: Float64Array) => Int32Array;
  /** Locker of each unit bought, per offer; empty where no lockers are asked for. */
  readonly stowedOf: (values: Float64Array) => readonly (readonly number[])[];
  /** The problem's value from the programme's objective (undoes scale and constant). */
  readonly valueOf: (objective: number) => number;
}

/**
 * Returns the sale problem as a mixed-integer linear programme, nothing presolved.
 *
 * Columns: y_u units of offer u, integer; z_u in {0, 1} where a least order is asked; b_pj in {0, 1}, "part p has
 * at least j pieces", for each step of ln F_p; n_ul units of offer u stowed in locker l.
 * Rows: sum_j b_pj - sum_u contains(u, p) y_u <= held_p; least_u z_u <= y_u <= most_u z_u;
 * sum_p,j step_pj b_pj >= ln R_t - sum_p ln F_p(first) per tier with a target; a row per cap;
 * sum_l n_ul = y_u and a row per locker and limit.
 * Where steps of ln F_p never rise, any j of its binaries are worth no more than the first j, so the filling order
 * needs no rows; any other distribution gets b_p,j+1 <= b_pj.
 *
 * The least is asked for until its bound is less than one whole unit away, which proves it, costs being whole.
 *
 * @param useless offers to leave out (useless-offers.ts)
 * @param tighten per tier, how much more ln sufficiency to ask than the target (after a near miss)
 * Source: METHODS section 3.
 */
export function saleMilp(
  problem: SaleProblem,
  useless: ReadonlySet<number> = new Set(),
  tighten: readonly [number, number, number] = [0, 0, 0],
): SaleProgramme {
  const { parts, offers, targets, caps, aim, weights, objective } = problem;
  const builder = new MilpBuilder();
  const isMost = aim === "most";
  const units = offers.map((offer, u) => {
    const upper = useless.has(u) ? 0 : mostUseful(problem, u);
    return builder.column(isMost ? 0 : offer.uses[objective], 0, upper);
  });
  const gives = parts.map((): [column: number, value: number][] => []);
  offers.forEach((offer, u) => {
    for (const { part, pieces } of offer.contents) gives[part]?.push([units[u] ?? 0, -pieces]);
  });
  offers.forEach((offer, u) => {
    const least = offer.least ?? 1;
    if (least <= 1 || useless.has(u)) return;
    const any = builder.column(0, 0, 1);
    const y = units[u] ?? 0;
    builder.row(0, Infinity, [
      [y, 1],
      [any, -least],
    ]);
    builder.row(-Infinity, 0, [
      [y, 1],
      [any, -mostUseful(problem, u)],
    ]);
  });
  const ways = new Map<number, [column: number, value: number][]>();
  offers.forEach((offer, u) => {
    if (offer.oneOf === undefined) return;
    const known = ways.get(offer.oneOf) ?? [];
    known.push([units[u] ?? 0, 1]);
    ways.set(offer.oneOf, known);
  });
  for (const terms of ways.values()) builder.row(-Infinity, 1, terms);
  const tierTerms: [column: number, value: number][][] = [[], [], []];
  const tierStart = [0, 0, 0];
  let offset = 0;
  parts.forEach((part, p) => {
    const wanted = targets[part.tier] !== undefined;
    const held = part.held ?? 0;
    const takes = offers.some((o) => o.contents.some((c) => c.part === p && c.pieces < 0));
    const counts = wanted || (isMost && weights[part.tier] > 0);
    const last = counts ? lastUseful(part.logCdf) : 0;
    const must = wanted && (!isMost || part.tier === 0);
    const first = must ? firstPossible(part.logCdf) : 0;
    const logs = Array.from({ length: last + 1 }, (_, s) => {
      const log = logAt(part.logCdf, s);
      return isMost ? Math.max(IMPOSSIBLE, log) : log;
    });
    const base = Number.isFinite(logs[first] ?? 0) ? (logs[first] ?? 0) : 0;
    tierStart[part.tier] = (tierStart[part.tier] ?? 0) + base;
    const steps = logs.slice(first + 1).map((log, at) => log - (logs[first + at] ?? 0));
    const isConcave = steps.every((step, at) => at === 0 || step <= (steps[at - 1] ?? 0));
    const weight = isMost ? weights[part.tier] : 0;
    offset += weight * base;
    const binaries = steps.map((step) => builder.column(weight * step * SCALE, 0, 1));
    binaries.forEach((column, at) => {
      tierTerms[part.tier]?.push([column, (steps[at] ?? 0) * SCALE]);
      const before = binaries[at - 1];
      if (!isConcave && before !== undefined) {
        builder.row(-Infinity, 0, [
          [column, 1],
          [before, -1],
        ]);
      }
    });
    if (binaries.length === 0 && first === 0 && !takes) return;
    const filled = binaries.map((column): [number, number] => [column, 1]);
    builder.row(-Infinity, held - first, [...filled, ...(gives[p] ?? [])]);
  });
  ([0, 1, 2] as const).forEach((tier) => {
    const target = targets[tier];
    if (target === undefined || (isMost && tier !== 0)) return;
    const need = logTarget(target) + tighten[tier] - (tierStart[tier] ?? 0);
    builder.row(need * SCALE, Infinity, tierTerms[tier] ?? []);
  });
  for (const name of ["cost", "mass", "volume"] as const) {
    const cap = caps[name];
    if (cap === undefined || cap === Infinity) continue;
    builder.row(
      -Infinity,
      Math.floor(cap),
      offers.map((offer, u): [number, number] => [units[u] ?? 0, offer.uses[name]]),
    );
  }
  const placed =
    caps.lockers === undefined ? undefined : addLockers(builder, problem, units, caps.lockers);
  const unitsOf = (values: Float64Array): Int32Array =>
    Int32Array.from(units, (column) => Math.round(values[column] ?? 0));
  return {
    programme: builder.build(
      isMost ? "maximise" : "minimise",
      isMost ? NEAR_ENOUGH * SCALE : 0.999,
    ),
    unitsOf,
    stowedOf: (values) => {
      if (placed === undefined) return [];
      const bought = unitsOf(values);
      return placed.map((columns, u) =>
        columns.length === 0
          ? Array.from({ length: bought[u] ?? 0 }, () => 0)
          : columns.flatMap((column, l) =>
              Array.from({ length: Math.round(values[column] ?? 0) }, () => l),
            ),
      );
    },
    valueOf: (objectiveValue) => (isMost ? objectiveValue / SCALE + offset : objectiveValue),
  };
}

function addLockers(
  builder: MilpBuilder,
  { offers }: SaleProblem,
  units: readonly number[],
  lockers: readonly Room[],
): readonly (readonly number[])[] {
  const mass: [number, number][][] = lockers.map(() => []);
  const volume: [number, number][][] = lockers.map(() => []);
  const placed = offers.map((offer, u) => {
    if (offer.uses.mass === 0 && offer.uses.volume === 0) return [];
    const columns = lockers.map((_, l) => {
      const column = builder.column(0, 0, Infinity);
      mass[l]?.push([column, offer.uses.mass]);
      volume[l]?.push([column, offer.uses.volume]);
      return column;
    });
    builder.row(0, 0, [
      ...columns.map((column): [number, number] => [column, 1]),
      [units[u] ?? 0, -1],
    ]);
    return columns;
  });
  lockers.forEach((room, l) => {
    if (room.mass !== undefined) builder.row(-Infinity, Math.floor(room.mass), mass[l] ?? []);
    if (room.volume !== undefined) builder.row(-Infinity, Math.floor(room.volume), volume[l] ?? []);
  });
  return placed;
}

/** Fewest pieces with which the part can work at all; past the end where it never can. */
function firstPossible(logCdf: Float64Array): number {
  const at = logCdf.findIndex((log) => log > -Infinity);
  return at < 0 ? logCdf.length : at;
}
