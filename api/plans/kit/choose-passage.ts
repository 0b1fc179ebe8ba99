import type { NodeRecord } from "../../../importers/change-set.ts";
import type { KitRequest } from "../../contract/kit.contract.ts";
import { Problem } from "../../errors/problem.ts";
import { dayOfIso } from "../../scoring/aboard/calendar.ts";
import type { Passage } from "../../scoring/provision/passage.ts";
import type { GraphStore } from "../../store/graph-store.ts";
import { nodeByWord } from "../choose-scope.ts";

export interface ChosenPassage {
  readonly vessel: NodeRecord;
  readonly crossing: NodeRecord | undefined;
  readonly passage: Passage;
  readonly notices: readonly { code: string; text: string }[];
}

const defaultExpectedDays = 16;
const defaultLongestDays = 20;

/**
 * Settles which vessel and which crossing a kit request means, and says what it assumed.
 *
 * Crossing: the one named; else the next to depart after today; else the last known. Vessel: the one named; else
 * the only one; else the first by name that sails the crossing. Days given in the request win over the crossing's.
 * Errors: `not-found`, `crossing-invalid`.
 */
export async function choosePassage(
  store: GraphStore,
  request: KitRequest,
  today: string,
): Promise<ChosenPassage> {
  const notices: { code: string; text: string }[] = [];
  const crossing = await chooseCrossing(store, request, today);
  const vessel = await chooseVessel(store, request, crossing, notices);
  const stated = (name: string): number | undefined => {
    const value = crossing?.properties[name];
    return typeof value === "number" ? value : undefined;
  };
  const longestStated =
    request.daysLongest ?? (request.daysExpected === undefined ? stated("daysLongest") : undefined);
  const daysExpected =
    request.daysExpected ?? stated("daysExpected") ?? longestStated ?? defaultExpectedDays;
  const daysLongest =
    longestStated ??
    Math.max(
      stated("daysLongest") ?? 0,
      Math.ceil(daysExpected * (defaultLongestDays / defaultExpectedDays)),
    );
  if (daysLongest < daysExpected) {
    if (request.daysExpected !== undefined && request.daysLongest !== undefined) {
      throw new Problem(
        "crossing-invalid",
        `The longest case must be at least the expected days; received ${daysLongest} longest and ${daysExpected} expected. Give --longest at least ${daysExpected}.`,
      );
    }
  }
  if (
    crossing === undefined &&
    request.daysLongest === undefined &&
    request.daysExpected === undefined
  ) {
    notices.push({
      code: "crossing-assumed",
      text: `No crossing is in the graph and no days were given: ${daysExpected} days expected and ${daysLongest} longest are assumed.`,
    });
  }
  const departsStated = request.departs ?? crossing?.properties["departs"];
  const departs = typeof departsStated === "string" ? departsStated : today;
  if (typeof departsStated !== "string") {
    notices.push({
      code: "departure-assumed",
      text: `No departure date is known; dates are judged as if leaving today, ${today}.`,
    });
  }
  return {
    vessel,
    crossing,
    passage: {
      departsDay: dayOfIso(departs),
      daysExpected: Math.min(daysExpected, daysLongest),
      daysLongest,
      marginDays: request.marginDays ?? 0,
    },
    notices,
  };
}

async function chooseCrossing(
  store: GraphStore,
  request: KitRequest,
  today: string,
): Promise<NodeRecord | undefined> {
  if (request.crossing !== undefined) return nodeByWord(store, "Crossing", request.crossing);
  const all = [...(await store.list("Crossing", 0, 1000))];
  const departs = (node: NodeRecord): string => String(node.properties["departs"] ?? "");
  all.sort((a, b) => (departs(a) < departs(b) ? -1 : 1));
  return all.find((node) => departs(node) >= today) ?? all.at(-1);
}

async function chooseVessel(
  store: GraphStore,
  request: KitRequest,
  crossing: NodeRecord | undefined,
  notices: { code: string; text: string }[],
): Promise<NodeRecord> {
  if (request.vessel !== undefined) return nodeByWord(store, "Vessel", request.vessel);
  const all = await store.list("Vessel", 0, 1000);
  const only = all[0];
  if (only === undefined) {
    throw new Problem(
      "not-found",
      "A kit is worked out for a vessel, and the graph holds none. Import a gear list that names the vessel, or give its name with the import.",
    );
  }
  if (all.length === 1) return only;
  const sails = crossing === undefined ? [] : await store.linksFrom(crossing.id, "SAILED_BY");
  const sailing = all.filter((node) => sails.some((link) => link.to === node.id));
  const chosen = (sailing.length > 0 ? sailing : all)[0] ?? only;
  const others = all
    .filter((node) => node !== chosen)
    .map((node) => String(node.properties["name"]));
  notices.push({
    code: "vessel-assumed",
    text: `No vessel was named; this is the kit of ${String(chosen.properties["name"])}. Others here: ${others.join(", ")}.`,
  });
  return chosen;
}
