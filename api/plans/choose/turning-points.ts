import { breakEvenEach } from "../../scoring/choice/break-even.ts";
import type { TierTargets } from "../../scoring/kit/kit-problem.ts";
import type { Passage } from "../../scoring/provision/passage.ts";
import { settleKit } from "../kit/provide-kit.ts";
import { settling, type WeighedCandidate, type Weighing } from "./weigh-candidate.ts";

/** A change of one figure that makes another candidate's boat the cheapest. */
export interface TurningPoint {
  readonly kind: "price" | "units" | "passage" | "target";
  /** The figure as asked. */
  readonly from: number;
  /** The nearest figure found at which the winner is another. */
  readonly at: number;
  readonly winner: number;
}

/** A candidate whose price and kit are both known. */
export interface Contender extends WeighedCandidate {
  readonly priceEach: number;
  readonly kitCost: number;
}

export const isContender = (candidate: WeighedCandidate): candidate is Contender =>
  candidate.priceEach !== undefined && candidate.kitCost !== undefined;

const mostContenders = 6;
const longestDays = 120;
const lengthFactors = { up: [1.25, 1.6, 2.2, 3.2, 5], down: [0.75, 0.5, 0.25, 0.1] } as const;
/** Targets as minus log10 of the chance of running short: .5, .75, .9, .95, .98, .99, .995, .999. */
const sureness = [0.5, 0.75, 0.9, 0.95, 0.98, 0.99, 0.995, 0.999] as const;
const halvings = 5;

/** The tier whose target is varied: the strictest the position's functions fall in; passage where it serves none. */
export function variedTier({ snapshot, scene }: Weighing): 0 | 1 | 2 {
  const tiers = scene.functions.map((row) => snapshot.functions.tier[row] ?? 1);
  const strictest = tiers.length === 0 ? 1 : Math.min(...tiers);
  return strictest === 0 ? 0 : strictest === 2 ? 2 : 1;
}

/**
 * Returns what would turn the verdict: the winner's price, the number of units, the length of the crossing, the target.
 *
 * The price is exact (breakEvenEach, and one minor unit more). The others are found by solving every contender again:
 * units one by one, lengths and targets on a grid outwards from what was asked, then by halving between the last value
 * with the same winner and the first with another. The nearest change on either side is given; one that comes and goes
 * between two grid values can be missed.
 *
 * @param contenders cheapest boat first
 */
export async function turningPoints(
  weighing: Weighing,
  contenders: readonly Contender[],
): Promise<readonly TurningPoint[]> {
  const [winner] = contenders;
  if (winner === undefined || contenders.length < 2) return [];
  const { scene, passage, targets } = weighing;
  const few = contenders.slice(0, mostContenders);
  const running = runningOf(weighing, few);
  const best = (units: number, on: Passage, at: TierTargets): Promise<number | undefined> =>
    cheapest(weighing, running, units, on, at, winner.model);
  const tier = variedTier(weighing);
  const target = targets[tier] ?? 0.95;
  const withTarget = (value: number): TierTargets => {
    const [safety, mid, comfort] = targets;
    return tier === 0
      ? [value, mid, comfort]
      : tier === 1
        ? [safety, value, comfort]
        : [safety, mid, value];
  };
  const daysNow = passage.daysLongest;
  const atDays = (days: number) => best(scene.units, { ...passage, daysLongest: days }, targets);
  const atTarget = (value: number) => best(scene.units, passage, withTarget(value));
  const atUnits = (units: number) => best(units, passage, targets);
  const up = Array.from({ length: scene.mostUnits - scene.units }, (_, k) => scene.units + k + 1);
  const down = Array.from({ length: scene.units - 1 }, (_, k) => scene.units - k - 1);
  const found: (TurningPoint | undefined)[] = [priceTurn(winner, few, scene.units)];
  for (const units of [up, down])
    found.push(
      await turnAlong("units", scene.units, units, winner.model, atUnits, () => undefined),
    );
  const days = [
    lengthFactors.up.map((f) => Math.round(daysNow * f)).filter((d) => d <= longestDays),
    lengthFactors.down.map((f) => Math.round(daysNow * f)).filter((d) => d >= 1),
  ];
  const halfway = (a: number, b: number): number | undefined =>
    Math.abs(a - b) <= 1 ? undefined : Math.round((a + b) / 2);
  for (const list of days)
    found.push(await turnAlong("passage", daysNow, list, winner.model, atDays, halfway));
  const sures = [
    sureness.filter((value) => value > target),
    sureness.filter((value) => value < target).reverse(),
  ];
  for (const values of sures) {
    let left = halvings;
    const between = (a: number, b: number): number | undefined =>
      left-- > 0 ? roundSure(1 - Math.sqrt((1 - a) * (1 - b))) : undefined;
    found.push(await turnAlong("target", target, values, winner.model, atTarget, between));
  }
  return found.filter((one) => one !== undefined);
}

const differs = (model: number | undefined, winner: number): boolean =>
  model !== undefined && model !== winner;

/** A target as people write it: three digits behind the nines. */
function roundSure(value: number): number {
  const digits = Math.ceil(-Math.log10(1 - value)) + 2;
  return Number(value.toFixed(Math.min(6, Math.max(2, digits))));
}

/** The contenders, and how far kits bought as sold may stray from kits by the piece before one is out of the running. */
interface Running {
  readonly contenders: readonly Contender[];
  /** Minor units. */
  readonly margin: number;
}

/**
 * Twice the spread, over the contenders as asked, of what selling in packs and service kits adds to a kit; at least a
 * hundredth of the dearest kit. Rivals further behind by the piece than that are not bought as sold along the way.
 */
function runningOf(
  { scene, kits, passage, targets }: Weighing,
  few: readonly Contender[],
): Running {
  const added = few.map(({ model, kitCost }) => {
    const { snapshot, items } = scene.fit(model, scene.units);
    return kitCost - kits.pieceKit(snapshot, items, passage, targets, "bounded").answer.cost;
  });
  const spread = Math.max(...added) - Math.min(...added);
  const dearest = Math.max(...few.map(({ kitCost }) => kitCost));
  return { contenders: few, margin: Math.max(2 * spread, Math.ceil(dearest / 100)) };
}

/**
 * The model of the cheapest boat, its kit bought as sold; of equals the present winner, then the first given; undefined
 * where none reaches the targets.
 */
async function cheapest(
  { scene, kits }: Weighing,
  { contenders, margin }: Running,
  units: number,
  passage: Passage,
  targets: TierTargets,
  winner: number,
): Promise<number | undefined> {
  const fittings = contenders.map(({ model }) => scene.fit(model, units));
  // Most rivals are out of the running by the piece alone; only the rest are bought as sold.
  const bounds = contenders.map(({ priceEach }, at) => {
    const { snapshot, items } = fittings[at] ?? { snapshot: undefined, items: [] };
    if (snapshot === undefined) return undefined;
    const pieces = kits.pieceKit(snapshot, items, passage, targets, "bounded");
    const { answer } = pieces;
    if (answer.status === "infeasible") return undefined;
    const price = priceEach * units;
    return { pieces, low: price + answer.lowerBound, high: price + answer.cost };
  });
  const ceiling = Math.min(...bounds.map((one) => one?.high ?? Infinity)) + margin;
  const close = [...contenders.keys()].filter((at) => (bounds[at]?.low ?? Infinity) <= ceiling);
  const [only] = close;
  if (only !== undefined && close.length === 1) return contenders[only]?.model;
  let least = Number.POSITIVE_INFINITY;
  let found: number | undefined;
  for (const at of close) {
    const [contender, fitting, pieces] = [contenders[at], fittings[at], bounds[at]?.pieces];
    if (contender === undefined || fitting === undefined || pieces === undefined) continue;
    const fitted = kits.soldFrom(fitting.snapshot, targets, pieces);
    const { answer } = await settleKit(fitted, settling);
    if (answer.status === "infeasible") continue;
    const boat = contender.priceEach * units + answer.cost;
    if (boat < least || (boat === least && contender.model === winner)) {
      least = boat;
      found = contender.model;
    }
  }
  return found;
}

/** The winner's price rising until the first rival's boat is cheaper. */
function priceTurn(
  winner: Contender,
  contenders: readonly Contender[],
  units: number,
): TurningPoint | undefined {
  const cost = ({ priceEach, kitCost }: Contender) => ({ priceEach, kit: kitCost });
  const turns = contenders.flatMap((rival) => {
    const at = rival === winner ? undefined : breakEvenEach(cost(winner), cost(rival), units);
    return at === undefined ? [] : [{ at: at + 1, winner: rival.model }];
  });
  const [first] = turns.sort((a, b) => a.at - b.at);
  return first === undefined ? undefined : { kind: "price", from: winner.priceEach, ...first };
}

/** The first change of winner along a row of values, narrowed by halving; `between` ends the halving with undefined. */
async function turnAlong(
  kind: "units" | "passage" | "target",
  from: number,
  values: readonly number[],
  winner: number,
  at: (value: number) => Promise<number | undefined>,
  between: (same: number, other: number) => number | undefined,
): Promise<TurningPoint | undefined> {
  let same = from;
  for (const value of values) {
    const found = await at(value);
    if (!differs(found, winner) || found === undefined) {
      same = value;
      continue;
    }
    let turn = { at: value, winner: found };
    for (let mid = between(same, turn.at); mid !== undefined; mid = between(same, turn.at)) {
      if (mid === same || mid === turn.at) break;
      const there = await at(mid);
      if (there !== undefined && there !== winner) turn = { at: mid, winner: there };
      else same = mid;
    }
    return { kind, from, ...turn };
  }
  return undefined;
}
