import type { NodeRecord } from "../../importers/change-set.ts";
import type { KitAnswer } from "../contract/kit.contract.ts";
import type {
  ReadinessAnswer,
  ReadinessRequest,
  VesselReadiness,
  WhereToLook,
} from "../contract/readiness.contract.ts";
import { dayOfIso } from "../scoring/aboard/calendar.ts";
import { partClasses } from "../scoring/classes/part-classes.ts";
import { fittedScope } from "../scoring/commonality/fitted-scope.ts";
import { commonCurrency, priceList } from "../scoring/provision/class-price.ts";
import type { Snapshot } from "../scoring/snapshot/snapshot.ts";
import type { GraphStore } from "../store/graph-store.ts";
import { cautions } from "./cautions.ts";
import { nodeByWord } from "./choose-scope.ts";
import { replacementOpportunities } from "./commonality/opportunities.ts";
import { dueLots } from "./due/due-lots.ts";
import { dueServices } from "./due/due-services.ts";
import { planKit } from "./plan-kit.ts";
import { attentionList } from "./readiness/attention-list.ts";
import { readinessSideBySide } from "./readiness/compare-readiness.ts";
import { vesselSources } from "./readiness/vessel-sources.ts";
import { turnTaker } from "./take-turns.ts";
import { besideBefore } from "./what-if/beside-before.ts";
import { plural, sureWords } from "./words.ts";

const mostVessels = 100;
const mostShown = 5;

/**
 * What needs attention, per vessel on its next crossing: how far what is aboard carries each tier, what is short, out
 * of date or undated, which services fall due, what one supplier alone sells, what rests on assumptions; and the
 * best standardisation of the fleet. Every figure says where the whole of it is to be seen.
 * With `whatIf` the graph is as imagined, its figures beside those of the graph as it is.
 * Errors: `not-found` (vessel), those of a kit.
 */
export async function surveyReadiness(
  store: GraphStore,
  request: ReadinessRequest,
  today: string,
): Promise<ReadinessAnswer> {
  const { whatIf, ...asked } = request;
  if (whatIf === undefined) return readinessAsItIs(store, asked, today);
  return besideBefore(
    store,
    whatIf,
    (from) => readinessAsItIs(from, asked, today),
    readinessSideBySide,
  );
}

async function readinessAsItIs(
  store: GraphStore,
  request: ReadinessRequest,
  today: string,
): Promise<ReadinessAnswer> {
  const nodes =
    request.vessel === undefined
      ? await store.list("Vessel", 0, mostVessels)
      : [await nodeByWord(store, "Vessel", request.vessel)];
  const vessels: VesselReadiness[] = [];
  const notices: ReadinessAnswer["notices"] = [];
  const turn = turnTaker();
  for (const node of nodes) {
    // A fleet's kits take a minute; who asks something else meanwhile must not wait for all of them.
    await turn();
    const kit = await planKit(store, { vessel: node.id }, today);
    vessels.push(await vesselReadiness(store, node, kit, today));
    for (const { code, text } of kit.notices) {
      if (code === "crossing-assumed" || code === "departure-assumed")
        notices.push({ code, text: `${kit.vessel.name}: ${text}` });
    }
  }
  const snapshot = await store.snapshot();
  const ready = vessels.filter((vessel) => vessel.ready).length;
  return {
    today,
    sentence:
      vessels.length === 0
        ? "No vessel is in the graph yet. Import a gear list that names one."
        : vessels.length === 1
          ? (vessels[0]?.sentence ?? "")
          : `${ready} of ${plural(vessels.length, "vessel")} ${ready === 1 ? "is" : "are"} provided for the next crossing with what is aboard.`,
    vessels,
    standardise: bestReplacement(snapshot),
    notices,
    cautions: [...cautions],
  };
}

const look = (
  page: WhereToLook["page"],
  vessel: { readonly id: string; readonly name: string },
  command: string,
  query: Readonly<Record<string, string>> = {},
): WhereToLook => ({
  page,
  query: { vessel: vessel.id, ...query },
  command: `sparewright ${command} --vessel "${vessel.name}"`,
});

async function vesselReadiness(
  store: GraphStore,
  node: NodeRecord,
  kit: KitAnswer,
  today: string,
): Promise<VesselReadiness> {
  const snapshot = await store.snapshot(node.id);
  const vessel = snapshot.vessels.id.indexOf(node.id);
  const classes = partClasses(snapshot);
  const day = dayOfIso(today);
  const departs = dayOfIso(kit.crossing.departs);
  const arrival = dayOfIso(kit.crossing.usableUntil);
  const lots = dueLots(snapshot, vessel, day, arrival);
  const services = dueServices(
    snapshot,
    classes,
    [vessel],
    day,
    Math.max(day, departs),
    Math.max(day, arrival),
  );
  const { singleSource, unsold } = vesselSources(snapshot, classes, vessel);
  const stopping = singleSource.filter(({ itemsStopped }) => itemsStopped > 0);
  const buying = kit.lines.filter(({ buy }) => buy > 0);
  const priced = kit.lines.some(({ unitPrice }) => unitPrice !== undefined);
  const lotsIn = (state: (typeof lots)[number]["state"]): number =>
    lots.filter((lot) => lot.state === state).length;
  const leaving = Math.max(day, departs);
  const before = services.filter(
    ({ dueOn, assumed }) => assumed || (dueOn !== null && dayOfIso(dueOn) <= leaving),
  );
  const due = look("lockers", kit.vessel, "due", { show: "due" });
  const facts = {
    vessel: kit.vessel,
    items: [...snapshot.items.vessel].filter((of) => of === vessel).length,
    crossing: { ...kit.crossing, daysAway: departs - day },
    tiers: kit.tiers.map(({ tier, parts, target, withAboard, withKit }) => ({
      tier,
      parts,
      target,
      withAboard,
      withKit,
      reached: parts === 0 || withAboard >= target,
      follow: look("crossing", kit.vessel, "kit", { tier }),
    })),
    toBuy: {
      pieces: kit.total.buyPieces,
      parts: buying.length,
      cost: priced ? kit.total.cost : null,
      status: kit.status,
      first: buying
        .slice(0, mostShown)
        .map(({ part, description, tier, buy, shortWithAboard, words }) => ({
          part,
          description,
          tier,
          buy,
          shortWithAboard,
          words,
        })),
      follow: look("crossing", kit.vessel, "kit"),
    },
    stock: {
      outOfDate: lotsIn("out of date"),
      dateUnknown: lotsIn("date unknown"),
      notServiceable: lotsIn("not serviceable"),
      fallsDue: lotsIn("falls due"),
      follow: due,
    },
    services: {
      due: before.length,
      onPassage: services.length - before.length,
      lastDoneUnknown: services.filter(({ assumed }) => assumed).length,
      shortOfParts: services.filter(({ ready }) => !ready).length,
      follow: due,
    },
    singleSource: {
      parts: singleSource.length,
      stopping: stopping.length,
      unsoldStopping: unsold.filter(({ itemsStopped }) => itemsStopped > 0).length,
      first: stopping
        .slice(0, mostShown)
        .map(({ part, description, tier, itemsStopped, supplier }) => ({
          part,
          description,
          tier,
          itemsStopped,
          supplier,
        })),
      follow: look("suppliers", kit.vessel, "suppliers"),
    },
    evidence: {
      lines: kit.lines.length,
      assumed: kit.lines.filter(({ evidence }) => evidence === "assumed").length,
      without: kit.withoutEvidence.length,
      unsparable: kit.unsparable.length,
      follow: look("crossing", kit.vessel, "kit --why", { show: "evidence" }),
    },
  };
  const ready = kit.lines.length > 0 && facts.tiers.every(({ reached }) => reached);
  return { ...facts, ready, sentence: sentence(facts, ready), attention: attentionList(facts) };
}

function sentence(
  facts: Omit<VesselReadiness, "attention" | "sentence" | "ready">,
  ready: boolean,
) {
  const { vessel, crossing, tiers, toBuy, evidence } = facts;
  if (evidence.lines === 0)
    return `Nothing fitted aboard ${vessel.name} has evidence of failing, so its readiness cannot be told.`;
  const sure = tiers
    .filter(({ parts }) => parts > 0)
    .map(({ tier, withAboard }) => `${sureWords(withAboard)} ${tier}`)
    .join(", ");
  const now = `What is aboard ${vessel.name} carries ${crossing.name} at ${sure}`;
  if (ready) return `${now}: every target is reached.`;
  const wanted = tiers
    .filter(({ reached }) => !reached)
    .map(({ tier, target }) => `${target} ${tier}`)
    .join(", ");
  return toBuy.status === "infeasible"
    ? `${now}; no stock reaches the targets asked for (${wanted}).`
    : `${now}; ${plural(toBuy.pieces, "piece")} of ${plural(toBuy.parts, "part")} are short of the targets (${wanted}).`;
}

/** Worked out once for each picture of the graph, however many vessels are then asked about. */
const bestKnown = new WeakMap<Snapshot, ReadinessAnswer["standardise"]>();

/** The replacement that does away with most parts for each item changed, over the whole fleet. */
function bestReplacement(snapshot: Snapshot): ReadinessAnswer["standardise"] {
  const known = bestKnown.get(snapshot);
  if (known !== undefined) return known;
  const best = findBestReplacement(snapshot);
  bestKnown.set(snapshot, best);
  return best;
}

function findBestReplacement(snapshot: Snapshot): ReadinessAnswer["standardise"] {
  const classes = partClasses(snapshot);
  const currency = commonCurrency(snapshot);
  const prices = priceList(snapshot, classes, currency, {});
  const scope = fittedScope(snapshot, classes, {});
  const [best] = replacementOpportunities(snapshot, classes, scope, prices, currency);
  if (best === undefined) return null;
  return {
    ...best,
    follow: {
      page: "commonality",
      query: { category: best.category },
      command: `sparewright commonality --category "${best.category}"`,
    },
  };
}
