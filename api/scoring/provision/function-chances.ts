import { convolveAll, type Pmf, pointMass } from "../demand/pmf.ts";
import { poissonDemand } from "../demand/poisson-demand.ts";
import type { Snapshot } from "../snapshot/snapshot.ts";
import {
  type LentPart,
  survivalUnrobbedAtMost,
  survivalWithForesight,
  survivalWithoutForesight,
} from "../sufficiency/shared-donors.ts";
import { unmetServedFirst, unmetServedLast } from "../sufficiency/unmet-demand.ts";
import type { DemandLine } from "./demand-line.ts";
import type { ServedFunction } from "./function-slack.ts";
import { groupLogSufficiency } from "./provision-groups.ts";
import type { KitRow, VesselKit } from "./vessel-kit.ts";

/** Between what the chance that a function lasts must lie; the two are equal where it is known exactly. */
export interface FunctionChance {
  readonly atLeast: number;
  readonly atMost: number;
}

/** What decides one function, ready to be asked for any stock. */
export interface FunctionBinding {
  readonly chance: (spares: (row: KitRow) => number) => FunctionChance;
  /** Makes that serve it, and whether two of them share a stopping part. */
  readonly makes: number;
  readonly sharesParts: boolean;
}

const stops = (line: DemandLine): boolean => line.origin === "failure" && line.effect === 0;

const demandOf = (lines: readonly DemandLine[]): Pmf => {
  const mean = lines.reduce((sum, line) => sum + line.poissonMean, 0);
  return convolveAll([
    ...(mean > 0 ? [poissonDemand(mean)] : []),
    ...lines.flatMap((line) => line.terms),
  ]);
};

interface StoppingRow {
  readonly row: KitRow;
  readonly piecesPerItem: readonly number[];
  /** Demand that may stop the function's gear or rob it; the most it can be. */
  readonly robs: Pmf;
  /** All other demand on the pieces. */
  readonly rest: Pmf;
  /** Demand of the function's own items, the least it can be. */
  readonly own: Pmf;
  /** The row and those that supersede it. */
  readonly reach: readonly KitRow[];
  /** Pieces that one item of each make gives of the row or what supersedes it. */
  readonly reachPerItem: readonly number[];
  /** Pieces of these in gear that does not serve the function. */
  readonly elsewhere: number;
  readonly isTree: boolean;
}

/**
 * Returns how likely a function is to last the crossing, so far as spares decide it, as a function of the stock.
 *
 * Counted like the kit: every failure falls on running gear; failures no spare can mend are left out. Demand that stops the
 * function's gear competes in time with services and other gear for the same spares. At least: all of that is served
 * first, donors are chosen without foresight, and other gear robs as much as it may. At most: its own demand is served first, donors
 * are chosen with foresight, and all other gear that holds the part gives its pieces. Where nothing competes the two are one.
 * Of a supersession tree the floor is the better of two: the tree as a whole holds without credit; or each of its parts makes do with
 * its own pieces, after all older ones. Chances of the parts are multiplied: each falls with every demand, so they are associated,
 * and the product is no more than the joint chance (Esary, Proschan and Walkup, 1967).
 *
 * Safety functions need every item and are neither robbed for nor credited.
 * Source: METHODS, section 2; shared-donors.ts; referee: the simulation "as counted", tests/external.
 */
export function bindFunction(
  snapshot: Snapshot,
  kit: VesselKit,
  f: ServedFunction,
  robbing: boolean,
): FunctionBinding {
  const robs = robbing && f.tier !== 0;
  const slack = f.tier === 0 ? 0 : f.items.length - f.need;
  const counts = new Map<number, number>();
  for (const item of f.items) {
    const model = snapshot.items.model[item] ?? -1;
    counts.set(model, (counts.get(model) ?? 0) + 1);
  }
  const models = [...counts.keys()];
  const fitted = [...counts.values()];
  const own = new Set(f.items);
  const rows = kit.rows.flatMap((row) => {
    const found = stoppingRow(kit, row, models, own, robs);
    return found === undefined ? [] : [found];
  });
  const sharesParts = rows.some(
    ({ piecesPerItem }) => piecesPerItem.filter((pieces) => pieces > 0).length > 1,
  );
  const isNeverLent = ({ row }: StoppingRow): boolean => !robs || row.demand.isSafety;
  const trees = new Set(rows.flatMap(({ row, isTree }) => (isTree ? [row.group] : [])));

  const chance = (spares: (row: KitRow) => number): FunctionChance => {
    if (f.items.length < f.need) return { atLeast: 0, atMost: 0 };
    const floorParts = (some: readonly StoppingRow[]): readonly LentPart[] =>
      some.map((part) => ({
        unmet: unmetServedLast(part.robs, part.rest, spares(part.row)),
        piecesPerItem: part.piecesPerItem,
        isNeverLent: isNeverLent(part),
      }));
    const floor = (some: readonly StoppingRow[]): number =>
      survivalWithoutForesight(fitted, floorParts(some), slack);
    let atLeast = floor(rows);
    if (trees.size > 0) {
      const hold = [...trees].reduce((log, at) => {
        const group = kit.groups[at];
        if (group === undefined) return log;
        const pieces = (index: number): number => {
          const row = kit.rows[index];
          return row === undefined ? 0 : spares(row) - row.demand.credit;
        };
        return log + groupLogSufficiency(group, kit.rows, pieces);
      }, 0);
      atLeast = Math.max(atLeast, Math.exp(hold) * floor(rows.filter(({ isTree }) => !isTree)));
    }
    const ceilingParts = rows.map((part): LentPart => {
      const pieces = part.reach.reduce((sum, row) => sum + spares(row), 0);
      return {
        unmet: unmetServedFirst(part.own, pieces + (robs ? part.elsewhere : 0)),
        piecesPerItem: part.reachPerItem,
        isNeverLent: !robs,
      };
    });
    const atMost = robs
      ? (survivalWithForesight(fitted, ceilingParts, slack) ?? 1)
      : survivalUnrobbedAtMost(fitted, ceilingParts, slack);
    return { atLeast: Math.min(atLeast, atMost), atMost };
  };
  return { chance, makes: models.length, sharesParts };
}

/** What a row of the kit means to a function; undefined where none of its failures stop the function's gear. */
function stoppingRow(
  kit: VesselKit,
  row: KitRow,
  models: readonly number[],
  own: ReadonlySet<number>,
  robs: boolean,
): StoppingRow | undefined {
  const piecesOf = (some: KitRow): number[] =>
    models.map((model) =>
      some.demand.lines
        .filter((line) => line.model === model && stops(line))
        .reduce((sum, line) => sum + line.quantity, 0),
    );
  const piecesPerItem = piecesOf(row);
  if (piecesPerItem.every((pieces) => pieces === 0)) return undefined;
  const { older, newer } = treeAround(kit, row);
  const reach = [row, ...newer];
  const upTo = [row, ...older].flatMap((some) => some.demand.lines);
  const isOurs = (line: DemandLine): boolean =>
    stops(line) && ((robs && !row.demand.isSafety) || models.includes(line.model));
  const ours = upTo.filter(isOurs);
  const isAll = ours.length === row.demand.lines.length && older.length === 0;
  const lines = row.demand.lines.filter(
    (line) => stops(line) && models.includes(line.model) && line.items.every((i) => own.has(i)),
  );
  return {
    row,
    piecesPerItem,
    robs: isAll ? row.demand.pmf : demandOf(ours),
    rest: isAll ? pointMass(0) : demandOf(upTo.filter((line) => !isOurs(line))),
    own: isAll && lines.length === ours.length ? row.demand.pmf : demandOf(lines),
    reach,
    reachPerItem: models.map((_, make) =>
      reach.reduce((sum, some) => sum + (piecesOf(some)[make] ?? 0), 0),
    ),
    elsewhere: reach
      .flatMap((some) => some.demand.lines)
      .filter(stops)
      .reduce((sum, l) => sum + l.quantity * l.items.filter((i) => !own.has(i)).length, 0),
    isTree: (kit.groups[row.group]?.rows.length ?? 1) > 1,
  };
}

/** The rows that a row supersedes, and those that supersede it. */
function treeAround(kit: VesselKit, row: KitRow): { older: KitRow[]; newer: KitRow[] } {
  const group = kit.groups[row.group];
  const place = group?.rows.findIndex((index) => kit.rows[index] === row) ?? -1;
  if (group === undefined || group.rows.length === 1) return { older: [], newer: [] };
  const pathFrom = (start: number): number[] => {
    const path: number[] = [];
    for (let at = group.newer[start] ?? -1; at >= 0; at = group.newer[at] ?? -1) path.push(at);
    return path;
  };
  const rowAt = (at: number): readonly KitRow[] => {
    const found = kit.rows[group.rows[at] ?? -1];
    return found === undefined ? [] : [found];
  };
  return {
    older: group.rows.flatMap((_, at) => (pathFrom(at).includes(place) ? rowAt(at) : [])),
    newer: pathFrom(place).flatMap(rowAt),
  };
}
