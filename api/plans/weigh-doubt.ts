import type { DoubtAnswer, DoubtRequest } from "../contract/doubt.contract.ts";
import { isoOfDay } from "../scoring/aboard/calendar.ts";
import type { Pmf } from "../scoring/demand/pmf.ts";
import { harderDemand } from "../scoring/doubt/harder-demand.ts";
import { likelyRange } from "../scoring/doubt/likely-range.ts";
import {
  type RateSwing,
  rateSwings,
  type SwungKit,
  widestFirst,
} from "../scoring/doubt/rate-swings.ts";
import { resoldKit } from "../scoring/doubt/resold-kit.ts";
import { roughKit } from "../scoring/doubt/rough-kit.ts";
import { roughPassage, roughSufficiency } from "../scoring/doubt/rough-passage.ts";
import type { DemandLine } from "../scoring/provision/demand-line.ts";
import type { SoldKit } from "../scoring/provision/kit-sale.ts";
import type { Passage } from "../scoring/provision/passage.ts";
import { groupLogSufficiency, type ProvisionGroup } from "../scoring/provision/provision-groups.ts";
import { soldKit } from "../scoring/provision/sold-kit.ts";
import { type KitRow, type VesselKit, vesselKit } from "../scoring/provision/vessel-kit.ts";
import type { Snapshot } from "../scoring/snapshot/snapshot.ts";
import type { GraphStore } from "../store/graph-store.ts";
import { cautions } from "./cautions.ts";
import { doubtSideBySide } from "./doubt/compare-doubt.ts";
import { doubtSentence, roughWords } from "./doubt/doubt-words.ts";
import { roughSold } from "./doubt/rough-sold.ts";
import { chooseScene } from "./kit/choose-scene.ts";
import { gearWords, tierNames } from "./kit/kit-lines.ts";
import { kitNotices } from "./kit/kit-notices.ts";
import { kitSettings } from "./kit/kit-settings.ts";
import { settleKit } from "./kit/provide-kit.ts";
import { purchaseTotals } from "./kit/purchase-totals.ts";
import { turnTaker } from "./take-turns.ts";
import { besideBefore } from "./what-if/beside-before.ts";

/** Fitted to a survey of 290 boats on one ocean crossing: 354 breakages, 167 boats with at least one. */
const surveyedShape = 1.283;
const surveyWords =
  "a survey of 290 boats on one ocean crossing (354 breakages, 167 boats with any; Yachting World, 2016 Atlantic rally); boats differ too, so it overstates what the weather alone does";
const usualMost = 25;

export interface DoubtWork {
  /** Told how many rates have been tried; `done` never falls and ends at `total`. */
  readonly progress?: (done: number, total: number) => void;
  readonly signal?: AbortSignal;
}

/**
 * How far the kit of a request rests on what nobody measured, which rates would change it, and what rough passages ask.
 *
 * @param today ISO day, the caller's clock
 * With `whatIf` the graph is as imagined, its figures beside those of the graph as it is.
 * Errors: those of `planKit`. Stops with the signal's reason.
 */
export async function weighDoubt(
  store: GraphStore,
  request: DoubtRequest,
  today: string,
  work: DoubtWork = {},
): Promise<DoubtAnswer> {
  const { whatIf, ...asked } = request;
  if (whatIf === undefined) return doubtAsItIs(store, asked, today, work);
  return besideBefore(
    store,
    whatIf,
    (from) => doubtAsItIs(from, asked, today, work),
    doubtSideBySide,
  );
}

async function doubtAsItIs(
  store: GraphStore,
  request: DoubtRequest,
  today: string,
  work: DoubtWork,
): Promise<DoubtAnswer> {
  const { roughShape = surveyedShape, most = usualMost, ...asked } = request;
  const { chosen, snapshot, vessel, vesselName, crossingName } = await chooseScene(
    store,
    asked,
    today,
  );
  const { passage } = chosen;
  const settings = kitSettings(asked);
  const { targets, objective, rule } = settings;
  const piece = vesselKit(snapshot, vessel, passage, settings);
  const settling = work.signal === undefined ? {} : { signal: work.signal };
  const asSold = (one: VesselKit, own = settings): Promise<SoldKit> =>
    settleKit(soldKit(snapshot, own, one), settling);
  const kit = await asSold(piece);
  work.signal?.throwIfAborted();
  const screened = await inTurns(rateSwings(snapshot, piece, passage, targets, rule), work);
  const resold = (factor: number, changed: ReadonlyMap<number, Pmf>): SwungKit =>
    resoldKit(snapshot, settings, piece, kit, factor, changed);
  // All rates are tried by the piece; those told are then solved as sold.
  const swings = screened
    .slice(0, most)
    .map((swing): RateSwing => {
      const at = (factor: number): SwungKit => {
        const lines = kit.rows[swing.row]?.demand.lines ?? [];
        const times = (line: DemandLine): number => (line === swing.line ? factor : 1);
        const pmf = harderDemand(snapshot, { lines }, passage, times);
        return resold(factor, new Map([[swing.row, pmf]]));
      };
      return { ...swing, halved: at(0.5), doubled: at(2) };
    })
    .sort(widestFirst);
  const assumedAt = (factor: number): SwungKit =>
    resold(factor, swungAssumptions(snapshot, kit, passage, factor));
  const assumedKits = { halved: assumedAt(0.5), doubled: assumedAt(2) };
  const rough = roughPassage(snapshot, kit.rows, passage, roughShape);
  const larger = await roughSold(piece, roughKit(piece, rough, targets), rough, settings, asSold);
  const sumOf = (rows: readonly KitRow[]): number => rows.reduce((sum, row) => sum + row.buy, 0);
  const extraPieces = sumOf(larger.kit.rows) - sumOf(kit.rows);
  const extraCost = larger.kit.answer.cost - kit.answer.cost;
  const buyCost = (row: KitRow): number => row.buy * row.part.unitCost;
  const kitCost = kit.answer.cost;
  const money = purchaseTotals(kit).costMinor;
  const pieces = sumOf(kit.rows);
  const tiers = ([0, 1, 2] as const).map((tier) => {
    const groups = kit.groups.filter((group) => group.part.tier === tier);
    const own = groups.flatMap((group) => group.rows).flatMap((at) => kit.rows[at] ?? []);
    const under = (factor: number): number => sufficiencyOf(snapshot, passage, kit, groups, factor);
    return {
      tier: tierNames[tier],
      parts: own.length,
      target: targets[tier] ?? 0,
      withKit: under(1),
      assumedDemand: shareAssumed(own, (row) => row.demand.mean),
      assumedRisk: riskAssumed(kit, groups),
      withKitRange: { low: under(2), high: under(0.5) },
      roughWithKit: roughSufficiency(rough, groups, (at) => withKit(kit, at)),
      roughNominal: larger.nominal[tier] ?? null,
    };
  });
  const reached = tiers.every((tier) => tier.parts === 0 || tier.roughNominal !== null);
  const facts = {
    vessel: { id: chosen.vessel.id, name: vesselName },
    crossing: {
      name: crossingName,
      departs: isoOfDay(passage.departsDay),
      daysLongest: passage.daysLongest,
    },
    objective,
    currency: kit.currency,
    kit: { cost: kitCost, money: { minor: money, currency: kit.currency }, pieces },
    assumed: {
      demand: shareAssumed(kit.rows, (row) => row.demand.mean),
      risk: riskAssumed(kit, kit.groups),
      pieces: shareAssumed(kit.rows, (row) => row.buy),
      money: shareAssumed(kit.rows, buyCost),
      cost: { low: kitCost + assumedKits.halved.cost, high: kitCost + assumedKits.doubled.cost },
      buyPieces: {
        low: pieces + assumedKits.halved.pieces,
        high: pieces + assumedKits.doubled.pieces,
      },
    },
    tiers,
    rough: {
      shape: roughShape,
      basis: request.roughShape === undefined ? surveyWords : "as asked",
      reached,
      cost: extraCost,
      pieces: extraPieces,
      words: roughWords(
        { tiers, objective, currency: kit.currency },
        extraCost,
        extraPieces,
        reached,
      ),
    },
    rates: swings.map((swing) => rateRow(snapshot, kit, swing)),
    ratesInAll: screened.length,
    ratesThatMatter: screened.filter(
      ({ halved, doubled }) => halved.changes.length + doubled.changes.length > 0,
    ).length,
    notices: [
      ...chosen.notices,
      ...kitNotices(snapshot, kit, passage),
      {
        code: "rates-screened",
        text: "All rates are tried with pieces bought singly, which says how many matter; the rates listed are then solved again with the kit bought as it is sold.",
      },
    ],
    cautions: [...cautions],
  };
  return { ...facts, sentence: doubtSentence(facts) };
}

/** Runs a computation to its end, giving other work its turn. */
async function inTurns<T>(
  steps: Generator<{ readonly done: number; readonly total: number }, T>,
  { progress, signal }: DoubtWork,
): Promise<T> {
  const turn = turnTaker(signal);
  let step = steps.next();
  while (!step.done) {
    progress?.(step.value.done, step.value.total);
    await turn();
    step = steps.next();
  }
  return step.value;
}

/** Share of what is left of the risk of running short, -ln of the chance, that falls to assumed rates. */
function riskAssumed(kit: VesselKit, groups: readonly ProvisionGroup[]): number {
  let sum = 0;
  let assumed = 0;
  for (const group of groups) {
    const risk = -groupLogSufficiency(group, kit.rows, (at) => withKit(kit, at));
    const rows = group.rows.flatMap((at) => kit.rows[at] ?? []);
    const mean = rows.reduce((total, row) => total + row.demand.mean, 0);
    sum += risk;
    if (mean > 0) {
      assumed += (risk * rows.reduce((total, row) => total + row.demand.assumedMean, 0)) / mean;
    }
  }
  return sum > 0 ? Math.min(1, assumed / sum) : 0;
}

function shareAssumed(rows: readonly KitRow[], weight: (row: KitRow) => number): number {
  let sum = 0;
  let assumed = 0;
  for (const row of rows) {
    sum += weight(row);
    if (row.demand.mean > 0) assumed += (weight(row) * row.demand.assumedMean) / row.demand.mean;
  }
  return sum > 0 ? Math.min(1, assumed / sum) : 0;
}

const withKit = (kit: VesselKit, at: number): number =>
  (kit.rows[at]?.usable ?? 0) + (kit.rows[at]?.buy ?? 0);

/** Sufficiency of groups with the kit if every assumed failure rate is `factor` times what was assumed. */
function sufficiencyOf(
  snapshot: Snapshot,
  passage: Passage,
  kit: VesselKit,
  groups: readonly ProvisionGroup[],
  factor: number,
): number {
  const rows = kit.rows.map((row) => {
    if (factor === 1 || row.demand.assumedMean === 0) return row;
    const pmf = harderDemand(snapshot, row.demand, passage, (line) =>
      line.evidence === "assumed" ? factor : 1,
    );
    return { ...row, demand: { ...row.demand, pmf } };
  });
  return Math.exp(
    groups.reduce(
      (log, group) => log + groupLogSufficiency(group, rows, (at) => withKit(kit, at)),
      0,
    ),
  );
}

/** By row: the demands of the classes that rest on assumed rates, each of these multiplied. */
function swungAssumptions(
  snapshot: Snapshot,
  kit: VesselKit,
  passage: Passage,
  factor: number,
): ReadonlyMap<number, Pmf> {
  const times = (line: DemandLine): number => (line.evidence === "assumed" ? factor : 1);
  return new Map(
    kit.rows.flatMap(({ demand }, at) =>
      demand.assumedMean > 0 ? [[at, harderDemand(snapshot, demand, passage, times)] as const] : [],
    ),
  );
}

function rateRow(
  snapshot: Snapshot,
  kit: VesselKit,
  swing: RateSwing,
): DoubtAnswer["rates"][number] {
  const partOf = (part: number) => ({
    id: String(snapshot.parts.id[part] ?? ""),
    name: snapshot.parts.partNumber[part] ?? "",
  });
  const swungOf = ({ isFeasible, cost, pieces, changes }: SwungKit) => ({
    feasible: isFeasible,
    cost,
    pieces,
    changes: changes.map(({ row, from, to }) => ({
      part: partOf(kit.rows[row]?.demand.lines[0]?.part ?? -1),
      from,
      to,
    })),
  });
  const { line } = swing;
  const [low, high] = likelyRange(line.gammaShape);
  return {
    part: partOf(line.part),
    description: snapshot.parts.description[line.part] ?? "",
    gear: gearWords(snapshot, line.items),
    tier: tierNames[kit.rows[swing.row]?.part.tier ?? 1],
    evidence: line.evidence,
    words: line.words,
    expected: line.mean,
    likely: { low: line.mean * low, high: line.mean * high },
    halved: swungOf(swing.halved),
    doubled: swungOf(swing.doubled),
  };
}
