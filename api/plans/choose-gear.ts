import { needOf } from "../../graph-schema/index.ts";
import type { ChooseAnswer, ChooseRequest } from "../contract/choose.contract.ts";
import { Problem } from "../errors/problem.ts";
import { isoOfDay } from "../scoring/aboard/calendar.ts";
import { breakEvenEach } from "../scoring/choice/break-even.ts";
import { fittedKits } from "../scoring/choice/fitted-kits.ts";
import { gearFootprint } from "../scoring/choice/gear-footprint.ts";
import { misfits } from "../scoring/choice/meets-needs.ts";
import { addRows } from "../scoring/snapshot/add-rows.ts";
import type { Snapshot } from "../scoring/snapshot/snapshot.ts";
import type { GraphStore } from "../store/graph-store.ts";
import { cautions } from "./cautions.ts";
import { choiceNotices } from "./choose/choice-notices.ts";
import { askedCategory, type ChoiceScene, choiceScene } from "./choose/choice-scene.ts";
import { candidateWords, choiceVerdict, misfitWords, turningWords } from "./choose/choice-words.ts";
import { isContender, turningPoints, variedTier } from "./choose/turning-points.ts";
import {
  settling,
  type WeighedCandidate,
  type Weighing,
  weighCandidate,
} from "./choose/weigh-candidate.ts";
import { choosePassage } from "./kit/choose-passage.ts";
import { modelReference, tierNames } from "./kit/kit-lines.ts";
import { stockSettings, tierTargets } from "./kit/kit-settings.ts";
import { settleKit } from "./kit/provide-kit.ts";
import { sideBySide } from "./what-if/beside-before.ts";
import { choicesBeside } from "./what-if/compare-choices.ts";
import { imaginedStore } from "./what-if/imagined-store.ts";
import { modelByWord } from "./what-if/rows-by-word.ts";
import { typedModels } from "./what-if/typed-models.ts";

/**
 * Which make a position should have: each candidate that meets the needs is fitted for trial and the least kit of the
 * whole boat solved again at the same targets; price, variety, supply and survival are set beside each other, with the
 * price at which the verdict turns. Nothing is written.
 *
 * With `whatIf` the boat is as imagined, its figures beside those of the boat as it is.
 *
 * @param today ISO day, the caller's clock
 * Errors: `not-found` (vessel, crossing, item, function, model), `input-invalid`, `crossing-invalid`, `key-taken` and the
 * importer's for candidates typed in. No candidate that meets the needs is an answer, not an error.
 */
export async function chooseGear(
  store: GraphStore,
  request: ChooseRequest,
  today: string,
): Promise<ChooseAnswer> {
  const { whatIf, ...asked } = request;
  if (whatIf === undefined) return chooseAsItIs(store, asked, today);
  const { vessel, passage } = await choosePassage(store, asked, today);
  const departs = isoOfDay(passage.departsDay);
  const imagined = await imaginedStore(store, whatIf, vessel.id, departs);
  const after = await chooseAsItIs(imagined.store, asked, today);
  const before = await ifThere(() => chooseAsItIs(store, { ...asked, turning: false }, today));
  return { ...after, comparison: sideBySide(before, after, imagined, choicesBeside) };
}

/** The answer, or none where what is asked about is not there: it may be imagined. */
async function ifThere(ask: () => Promise<ChooseAnswer>): Promise<ChooseAnswer | undefined> {
  try {
    return await ask();
  } catch (error) {
    if (error instanceof Problem && error.code === "not-found") return undefined;
    throw error;
  }
}

async function chooseAsItIs(
  store: GraphStore,
  request: ChooseRequest,
  today: string,
): Promise<ChooseAnswer> {
  const chosen = await choosePassage(store, request, today);
  const { passage } = chosen;
  const departs = isoOfDay(passage.departsDay);
  const { snapshot, vessel, typed, listNotices, lists } = await catalogue(
    store,
    chosen.vessel.id,
    request,
  );
  const scene = choiceScene(snapshot, vessel, request, passage.departsDay);
  const targets = tierTargets(request);
  const settings = stockSettings(request);
  const { rates, robbing } = settings;
  const kits = fittedKits(snapshot, vessel, settings);
  const kit = await settleKit(kits.kitOf(snapshot, [], passage, targets), settling);
  const weighing: Weighing = {
    snapshot,
    vessel,
    scene,
    kits,
    passage,
    targets,
    robbing,
    rates,
    typed,
    unread: new Set(
      lists
        .filter(({ list, rows }) => list === "parts" && rows.accepted === 0)
        .map(({ model }) => model),
    ),
    before: {
      kit,
      spend: kits.pieceKit(snapshot, [], passage, targets).answer.cost,
      cost: kit.answer.status === "infeasible" ? undefined : kit.answer.cost,
      footprint: gearFootprint(snapshot, kits.classes, vessel),
    },
  };
  const judged = candidateModels(snapshot, scene, request, typed).map((model) => ({
    model,
    why: misfits(snapshot, model, scene.category, scene.needs),
  }));
  const weighed: WeighedCandidate[] = [];
  for (const { model, why } of judged)
    if (why.length === 0) weighed.push(await weighCandidate(weighing, model));
  weighed.sort(byBoat);
  const candidates = rankedCandidates(weighed, scene.units, kits.currency);
  const rejected = judged
    .filter(({ why }) => why.length > 0)
    .map(({ model, why }) => ({
      model: modelReference(snapshot, model),
      reasons: why.map(misfitWords),
    }));
  const vesselName = snapshot.vessels.name[vessel] ?? "";
  const turns = request.turning === false ? [] : await turningDocument(weighing, weighed);
  const tried = request.turning === false ? "" : triedWords(weighing, weighed, turns);
  const [first] = candidates;
  const cost = weighing.before.cost;
  const { footprint } = weighing.before;
  return {
    vessel: { id: chosen.vessel.id, name: vesselName },
    crossing: {
      name: String(chosen.crossing?.properties["name"] ?? "the crossing"),
      departs,
      daysExpected: passage.daysExpected,
      daysLongest: passage.daysLongest,
    },
    currency: kits.currency,
    position: positionDocument(snapshot, scene),
    verdict: choiceVerdict({
      position: scene.words,
      vesselName,
      units: scene.units,
      candidates,
      rejected: rejected.length,
      lists,
      turning: turns,
      tier: tierNames[variedTier(weighing)],
      tried,
    }),
    cheapest: first !== undefined && first.rank !== null ? first.model : null,
    before: {
      kit: cost === undefined ? null : { minor: cost, currency: kits.currency },
      parts: footprint.parts.size,
      kits: footprint.kits,
      suppliers: footprint.suppliers,
    },
    candidates,
    lists,
    rejected,
    turning: turns,
    tried,
    notices: [
      ...chosen.notices,
      ...choiceNotices(weighing, weighed, listNotices, request.position),
    ],
    cautions: [...cautions],
  };
}

interface Catalogue {
  readonly snapshot: Snapshot;
  readonly vessel: number;
  readonly typed: ReadonlySet<number>;
  readonly listNotices: readonly string[];
  readonly lists: ChooseAnswer["lists"];
}

/** The whole fleet's snapshot with the candidates typed in; what stands in for unknown prices is the vessel's own. */
async function catalogue(
  store: GraphStore,
  vesselId: Snapshot["vessels"]["id"][number],
  request: ChooseRequest,
): Promise<Catalogue> {
  const whole = await store.snapshot();
  const own = await store.snapshot(vesselId);
  const kind = askedCategory(whole, whole.vessels.id.indexOf(vesselId), request);
  const typed = (request.typed ?? []).map((one) => ({ category: kind, ...one }));
  const added =
    typed.length === 0
      ? { nodes: [], links: [], notices: [], lists: [] }
      : await typedModels(typed, store);
  const snapshot = { ...addRows(whole, added), imaginedFrom: own.imaginedFrom ?? own };
  const vessel = snapshot.vessels.id.indexOf(vesselId);
  if (vessel < 0) throw new Problem("unexpected", `The snapshot lacks the vessel ${vesselId}.`);
  return {
    snapshot,
    vessel,
    typed: new Set(snapshot.models.id.keys()).difference(new Set(whole.models.id.keys())),
    listNotices: added.notices,
    lists: [...added.lists],
  };
}

/** Models to weigh: those named, else all of the category, without those left out; those typed in always. */
function candidateModels(
  snapshot: Snapshot,
  { category }: ChoiceScene,
  request: ChooseRequest,
  typed: ReadonlySet<number>,
): readonly number[] {
  const wanted = category.trim().toLowerCase();
  const named =
    request.candidates?.map((word) => modelByWord(snapshot, word)) ??
    [...snapshot.models.id.keys()].filter(
      (model) => (snapshot.models.category[model] ?? "").trim().toLowerCase() === wanted,
    );
  const leftOut = new Set((request.without ?? []).map((word) => modelByWord(snapshot, word)));
  const kept = named.filter((model) => !leftOut.has(model));
  const name = (model: number): string => modelReference(snapshot, model).name;
  return [...new Set([...kept, ...typed])].sort((a, b) => (name(a) < name(b) ? -1 : 1));
}

/** Cheapest boat first; then those whose kit is known; equals by name. */
function byBoat(a: WeighedCandidate, b: WeighedCandidate): number {
  const boat = ({ figures }: WeighedCandidate): number =>
    figures.boat?.minor ?? Number.POSITIVE_INFINITY;
  const known = ({ kitCost }: WeighedCandidate): number => (kitCost === undefined ? 1 : 0);
  const order = boat(a) - boat(b);
  if (Number.isFinite(order) && order !== 0) return order;
  if (Number.isFinite(boat(a)) !== Number.isFinite(boat(b)))
    return Number.isFinite(boat(a)) ? -1 : 1;
  return known(a) - known(b) || (a.figures.model.name < b.figures.model.name ? -1 : 1);
}

function rankedCandidates(
  weighed: readonly WeighedCandidate[],
  units: number,
  currency: string,
): ChooseAnswer["candidates"] {
  return weighed.map((own, at) => {
    const breakEven = weighed.flatMap((rival) => {
      if (rival === own || own.kitCost === undefined || rival.kitCost === undefined) return [];
      const price = breakEvenEach(
        { priceEach: own.priceEach, kit: own.kitCost },
        { priceEach: rival.priceEach, kit: rival.kitCost },
        units,
      );
      if (price === undefined) return [];
      return [
        {
          against: rival.figures.model,
          price: { minor: price, currency },
          room: own.priceEach === undefined ? null : price - own.priceEach,
        },
      ];
    });
    const figures = { ...own.figures, rank: own.figures.boat === null ? null : at + 1, breakEven };
    return { ...figures, words: candidateWords(figures) };
  });
}

function positionDocument(snapshot: Snapshot, scene: ChoiceScene): ChooseAnswer["position"] {
  const tierOf = (row: number) => {
    const tier = snapshot.functions.tier[row] ?? 1;
    return tierNames[tier === 0 ? 0 : tier === 2 ? 2 : 1];
  };
  return {
    words: scene.words,
    items: [...scene.names],
    units: scene.units,
    category: scene.category,
    needs: scene.needs.map(({ name, rule, value, from }) => ({
      need: needOf(name).words,
      rule,
      value,
      unit: needOf(name).unitWords,
      from,
    })),
    functions: scene.functions.map((row) => ({
      function: {
        id: String(snapshot.functions.id[row]),
        name: snapshot.functions.name[row] ?? "",
      },
      tier: tierOf(row),
    })),
  };
}

async function turningDocument(
  weighing: Weighing,
  weighed: readonly WeighedCandidate[],
): Promise<ChooseAnswer["turning"]> {
  const contenders = weighed.filter(isContender);
  const [winner] = contenders;
  if (winner === undefined) return [];
  const nameOf = (model: number): string => modelReference(weighing.snapshot, model).name;
  const turns = await turningPoints(weighing, contenders);
  return turns.map((turn) => ({
    kind: turn.kind,
    from: turn.from,
    at: turn.at,
    winner: modelReference(weighing.snapshot, turn.winner),
    words: turningWords(
      turn,
      {
        winner: nameOf(winner.model),
        next: nameOf(turn.winner),
        tier: tierNames[variedTier(weighing)],
      },
      weighing.kits.currency,
    ),
  }));
}

/** How far the search for turning points went, and which figures turn nothing within it. */
function triedWords(
  weighing: Weighing,
  weighed: readonly WeighedCandidate[],
  turns: ChooseAnswer["turning"],
): string {
  if (weighed.filter(isContender).length < 2) return "";
  const { scene, passage } = weighing;
  const ranges = [
    ...(scene.mostUnits > 1
      ? [{ kind: "units", words: `numbers of units up to ${scene.mostUnits}` }]
      : []),
    {
      kind: "passage",
      words: `crossings of ${Math.max(1, Math.round(passage.daysLongest / 10))} to ${Math.max(passage.daysLongest, Math.min(120, passage.daysLongest * 5))} days at longest`,
    },
    {
      kind: "target",
      words: `${tierNames[variedTier(weighing)]} targets from 0.5 to 0.999`,
    },
  ];
  const still = ranges.filter(({ kind }) => turns.every((turn) => turn.kind !== kind));
  if (still.length === 0) return "";
  const words = still.map((range) => range.words);
  const list =
    words.length === 1 ? (words[0] ?? "") : `${words.slice(0, -1).join(", ")} and ${words.at(-1)}`;
  return `The order stays the same for ${list}, as far as tried.`;
}
