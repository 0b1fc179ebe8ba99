import { z } from "zod";
import type { VoyageAnswer, VoyageRequest } from "../contract/voyage.contract.ts";
import { Problem } from "../errors/problem.ts";
import { isoOfDay } from "../scoring/aboard/calendar.ts";
import { countryOfPort, placeKey } from "../scoring/provision/port-supply.ts";
import { shortOfRow, tierLogSufficiency, type VesselKit } from "../scoring/provision/vessel-kit.ts";
import {
  type Departure,
  type VoyageLeg,
  type VoyageSettings,
  voyageKits,
} from "../scoring/provision/voyage-kit.ts";
import type { Snapshot } from "../scoring/snapshot/snapshot.ts";
import type { GraphStore } from "../store/graph-store.ts";
import { cautions } from "./cautions.ts";
import type { ChosenPassage } from "./kit/choose-passage.ts";
import { chooseScene } from "./kit/choose-scene.ts";
import { tierNames } from "./kit/kit-lines.ts";
import { kitNotices } from "./kit/kit-notices.ts";
import { kitSettings } from "./kit/kit-settings.ts";
import { besideBefore } from "./what-if/beside-before.ts";
import { voyagesSideBySide } from "./what-if/compare-voyages.ts";
import { moneyWords, plural } from "./words.ts";

const usualStayDays = 3;
const usualReliability = 0.9;
/** Longest case of a leg of which only the expected days are known. */
const longestShare = 20 / 16;

const assumptions = [
  "Gear runs on the legs, not in port; months and dates run on.",
  "At the first departure every part on offer can be bought, and what is aboard counts. At a port of call it counts as supplied what somebody there, or elsewhere in that country, delivers within the stay, ordered on arrival; a lead time nobody states counts as from stock in port, as too long from elsewhere.",
  "What a port supplies is topped up there to the level shown; so a part must last from one port that supplies it to the next, or further if the delivery fails. Deliveries of different parts succeed or fail independently.",
  "Parts that a port does not supply are not on its list: the list of an earlier departure carries them past it.",
  "Each departure reaches the targets by itself; the whole voyage's chance is the product over its departures. A level counts as if its delivery had come, and the level before as if it had not with the chance stated, so the product is on the safe side.",
  "Services are done when they fall due; other pieces are as old as their item or their last service says.",
  "An uncertain rate is not learnt from on the way.",
] as const;

interface NamedLeg extends VoyageLeg {
  readonly from: string;
  readonly to: string;
}

/**
 * The kit at each departure of a voyage of legs, given what can be had at the ports of call.
 *
 * @param today ISO day, the caller's clock
 * With `whatIf` the graph is as imagined, its figures beside those of the graph as it is.
 * Errors: those of `planKit` without caps; `crossing-invalid` for legs that contradict themselves.
 */
export async function planVoyage(
  store: GraphStore,
  request: VoyageRequest,
  today: string,
): Promise<VoyageAnswer> {
  const { whatIf, ...asked } = request;
  if (whatIf === undefined) return voyageAsItIs(store, asked, today);
  return besideBefore(store, whatIf, (from) => voyageAsItIs(from, asked, today), voyagesSideBySide);
}

async function voyageAsItIs(
  store: GraphStore,
  request: VoyageRequest,
  today: string,
): Promise<VoyageAnswer> {
  const { from: _from, legs: typed, stayDays, reliability: stated, fromAbroad, ...asked } = request;
  const {
    chosen,
    snapshot,
    vessel,
    vesselName,
    crossingName: own,
  } = await chooseScene(store, asked, today);
  const notices = chosen.notices.filter(
    (notice) => typed === undefined || notice.code !== "crossing-assumed",
  );
  const legs = legsOf(snapshot, chosen, request, notices);
  const reliability = stated ?? usualReliability;
  const calls = legs.length - 1;
  if (stated === undefined && calls > 0) {
    notices.push({
      code: "reliability-assumed",
      text: `How reliably ports deliver is not known: ${usualReliability} is assumed, so one order in ten does not come in time.`,
    });
  }
  const settings: VoyageSettings = {
    ...kitSettings(request),
    reliability,
    fromAbroad: fromAbroad ?? false,
  };
  const departures = voyageKits(snapshot, vessel, chosen.passage, legs, settings);
  const first = departures[0];
  if (first === undefined) throw new Problem("unexpected", "A voyage without a departure.");
  const alone = voyageKits(snapshot, vessel, chosen.passage, legs, {
    ...settings,
    reliability: 0,
  })[0];
  const withoutCalls = totals(snapshot, (alone ?? first).kit);
  const crossingName =
    typed === undefined ? own : `${legs[0]?.from ?? "here"} to ${legs.at(-1)?.to ?? "there"}`;
  const shown = departures.map((departure, at) =>
    departureDocument(snapshot, departure, legs, at, settings),
  );
  return {
    vessel: { id: chosen.vessel.id, name: vesselName },
    crossing: {
      name: crossingName,
      ...(chosen.crossing === undefined || typed !== undefined ? {} : { id: chosen.crossing.id }),
    },
    sentence: sentence(vesselName, crossingName, shown, withoutCalls),
    objective: settings.objective,
    currency: first.kit.currency,
    departures: shown,
    tiers: ([0, 1, 2] as const).map((tier) => ({
      tier: tierNames[tier],
      target: settings.targets[tier] ?? 0,
      whole: shown.reduce((product, one) => product * (one.tiers[tier]?.withKit ?? 1), 1),
    })),
    withoutCalls,
    reliability,
    assumptions: [...assumptions],
    notices: [...notices, ...kitNotices(snapshot, first.kit, chosen.passage)],
    cautions: [...cautions],
  };
}

const keptLegs = z.array(
  z.object({
    from: z.string().optional(),
    to: z.string(),
    days: z.number(),
    longestDays: z.number(),
  }),
);

function legsOf(
  snapshot: Snapshot,
  chosen: ChosenPassage,
  request: VoyageRequest,
  notices: { code: string; text: string }[],
): readonly NamedLeg[] {
  const usual = request.stayDays ?? usualStayDays;
  const kept = keptLegs.safeParse(chosen.crossing?.properties["legs"]);
  const { daysExpected, daysLongest } = chosen.passage;
  const legs =
    request.legs ??
    (kept.success && kept.data.length > 0
      ? kept.data
      : [{ to: "arrival", days: daysExpected, longestDays: daysLongest }]);
  if (request.legs === undefined && !(kept.success && kept.data.length > 0)) {
    notices.push({
      code: "legs-none",
      text: "The crossing has no legs, so it is taken as one, with nothing to be had on the way. Import its legs with their ports, or give them.",
    });
  }
  let from = request.from ?? (kept.success ? kept.data[0]?.from : undefined) ?? "departure";
  const named = legs.map((leg): NamedLeg => {
    const longest = leg.longestDays ?? Math.ceil(leg.days * longestShare);
    if (longest < leg.days) {
      throw new Problem(
        "crossing-invalid",
        `The longest case of a leg must be at least its expected days; received ${longest} longest and ${leg.days} expected to ${leg.to}. Correct either.`,
      );
    }
    const stay = "stayDays" in leg && leg.stayDays !== undefined ? leg.stayDays : usual;
    const given = "country" in leg ? leg.country : undefined;
    const one = {
      from,
      to: leg.to,
      daysExpected: leg.days,
      daysLongest: longest,
      call: { port: leg.to, country: countryOfPort(snapshot, leg.to, given), stayDays: stay },
    };
    from = leg.to;
    return one;
  });
  if (request.stayDays === undefined && named.length > 1) {
    notices.push({
      code: "stay-assumed",
      text: `Where no stay is given, ${usualStayDays} days in each port of call are assumed.`,
    });
  }
  const unknown = named.slice(0, -1).filter(({ call }) => call.country === "");
  if (unknown.length > 0) {
    notices.push({
      code: "port-country-unknown",
      text: `In what country ${unknown.map(({ to }) => to).join(", ")} ${unknown.length === 1 ? "lies" : "lie"} is not known, since no supplier is there; only suppliers in the port itself are counted. Name the country with the leg.`,
    });
  }
  const total = named.reduce((sum, leg) => sum + leg.daysLongest, 0);
  if (request.legs === undefined && named.length > 1 && Math.abs(total - daysLongest) > 0.5) {
    notices.push({
      code: "legs-differ",
      text: `The legs take ${total} days at longest, the crossing says ${daysLongest}; the legs count here.`,
    });
  }
  const twice = named.slice(0, -1).find((leg) => placeKey(leg.from) === placeKey(leg.to));
  if (twice !== undefined) {
    notices.push({
      code: "leg-to-itself",
      text: `The leg from ${twice.from} to ${twice.to} ends where it begins.`,
    });
  }
  return named;
}

function totals(snapshot: Snapshot, kit: VesselKit): VoyageAnswer["withoutCalls"] {
  const massOf = (partClass: number): number =>
    (kit.classes.members[partClass] ?? [])
      .map((part) => snapshot.parts.massKg[part] ?? Number.NaN)
      .find((kg) => kg > 0) ?? 0;
  let cost = 0;
  let mass = 0;
  let pieces = 0;
  for (const row of kit.rows) {
    cost += row.buy * kit.prices.price(row.demand.partClass).minor;
    mass += row.buy * massOf(row.demand.partClass);
    pieces += row.buy;
  }
  return {
    cost: { minor: kit.prices.anyKnown ? cost : 0, currency: kit.currency },
    massKg: Number(mass.toFixed(6)),
    pieces,
  };
}

function departureDocument(
  snapshot: Snapshot,
  { kit, lasts, departsDay, supply }: Departure,
  legs: readonly NamedLeg[],
  at: number,
  settings: VoyageSettings,
): VoyageAnswer["departures"][number] {
  const leg = legs[at];
  const before = legs[at - 1];
  const withKit = (row: number): number => {
    const one = kit.rows[row];
    return one === undefined ? 0 : one.usable + one.buy;
  };
  const lines = kit.rows.map((row, index): VoyageAnswer["departures"][number]["lines"][number] => {
    const part = row.demand.lines[0]?.part ?? kit.classes.members[row.demand.partClass]?.[0] ?? -1;
    const chances = lasts[index] ?? [];
    const usual = chances.findIndex((chance) => chance > 0);
    return {
      part: {
        id: String(snapshot.parts.id[part] ?? ""),
        name: snapshot.parts.partNumber[part] ?? "",
      },
      description: snapshot.parts.description[part] ?? "",
      tier: tierNames[row.part.tier],
      carry: withKit(index),
      aboard: row.usable,
      buy: row.buy,
      meanDemand: row.demand.mean,
      shortWithKit: shortOfRow(kit, index, withKit),
      lastsTo: legs[at + Math.max(0, usual)]?.to ?? "",
      lasts: [...chances],
    };
  });
  lines.sort(
    (a, b) => b.buy - a.buy || b.shortWithKit - a.shortWithKit || (a.part.id < b.part.id ? -1 : 1),
  );
  return {
    from: leg?.from ?? "",
    to: leg?.to ?? "",
    departs: isoOfDay(departsDay),
    daysExpected: leg?.daysExpected ?? 0,
    daysLongest: leg?.daysLongest ?? 0,
    status: kit.answer.status,
    supplies: {
      country: before?.call.country ?? "",
      stayDays: before?.call.stayDays ?? 0,
      suppliers: (supply?.suppliers ?? []).map((row) => snapshot.suppliers.name[row] ?? ""),
      parts: supply === undefined ? 0 : kit.rows.length,
    },
    kit: totals(snapshot, kit),
    tiers: kit.answer.tiers.map((tier) => ({
      tier: tierNames[tier.tier],
      parts: kit.rows.filter((row) => row.part.tier === tier.tier).length,
      target: settings.targets[tier.tier] ?? 0,
      withKit: Math.exp(tierLogSufficiency(kit, tier.tier, withKit)),
      reachable: tier.bestReachable,
    })),
    lines,
  };
}

function sentence(
  vessel: string,
  crossing: string,
  departures: VoyageAnswer["departures"],
  withoutCalls: VoyageAnswer["withoutCalls"],
): string {
  const first = departures[0];
  if (first === undefined || first.lines.length === 0)
    return `Nothing fitted aboard ${vessel} has evidence of failing, so no kit can be worked out: give its parts a rate, a life, a history or a rarity class.`;
  const money = (kit: { cost: { minor: number; currency: string }; pieces: number }): string =>
    `${plural(kit.pieces, "piece")} for ${moneyWords(kit.cost.minor, kit.cost.currency)}`;
  const start = `${vessel} sails ${crossing}, leaving ${first.from} with ${money(first.kit)} to buy`;
  const out = departures.filter((one) => one.status === "infeasible");
  const reach =
    out.length === 0
      ? ""
      : ` At ${out.map((one) => one.from).join(", ")} a target is out of reach with any number of spares.`;
  if (departures.length === 1) return `${start}; there is no port of call.${reach}`;
  const calls = departures
    .slice(1)
    .map((one) =>
      one.supplies.parts === 0
        ? `${one.from} supplies nothing it needs`
        : `${one.from} supplies ${plural(one.supplies.parts, "part")}, to be held at ${plural(
            one.lines.reduce((sum, line) => sum + line.carry, 0),
            "piece",
          )}`,
    )
    .join("; ");
  return `${start}; ${calls}. With nothing to be had on the way it would be ${money(withoutCalls)}.${reach}`;
}
