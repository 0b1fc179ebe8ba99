import type { NodeId, Properties } from "../../graph-schema/index.ts";
import type {
  ChangeSet,
  KnownGraph,
  LinkRecord,
  NodeRecord,
  ProposedChange,
} from "../../importers/change-set.ts";
import { seededRandom } from "../tools/random-kit.ts";
import { daysAfter, figure, lotsAboard, type RawGraph, word } from "./independent-graph.ts";

/**
 * The first day on or after `from` whose crossing of so many days ends on the last day of a sound lot aboard of one
 * of the parts asked for: where "after arrival" and "on arrival" part ways.
 */
export function departureIntoAnExpiry(
  graph: RawGraph,
  vessel: NodeId,
  asked: ReadonlySet<NodeId>,
  from: string,
  days: number,
): string {
  const lots = lotsAboard(graph, vessel).filter((lot) => {
    const part = graph.node("Part", graph.from(lot.id, "LOT_OF")[0]?.to);
    return (
      part !== undefined &&
      asked.has(part.id) &&
      figure(part, "shelfLifeMonths") === undefined &&
      (figure(lot, "quantity") ?? 0) > 0 &&
      ["new", "serviceable"].includes(word(lot, "condition") ?? "new")
    );
  });
  const lastDays = new Set(lots.map((lot) => word(lot, "expires")));
  for (let wait = 0; wait < 4000; wait++) {
    const day = daysAfter(from, wait);
    if (lastDays.has(daysAfter(day, days))) return day;
  }
  throw new Error("No lot aboard goes out of date.");
}

/**
 * Changes that shake every figure a kit rests on, so that cases the demo happens not to hold are met as well:
 * marked safety parts, worn items past their lives, rates and lives on one line, interchanges, packs, dates on the
 * very day of arrival. The same seed gives the same changes.
 */
export function shaken(known: KnownGraph, seed: number): ChangeSet {
  const random = seededRandom(seed);
  const often = (share: number): boolean => random() < share;
  const whole = (low: number, high: number): number =>
    low + Math.floor(random() * (high - low + 1));
  const oneOf = (choices: readonly string[]): string => choices[whole(0, choices.length - 1)] ?? "";
  const changes: ProposedChange[] = [];
  const node = (of: NodeRecord, set: Properties, clear: readonly string[] = []): void => {
    const gone = clear.filter((name) => Object.hasOwn(of.properties, name));
    if (Object.keys(set).length + gone.length > 0)
      changes.push({ kind: "update-node", id: of.id, basedOn: of.version, set, clear: gone });
  };
  const link = ({ type, from, to, version }: LinkRecord, set: Properties): void => {
    if (Object.keys(set).length > 0)
      changes.push({ kind: "update-link", type, from, to, basedOn: version, set });
  };

  for (const item of known.nodes("FittedItem").values()) {
    const run = figure(item, "hoursRun");
    node(
      item,
      run !== undefined && often(0.7) ? { hoursRun: run * (0.5 + random()) } : {},
      often(0.1) ? ["hoursPerDay"] : [],
    );
  }
  for (const need of known.nodes("RequiredFunction").values())
    node(need, {
      ...(often(0.3) ? { tier: oneOf(["safety", "passage", "comfort"]) } : {}),
      ...(often(0.3) ? { need: whole(1, 3) } : {}),
    });
  for (const part of known.nodes("Part").values())
    node(part, {
      ...(often(0.05) ? { isSafety: true } : {}),
      ...(often(0.05) ? { shelfLifeMonths: whole(12, 60) } : {}),
    });
  for (const task of known.nodes("ServiceTask").values())
    node(task, {
      ...(often(0.5) ? { intervalHours: whole(15, 300) } : {}),
      ...(often(0.3) ? { intervalMonths: whole(1, 14) } : {}),
    });
  for (const line of known.links("USES").values())
    link(line, {
      ...(often(0.25) ? { failureEffect: oneOf(["stop", "degrade", "none"]) } : {}),
      ...(often(0.1) ? { fittableAtSea: often(0.7) } : {}),
      ...(often(0.05) ? { meanLifeHours: whole(150, 4000), weibullShape: 1 + 2 * random() } : {}),
      ...(often(0.05) ? { usedCount: whole(0, 4), usedOverYears: whole(2, 30) } : {}),
      ...(often(0.1) ? { rarity: oneOf(["seldom", "now and then", "often"]) } : {}),
    });
  for (const done of known.links("SERVICED").values()) {
    const { type, from, to, version, properties } = done;
    if (!Object.hasOwn(properties, "lastDoneHours") || !often(0.3)) continue;
    const clear = ["lastDoneHours"];
    changes.push({ kind: "update-link", type, from, to, basedOn: version, set: {}, clear });
  }
  for (const offer of known.links("OFFERS").values())
    if (often(0.2)) link(offer, { packSize: whole(1, 12) });
  const parts = [...known.nodes("Part").values()];
  const joined = new Set<string>();
  for (let pair = 0; pair < 60; pair++) {
    const from = parts[whole(0, parts.length - 1)];
    const to = parts[whole(0, parts.length - 1)];
    if (from === undefined || to === undefined || from === to) continue;
    const name = [from.id, to.id].sort().join();
    if (joined.has(name)) continue;
    joined.add(name);
    const properties = { confidence: oneOf(["confirmed", "likely", "unproven"]) };
    changes.push({
      kind: "create-link",
      type: "INTERCHANGES_WITH",
      from: from.id,
      to: to.id,
      properties,
    });
  }
  return { changes };
}
