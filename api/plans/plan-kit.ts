import type { KitAnswer, KitRequest } from "../contract/kit.contract.ts";
import { isoOfDay } from "../scoring/aboard/calendar.ts";
import type { SoldKit } from "../scoring/provision/kit-sale.ts";
import { usableUntilDay } from "../scoring/provision/passage.ts";
import {
  type KitRow,
  type KitSettings,
  tierLogSufficiency,
  type VesselKit,
} from "../scoring/provision/vessel-kit.ts";
import type { GraphStore } from "../store/graph-store.ts";
import { cautions } from "./cautions.ts";
import { chooseScene } from "./kit/choose-scene.ts";
import { tierFrontiers } from "./kit/kit-frontier.ts";
import { functionSurvivals } from "./kit/kit-functions.ts";
import { kitLimits } from "./kit/kit-limits.ts";
import { gearWords, kitLines, tierNames } from "./kit/kit-lines.ts";
import { kitNotices } from "./kit/kit-notices.ts";
import { kitPurchases, kitSaleDocument } from "./kit/kit-purchases.ts";
import { kitObstacles, kitSentence } from "./kit/kit-sentence.ts";
import { kitSettings } from "./kit/kit-settings.ts";
import { donorList, singlePoints, unsparableRisks } from "./kit/kit-weak-points.ts";
import { type KitWork, provideKit } from "./kit/provide-kit.ts";
import { purchaseTotals } from "./kit/purchase-totals.ts";
import { besideBefore } from "./what-if/beside-before.ts";
import { kitsSideBySide } from "./what-if/compare-kits.ts";

/**
 * What one vessel must carry for one crossing: the least kit at the asked sufficiency, with the reason of every line,
 * as it is sold: packs, least orders, service kits. With caps, the best kit within them.
 *
 * @param today ISO day, the caller's clock
 * With `whatIf` the kit is that of the graph as imagined, its figures beside those of the graph as it is.
 * Errors: `not-found` (vessel, crossing, locker), `crossing-invalid`, `rate-invalid`, `currency-mixed` (a cap),
 * `contents-circular` (a service kit in itself), `input-invalid` (caps that contradict one another), `time-up`,
 * `solver-failed`; with `whatIf` also `input-invalid`, `key-taken`; the reason of `work.signal` when cancelled. A target
 * no stock can reach, or the caps do not allow, is an answer (status `infeasible`), not an error.
 */
export async function planKit(
  store: GraphStore,
  request: KitRequest,
  today: string,
  work: KitWork = {},
): Promise<KitAnswer> {
  const { whatIf, ...asked } = request;
  if (whatIf === undefined) return kitAsItIs(store, asked, today, work);
  return besideBefore(store, whatIf, (from) => kitAsItIs(from, asked, today, work), kitsSideBySide);
}

async function kitAsItIs(
  store: GraphStore,
  request: KitRequest,
  today: string,
  work: KitWork,
): Promise<KitAnswer> {
  const { chosen, snapshot, vessel, vesselName, crossingName } = await chooseScene(
    store,
    request,
    today,
  );
  const limits = kitLimits(snapshot, vessel, request);
  const settings: KitSettings = {
    ...kitSettings(request),
    caps: limits.caps,
    aim: limits.aim,
    weights: limits.weights,
  };
  const kit = await provideKit(snapshot, vessel, chosen.passage, settings, {
    ...work,
    ...(request.seconds === undefined ? {} : { seconds: request.seconds }),
  });
  const lines = kitLines(snapshot, kit, chosen.passage);
  const tiers = kitTiers(kit);
  const total = kitTotal(kit, lines);
  const units = request.units ?? "metric";
  const sale = kitSaleDocument(snapshot, kit, limits, units);
  return {
    vessel: { id: chosen.vessel.id, name: vesselName },
    crossing: {
      name: crossingName,
      ...(chosen.crossing === undefined ? {} : { id: chosen.crossing.id }),
      departs: isoOfDay(chosen.passage.departsDay),
      daysExpected: chosen.passage.daysExpected,
      daysLongest: chosen.passage.daysLongest,
      usableUntil: isoOfDay(usableUntilDay(chosen.passage)),
    },
    sentence: kitSentence({
      vesselName,
      crossingName,
      passage: chosen.passage,
      kit,
      lines,
      tiers,
      total,
      sale,
      units,
      obstacles: kitObstacles(snapshot, kit),
    }),
    status: kit.answer.status,
    objective: settings.objective,
    units,
    currency: kit.currency,
    total,
    tiers,
    lines,
    purchases: [...kitPurchases(snapshot, kit, limits)],
    sale,
    functions: functionSurvivals(snapshot, kit, settings.robbing),
    unsparable: unsparableRisks(snapshot, kit),
    singlePoints: singlePoints(snapshot, kit),
    donors: donorList(snapshot, kit),
    withoutEvidence: kit.demand.withoutEvidence.map((line) => ({
      part: {
        id: String(snapshot.parts.id[line.part] ?? ""),
        name: snapshot.parts.partNumber[line.part] ?? "",
      },
      description: snapshot.parts.description[line.part] ?? "",
      gear: `${gearWords(snapshot, line.items)}: ${line.why}`,
    })),
    frontier: tierFrontiers(kit),
    notices: [...chosen.notices, ...kitNotices(snapshot, kit, chosen.passage)],
    cautions: [...cautions],
  };
}

function kitTiers(kit: VesselKit): KitAnswer["tiers"] {
  return kit.answer.tiers.map((tier) => {
    const rows = kit.rows.filter((row) => row.part.tier === tier.tier);
    const product = (pieces: (row: KitRow) => number): number =>
      Math.exp(
        tierLogSufficiency(kit, tier.tier, (at) => {
          const row = kit.rows[at];
          return row === undefined ? 0 : pieces(row);
        }),
      );
    const mean = rows.reduce((sum, row) => sum + row.demand.mean, 0);
    const assumed = rows.reduce((sum, row) => sum + row.demand.assumedMean, 0);
    return {
      tier: tierNames[tier.tier],
      parts: rows.length,
      target: tier.target ?? 0,
      withNone: product(() => 0),
      withAboard: product((row) => row.usable),
      withKit: product((row) => row.usable + row.buy),
      reachable: tier.bestReachable,
      cost: tier.cost,
      assumedShare: mean > 0 ? assumed / mean : 0,
    };
  });
}

function kitTotal(kit: SoldKit, lines: KitAnswer["lines"]): KitAnswer["total"] {
  const { costMinor, ...sizes } = purchaseTotals(kit);
  const sum = (of: (line: KitAnswer["lines"][number]) => number): number =>
    lines.reduce((total, line) => total + of(line), 0);
  return {
    cost: { minor: costMinor, currency: kit.currency },
    lowerBound: kit.answer.lowerBound,
    gap: kit.answer.gap,
    ...sizes,
    buyPieces: sum((line) => line.buy),
    carryPieces: sum((line) => line.carry),
    distinctParts: lines.filter((line) => line.carry > 0).length,
  };
}
