import type { NodeId } from "../../graph-schema/index.ts";
import type { LinkRecord, NodeRecord } from "../../importers/change-set.ts";
import {
  binomialMasses,
  certain,
  gammaMixedMasses,
  type Masses,
  meanOfMasses,
  poissonMasses,
  renewalMasses,
  sumOf,
} from "./independent-chance.ts";
import { independentClasses } from "./independent-classes.ts";
import {
  daysAfter,
  figure,
  lotsAboard,
  mark,
  monthsAfter,
  type RawGraph,
  word,
} from "./independent-graph.ts";
import { partsInScope, priceOf } from "./independent-prices.ts";
import { insideKit } from "./independent-sale.ts";
import { timesByDiary } from "./independent-services.ts";
import { successorOf } from "./independent-trees.ts";

export type TierName = "safety" | "passage" | "comfort";
const tierOrder: readonly TierName[] = ["safety", "passage", "comfort"];
const strictest = (tiers: readonly TierName[]): TierName =>
  tierOrder.find((tier) => tiers.includes(tier)) ?? "comfort";

/** What one part class is asked for on one vessel, recomputed from raw records. */
export interface IndependentLine {
  readonly parts: readonly NodeId[];
  readonly tier: TierName;
  readonly credit: number;
  readonly usable: number;
  readonly masses: Masses;
  readonly mean: number;
  /** Minor units; undefined where nobody offers it in the currency. */
  readonly price: number | undefined;
  /** Whether it can be bought: on offer, or nothing older is and nothing newer exists, or gear takes the newest itself. */
  readonly buyable: boolean;
  /** Parts of the class that supersedes it; undefined where none. */
  readonly newer: readonly NodeId[] | undefined;
  /** Names the lines that stand together: the newest class that each leads to. */
  readonly tree: string;
}

export interface IndependentKit {
  readonly lines: readonly IndependentLine[];
  /** Pr(D ≥ 1) of each line no spare can mend, by part. */
  readonly unsparable: readonly { readonly part: NodeId; readonly chance: number }[];
  /** The median price, which stands in where there is none. */
  readonly standIn: number;
  /** Usable pieces aboard, per part. */
  readonly usable: ReadonlyMap<NodeId, number>;
  readonly isAsked: (part: NodeId) => boolean;
}

interface Voyage {
  readonly departs: string;
  readonly days: number;
}

interface Need {
  readonly part: NodeId;
  readonly model: NodeId;
  readonly masses: Masses;
  readonly tier: TierName;
  /** Pieces in one item whose failure stops it; 0 for services and failures that do not stop. */
  readonly stopping: number;
  readonly fittable: boolean;
}

const hoursADay = (item: NodeRecord): number => figure(item, "hoursPerDay") ?? 24;
const renewalsKept = new Map<string, Masses>();
const renewalsOnce = (...law: Parameters<typeof renewalMasses>): Masses => {
  const found = renewalsKept.get(law.join("|")) ?? renewalMasses(...law);
  renewalsKept.set(law.join("|"), found);
  return found;
};

/** Everything METHODS sections 1, 2 and 7 say of one vessel's crossing, from the records and nothing else. */
export function independentKit(
  graph: RawGraph,
  vessel: NodeId,
  voyage: Voyage,
  currency: string,
): IndependentKit {
  const items = graph
    .all("FittedItem")
    .filter((item) => graph.from(item.id, "FITTED_ON").some(({ to }) => to === vessel));
  const modelOf = (item: NodeRecord): NodeId | undefined => graph.from(item.id, "IS_MODEL")[0]?.to;
  const models = [...new Set(items.flatMap((item) => modelOf(item) ?? []))];
  const functions = graph
    .all("RequiredFunction")
    .filter((node) => graph.from(node.id, "REQUIRED_ON").some(({ to }) => to === vessel));
  const serving = (need: NodeId): readonly NodeRecord[] =>
    items.filter((item) => graph.from(item.id, "SERVES").some(({ to }) => to === need));
  const tierOf = (need: NodeRecord): TierName => (word(need, "tier") ?? "passage") as TierName;
  const modelTier = (model: NodeId): TierName => {
    const served = functions.filter((f) => serving(f.id).some((item) => modelOf(item) === model));
    return served.length === 0 ? "passage" : strictest(served.map(tierOf));
  };
  // Donors: n - k of a function served by one model, outside the safety tier. Items serve one function here.
  const donors = new Map<NodeId, number>();
  for (const need of functions) {
    const served = serving(need.id);
    if (served.some((item) => graph.from(item.id, "SERVES").length !== 1))
      throw new Error("This recomputation takes an item to serve one function.");
    const makes = new Set(served.map(modelOf));
    const [make] = makes;
    if (makes.size !== 1 || make === undefined || tierOf(need) === "safety") continue;
    const spare = Math.max(0, served.length - (figure(need, "need") ?? 1));
    donors.set(make, (donors.get(make) ?? 0) + spare);
  }

  const needs: Need[] = [];
  for (const model of models) {
    const fitted = items.filter((item) => modelOf(item) === model);
    const tier = modelTier(model);
    for (const line of graph.from(model, "USES")) {
      const terms = failureTerms(graph, line, fitted, voyage);
      if (terms === undefined) continue;
      const effect = word(line, "failureEffect") ?? "stop";
      needs.push({
        part: line.to,
        model,
        masses: sumOf(terms),
        tier:
          effect === "stop"
            ? tier
            : effect === "degrade" && tier === "safety"
              ? "passage"
              : "comfort",
        stopping: effect === "stop" ? (figure(line, "quantity") ?? 1) : 0,
        fittable: mark(line, "fittableAtSea") ?? true,
      });
    }
    for (const { from: service } of graph.to(model, "SERVICE_OF")) {
      const task = graph.node("ServiceTask", service);
      if (task === undefined) throw new Error("A service without its record.");
      const times = fitted.map((item) => timesOfService(graph, task, item, voyage));
      if (times.every((n) => n === 0)) continue;
      for (const takes of graph.from(service, "CONSUMES")) {
        const each = figure(takes, "quantity") ?? 1;
        const lost = figure(takes, "lossChance");
        const terms = times.map((n) =>
          lost === undefined ? certain(each * n) : binomialMasses(each * n, lost),
        );
        needs.push({
          part: takes.to,
          model,
          masses: sumOf(terms),
          tier,
          stopping: 0,
          fittable: true,
        });
      }
    }
  }

  const classOf = independentClasses(graph, vessel);
  const aboard = usableAboard(graph, vessel, daysAfter(voyage.departs, Math.ceil(voyage.days)));
  const prices = priceOf(graph, currency, classOf);
  const scope = partsInScope(graph, models, aboard.lots);
  // What lies in a kit beside the wanted part is in the picture, what stands in for it is not: its offers are unknown there.
  const pictured = (part: NodeId) => classOf(part).filter((member) => scope.has(member));
  const pricesThere = priceOf(graph, currency, pictured);
  const known = [...new Set([...scope].map((part) => pictured(part)[0]))]
    .flatMap((first) => (first === undefined ? [] : (pricesThere(first) ?? [])))
    .sort((a, b) => a - b);
  const groups = new Map<string, Need[]>();
  for (const need of needs.filter(({ fittable }) => fittable)) {
    const name = classOf(need.part).join();
    groups.set(name, [...(groups.get(name) ?? []), need]);
  }
  const newerOf = successorOf(graph, classOf);
  const asked = [...groups.values()].map((own) => ({
    parts: classOf(own[0]?.part ?? ("" as NodeId)),
    own,
  }));
  // What superseded a part that is asked for stands by, asked for or not.
  const named = new Set(asked.map(({ parts }) => parts.join()));
  for (const { parts } of asked) {
    const next = newerOf(parts);
    if (next === undefined || named.has(next.join())) continue;
    named.add(next.join());
    asked.push({ parts: next, own: [] });
  }
  const newestOf = (parts: readonly NodeId[]): string => {
    let at = parts;
    for (let next = newerOf(at); next !== undefined; next = newerOf(at)) at = next;
    return at.join();
  };
  const isSafetyPart = (id: NodeId): boolean => {
    const part = graph.node("Part", id);
    return part !== undefined && mark(part, "isSafety") === true;
  };
  const askedNames = new Set(asked.map(({ parts }) => parts.join()));
  const isAsked = (part: NodeId): boolean => askedNames.has(classOf(part).join());
  // A service kit aboard that nothing asks for whole counts by what is inside.
  const inKits = new Map<string, number>();
  for (const [kit, count] of aboard.usable) {
    if (isAsked(kit)) continue;
    for (const [part, pieces] of insideKit(graph, kit, isAsked)) {
      const name = classOf(part).join();
      inKits.set(name, (inKits.get(name) ?? 0) + pieces * count);
    }
  }
  const together = (tree: string) => asked.filter(({ parts }) => newestOf(parts) === tree);
  const isOffered = (parts: readonly NodeId[]): boolean =>
    parts.some((part) => graph.to(part, "OFFERS").length > 0);
  const lines = asked.map(({ parts, own }): IndependentLine => {
    const tree = newestOf(parts);
    const all = together(tree);
    const ownTier = (one: (typeof asked)[number]): TierName =>
      one.own.length > 0 && one.parts.some(isSafetyPart)
        ? "safety"
        : strictest(one.own.map((need) => need.tier));
    const tier = strictest(all.map(ownTier));
    const masses = sumOf(own.map((need) => need.masses));
    const newer = newerOf(parts);
    const olderOnSale = all.some((one) => one.parts !== parts && isOffered(one.parts));
    return {
      parts,
      tier,
      credit:
        tier === "safety"
          ? 0
          : own.reduce((sum, need) => sum + need.stopping * (donors.get(need.model) ?? 0), 0),
      usable: parts.reduce(
        (sum, part) => sum + (aboard.usable.get(part) ?? 0),
        inKits.get(parts.join()) ?? 0,
      ),
      masses,
      mean: meanOfMasses(masses),
      price: prices(parts[0] ?? ("" as NodeId)),
      buyable: isOffered(parts) || (newer === undefined && (own.length > 0 || !olderOnSale)),
      newer,
      tree,
    };
  });
  return {
    lines,
    unsparable: needs
      .filter(({ fittable, masses }) => !fittable && meanOfMasses(masses) > 0)
      .map(({ part, masses }) => ({ part, chance: 1 - (masses[0] ?? 0) })),
    standIn: known[Math.floor(known.length / 2)] ?? 1,
    usable: aboard.usable,
    isAsked,
  };
}

/** METHODS section 1, row by row; undefined where the line tells nothing. */
function failureTerms(
  graph: RawGraph,
  line: LinkRecord,
  fitted: readonly NodeRecord[],
  { days }: Voyage,
): readonly Masses[] | undefined {
  const pieces = figure(line, "quantity") ?? 1;
  const hours = fitted.reduce((sum, item) => sum + hoursADay(item) * days, 0);
  const years = (fitted.length * days) / 365.25;
  const perDay = fitted.map((item) => figure(item, "operationsPerDay"));
  const operations = perDay.includes(undefined)
    ? undefined
    : perDay.reduce<number>((sum, n) => sum + (n ?? 0) * days, 0);
  const stated = figure(line, "rate");
  const between = figure(line, "mtbfHours");
  const basis = word(line, "rateBasis");
  const mean =
    stated === undefined
      ? between === undefined
        ? undefined
        : (pieces * hours) / between
      : basis === "1000 hours"
        ? (pieces * stated * hours) / 1000
        : basis === "year"
          ? pieces * stated * years
          : basis === "1000 operations" && operations !== undefined
            ? (pieces * stated * operations) / 1000
            : undefined;
  const used = figure(line, "usedCount");
  const over = figure(line, "usedOverYears");
  const guess = { seldom: 50, "now and then": 10, often: 2 }[word(line, "rarity") ?? ""];
  const ahead = pieces * years;
  const terms: Masses[] = [];
  if (used !== undefined && over !== undefined && over > 0) {
    // The prior: the rarity class, else the stated rate, with shape 1/2 (DEVELOPERS, "Evidence that adds").
    const rateYears = mean !== undefined && mean > 0 ? ahead / mean : 10;
    terms.push(gammaMixedMasses(0.5 + used, 0.5 * (guess ?? rateYears) + over, ahead));
  } else if (mean !== undefined) terms.push(poissonMasses(mean));
  else if (guess !== undefined) terms.push(gammaMixedMasses(0.5, 0.5 * guess, ahead));
  const life = figure(line, "meanLifeHours");
  if (life !== undefined) {
    const shape = figure(line, "weibullShape") ?? 1;
    for (const item of fitted) {
      const one = renewalsOnce(
        life,
        shape,
        ageOf(graph, item, line.to, life),
        hoursADay(item) * days,
      );
      for (let unit = 0; unit < pieces; unit++) terms.push(one);
    }
  }
  return terms.length === 0 ? undefined : terms;
}

/** Hours since a service put in a new one; else the item's hours up to the mean life; else undefined. */
function ageOf(graph: RawGraph, item: NodeRecord, part: NodeId, life: number): number | undefined {
  const run = figure(item, "hoursRun");
  if (run === undefined) return undefined;
  const renewed = graph
    .from(item.id, "SERVICED")
    .filter(({ to: service }) =>
      graph
        .from(service, "CONSUMES")
        .some((takes) => takes.to === part && figure(takes, "lossChance") === undefined),
    )
    .flatMap((done) => figure(done, "lastDoneHours") ?? []);
  if (renewed.length > 0) return Math.max(0, run - Math.max(...renewed));
  return run <= life ? run : undefined;
}

function timesOfService(
  graph: RawGraph,
  task: NodeRecord,
  item: NodeRecord,
  { departs, days }: Voyage,
): number {
  if (figure(task, "intervalOperations") !== undefined)
    throw new Error("This recomputation knows no service counted in operations.");
  const everyHours = figure(task, "intervalHours");
  const everyMonths = figure(task, "intervalMonths");
  if (everyHours === undefined && everyMonths === undefined) return 0;
  const log = graph.from(item.id, "SERVICED").find(({ to }) => to === task.id);
  const doneHours = log === undefined ? undefined : figure(log, "lastDoneHours");
  const run = figure(item, "hoursRun");
  return timesByDiary({
    everyHours,
    everyMonths,
    hoursPerDay: hoursADay(item),
    hoursSince:
      run === undefined || doneHours === undefined ? undefined : Math.max(0, run - doneHours),
    doneOn: log === undefined ? undefined : word(log, "lastDone"),
    departs,
    days,
  });
}

/** METHODS section 7. Dates are compared as ISO words: the last day must be after longest-case arrival. */
function usableAboard(
  graph: RawGraph,
  vessel: NodeId,
  arrival: string,
): { readonly usable: ReadonlyMap<NodeId, number>; readonly lots: readonly NodeRecord[] } {
  const lots = lotsAboard(graph, vessel);
  const usable = new Map<NodeId, number>();
  for (const lot of lots) {
    const part = graph.node("Part", graph.from(lot.id, "LOT_OF")[0]?.to);
    if (part === undefined) continue;
    const keeps = figure(part, "shelfLifeMonths");
    const made = word(lot, "made");
    const byAge = made === undefined || keeps === undefined ? [] : [monthsAfter(made, keeps)];
    const clocks = [...byAge, ...[word(lot, "expires")].flatMap((day) => day ?? [])];
    const inDate = clocks.length === 0 ? keeps === undefined : clocks.every((day) => day > arrival);
    const sound = ["new", "serviceable"].includes(word(lot, "condition") ?? "serviceable");
    if (!inDate || !sound) continue;
    usable.set(part.id, (usable.get(part.id) ?? 0) + (figure(lot, "quantity") ?? 0));
  }
  return { usable, lots };
}
