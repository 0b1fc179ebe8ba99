import { gammaPoissonDemand } from "../demand/gamma-poisson-demand.ts";
import { meanOf, type Pmf } from "../demand/pmf.ts";
import { rarityClasses, rarityPrior } from "../demand/rarity-classes.ts";
import type { Snapshot } from "../snapshot/snapshot.ts";
import type { DemandLine, Evidence, LineWithoutEvidence, ProvisionNotice } from "./demand-line.ts";
import { daysPerYear, type Passage } from "./passage.ts";
import { hoursPerDayOf } from "./running-hours.ts";
import { wearOutTerms } from "./wear-out-terms.ts";

const absurdPer1000Hours = 10;
/** Prior shape where a stated rate stands as the prior of an own history: wide, like the rarity classes. */
const priorShape = 0.5;

/** Running ahead of the items that share one line, in the three ways a rate may count. */
interface Exposure {
  readonly hours: readonly number[];
  readonly totalHours: number;
  readonly years: number;
  /** NaN where an item's operations a day are not known. */
  readonly operations: number;
}

function exposureOf(
  snapshot: Snapshot,
  items: readonly number[],
  passage: Passage,
  severity: number,
): Exposure {
  const days = passage.daysLongest * severity;
  const hours = items.map((item) => hoursPerDayOf(snapshot, item) * days);
  return {
    hours,
    totalHours: hours.reduce((sum, h) => sum + h, 0),
    years: (items.length * days) / daysPerYear,
    operations:
      items.reduce((sum, i) => sum + (snapshot.items.operationsPerDay[i] ?? Number.NaN), 0) * days,
  };
}

/**
 * Returns the failures' demand of one USES line over all items that share it, or why none can be told.
 *
 * Terms that the line carries add: random failures (Poisson at the stated rate; or, where the vessel has its own
 * history, the gamma-Poisson predictive with the rarity class, else the stated rate, as its prior; or the rarity
 * class alone) and wear-out (Weibull renewals per item). Exposures of all items are summed before an uncertain
 * rate is mixed, since they share it. Unknown running hours count as running all day, and are noticed.
 *
 * @param line row of snapshot.uses
 * @param severity how many times harder the gear is used than planned: every exposure ahead is multiplied by it,
 *   which is the same as multiplying every rate. 1 = as planned
 */
export function failureDemand(
  snapshot: Snapshot,
  model: number,
  line: number,
  items: readonly number[],
  passage: Passage,
  notices: ProvisionNotice[],
  severity = 1,
): DemandLine | LineWithoutEvidence {
  const { uses } = snapshot;
  const part = uses.target[line] ?? 0;
  const quantity = uses.quantity[line] ?? 1;
  const exposure = exposureOf(snapshot, items, passage, severity);
  const words: string[] = [];
  const terms: Pmf[] = [];
  let poissonMean = 0;
  let assumedMean = 0;
  let gammaShape = Number.NaN;
  let evidence: Evidence | undefined;
  const weaken = (found: Evidence): void => {
    if (evidence === undefined || found === "assumed") evidence = found;
  };

  const basis = uses.rateBasis[line] ?? 0;
  const rate = uses.rate[line] ?? Number.NaN;
  const hasRate = basis > 0 && !Number.isNaN(rate);
  const rateMean = hasRate ? quantity * meanPerPiece(rate, basis, exposure) : Number.NaN;
  const used = uses.usedCount[line] ?? Number.NaN;
  const over = uses.usedOverYears[line] ?? Number.NaN;
  const hasHistory = !Number.isNaN(used) && over > 0;
  const rarity = rarityClasses[(uses.rarity[line] ?? 0) - 1];
  const pieceYears = quantity * exposure.years;

  const isConfirmed = uses.rateConfirmed[line] === 1;
  if (hasRate && basis === 1 && rate > absurdPer1000Hours && !isConfirmed) {
    notices.push({
      code: "rate-absurd",
      text: `${snapshot.parts.partNumber[part]}: a rate of ${rate} per 1000 hours is above ${absurdPer1000Hours}; check its basis. It is counted as it stands; once checked, mark it "rate confirmed".`,
    });
  }
  if (hasHistory) {
    const ratePrior =
      !Number.isNaN(rateMean) && rateMean > 0 && pieceYears > 0
        ? { shape: priorShape, rate: (priorShape * pieceYears) / rateMean }
        : undefined;
    const nowAndThen = rarityClasses[1];
    const prior =
      rarity !== undefined
        ? rarityPrior(rarity)
        : (ratePrior ?? (nowAndThen ? rarityPrior(nowAndThen) : { shape: priorShape, rate: 5 }));
    terms.push(gammaPoissonDemand({ ...prior, used, usedOver: over, exposure: pieceYears }));
    gammaShape = prior.shape + used;
    weaken("own history");
    words.push(`own history: ${used} used in ${over} piece-years`);
  } else if (!Number.isNaN(rateMean)) {
    poissonMean += rateMean;
    const source = uses.rateSource[line] ?? 0;
    const known = source === 1 || source === 2 || source === 3;
    weaken(source === 3 ? "own history" : known ? "measured" : "assumed");
    if (!known) assumedMean += rateMean;
    const per = ["", "per 1000 h", "per year", "per 1000 operations"][basis];
    const from = [
      "source not stated",
      "maker's figure",
      "published figure",
      "own history",
      "a guess",
    ][source];
    words.push(`fails ${rate} times ${per} (${from})`);
  } else if (rarity !== undefined) {
    const term = gammaPoissonDemand({ ...rarityPrior(rarity), exposure: pieceYears });
    terms.push(term);
    gammaShape = rarity.shape;
    assumedMean += meanOf(term);
    weaken("assumed");
    words.push(`assumed to fail ${rarity.label}: once in ${rarity.meanYearsBetween} years a piece`);
  }

  const life = uses.meanLifeHours[line] ?? Number.NaN;
  if (!Number.isNaN(life)) {
    const stated = uses.weibullShape[line] ?? Number.NaN;
    const shape = Number.isNaN(stated) ? 1 : stated;
    const wearing = wearOutTerms(snapshot, { part, life, shape, quantity }, items, exposure.hours);
    terms.push(...wearing.terms);
    if (wearing.tooShort) {
      notices.push({
        code: "life-short",
        text: `${snapshot.parts.partNumber[part]}: a mean life of ${life} h is short beside the hours ahead, so its renewals are counted as Poisson, which asks for more spares. If it is replaced by plan, enter it as a service.`,
      });
    }
    if ((uses.rateSource[line] ?? 0) === 0 || uses.rateSource[line] === 4) {
      assumedMean += wearing.terms.reduce((sum, term) => sum + meanOf(term), 0);
    }
    const source = uses.rateSource[line] ?? 0;
    weaken(source === 0 || source === 4 ? "assumed" : "measured");
    words.push(
      `wears out after ${life} h in the mean${shape === 1 ? " (shape not stated: as pure chance)" : ` (shape ${shape})`}`,
    );
  }

  if (evidence === undefined)
    return { model, part, items, why: reasonForNone(hasRate, rate, basis, used, over) };
  const mean = poissonMean + terms.reduce((sum, term) => sum + meanOf(term), 0);
  return {
    model,
    part,
    items,
    usesLine: line,
    gammaShape,
    quantity,
    origin: "failure",
    effect: uses.failureEffect[line] ?? 0,
    fittable: uses.fittableAtSea[line] !== 0,
    poissonMean,
    terms,
    mean,
    assumedMean,
    evidence,
    byHours: (hasRate && basis === 1) || !Number.isNaN(life),
    words: words.join("; "),
  };
}

const meanPerPiece = (rate: number, basis: number, exposure: Exposure): number =>
  basis === 1
    ? (rate * exposure.totalHours) / 1000
    : basis === 2
      ? rate * exposure.years
      : (rate * exposure.operations) / 1000;

function reasonForNone(
  hasRate: boolean,
  rate: number,
  basis: number,
  used: number,
  over: number,
): string {
  if (hasRate && basis === 3)
    return "rate is per 1000 operations, but operations a day are not stated";
  if (!Number.isNaN(rate) && basis === 0)
    return `rate ${rate} has no basis (per 1000 h, year or 1000 operations)`;
  if (!Number.isNaN(used) && !(over > 0)) return `${used} used, but not over how many piece-years`;
  return "no rate, life, history, rarity class or service";
}
