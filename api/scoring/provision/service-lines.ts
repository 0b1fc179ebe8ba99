import { isoOfDay } from "../aboard/calendar.ts";
import { binomialDemand } from "../demand/binomial-demand.ts";
import { meanOf, type Pmf } from "../demand/pmf.ts";
import { type ServiceDemand, serviceDemand } from "../demand/service-demand.ts";
import type { Snapshot } from "../snapshot/snapshot.ts";
import type { DemandLine, ProvisionNotice } from "./demand-line.ts";
import type { Passage } from "./passage.ts";
import { hoursPerDayOf } from "./running-hours.ts";

/**
 * Returns what the planned services of one model use up or may lose on a crossing, one line per service and part.
 *
 * Each item's service falls due by hours, operations or months, whichever first, from when it was last done; an
 * unknown last time counts as due at departure (the most it could ask for) and is marked assumed. Parts used up
 * add quantity × times; handled parts add Binomial(quantity × times, chance of losing one).
 */
export function serviceLines(
  snapshot: Snapshot,
  model: number,
  items: readonly number[],
  passage: Passage,
  notices: ProvisionNotice[],
): readonly DemandLine[] {
  const { services, consumes } = snapshot;
  const lines: DemandLine[] = [];
  for (let service = 0; service < services.id.length; service++) {
    if (services.model[service] !== model) continue;
    const due = items.map((item) => timesDue(snapshot, item, service, passage));
    const times = due.reduce((sum, d) => sum + (d?.times ?? 0), 0);
    const guessed = due.reduce((sum, d) => sum + (d?.assumed === true ? d.times : 0), 0);
    if (due.includes(undefined)) {
      notices.push({
        code: "service-without-interval",
        text: `The service "${services.name[service]}" has no interval that can be counted, so nothing is provided for it: give it hours or months (for operations, say how many a day).`,
      });
    }
    if (times === 0) continue;
    const end = consumes.start[service + 1] ?? 0;
    for (let entry = consumes.start[service] ?? 0; entry < end; entry++) {
      const quantity = consumes.quantity[entry] ?? 1;
      const lossChance = consumes.lossChance[entry] ?? Number.NaN;
      const usedUp = Number.isNaN(lossChance);
      const terms: Pmf[] = due.flatMap((d) => {
        if (d === undefined || d.times === 0) return [];
        return usedUp ? [pieces(d, quantity)] : [binomialDemand(quantity * d.times, lossChance)];
      });
      const mean = terms.reduce((sum, term) => sum + meanOf(term), 0);
      const name = services.name[service] ?? "service";
      const unknown =
        guessed > 0 ? `; last done not known for ${guessed}, so taken as due at once` : "";
      lines.push({
        model,
        part: consumes.target[entry] ?? 0,
        items,
        usesLine: -1,
        gammaShape: Number.NaN,
        quantity,
        origin: "service",
        effect: 0,
        fittable: true,
        poissonMean: 0,
        terms,
        mean,
        assumedMean: (mean * guessed) / times,
        evidence: guessed > 0 ? "assumed" : "scheduled",
        byHours: !Number.isNaN(services.intervalHours[service] ?? Number.NaN),
        words: usedUp
          ? `"${name}" falls due ${times} times before arrival, ${quantity} each${unknown}`
          : `"${name}" falls due ${times} times; each of ${quantity} handled pieces is lost with chance ${lossChance}${unknown}`,
      });
    }
  }
  return lines;
}

function pieces(due: ServiceDemand, quantity: number): Pmf {
  const mass = new Float64Array(due.times * quantity + 1);
  mass[due.times * quantity] = 1;
  return { mass, tail: 0 };
}

/** How often one item's service falls due; undefined where no clock of it can be counted. */
export function timesDue(
  snapshot: Snapshot,
  item: number,
  service: number,
  passage: Passage,
): ServiceDemand | undefined {
  const { services, items, serviced } = snapshot;
  const everyHours = services.intervalHours[service] ?? Number.NaN;
  const everyOperations = services.intervalOperations[service] ?? Number.NaN;
  const everyMonths = services.intervalMonths[service] ?? Number.NaN;
  const hoursPerDay = hoursPerDayOf(snapshot, item);
  const operationsPerDay = items.operationsPerDay[item] ?? Number.NaN;
  let doneOn = Number.NaN;
  let doneHours = Number.NaN;
  const end = serviced.start[item + 1] ?? 0;
  for (let entry = serviced.start[item] ?? 0; entry < end; entry++) {
    if (serviced.target[entry] !== service) continue;
    doneOn = serviced.lastDoneDay[entry] ?? Number.NaN;
    doneHours = serviced.lastDoneHours[entry] ?? Number.NaN;
  }
  const run = items.hoursRun[item] ?? Number.NaN;
  const sinceDone =
    Number.isNaN(run) || Number.isNaN(doneHours) ? undefined : Math.max(0, run - doneHours);
  const common = {
    departsOn: isoOfDay(passage.departsDay),
    days: passage.daysLongest,
    pieces: 1,
    ...(Number.isNaN(everyMonths) ? {} : { everyMonths }),
    ...(Number.isNaN(doneOn) ? {} : { doneOn: isoOfDay(doneOn) }),
  };
  if (!Number.isNaN(everyOperations) && !Number.isNaN(operationsPerDay)) {
    const daysByOperations =
      operationsPerDay > 0 ? everyOperations / operationsPerDay : Number.POSITIVE_INFINITY;
    const daysByHours =
      everyHours > 0 && hoursPerDay > 0 ? everyHours / hoursPerDay : Number.POSITIVE_INFINITY;
    if (daysByOperations < daysByHours) {
      // No log counts operations since the last service: unknown, hence due at departure at the latest.
      return serviceDemand({
        ...common,
        everyHours: everyOperations,
        hoursPerDay: operationsPerDay,
      });
    }
  }
  if (Number.isNaN(everyHours)) {
    return Number.isNaN(everyMonths) ? undefined : serviceDemand({ ...common, hoursPerDay });
  }
  return serviceDemand({
    ...common,
    everyHours,
    hoursPerDay,
    ...(sinceDone === undefined ? {} : { hoursSinceDone: sinceDone }),
  });
}
