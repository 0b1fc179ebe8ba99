import type { UnitSystem } from "../../graph-schema/index.ts";
import type { PrepareAnswer, PrepareJob, PrepareRequest } from "../contract/prepare.contract.ts";
import { isoOfDay } from "../scoring/aboard/calendar.ts";
import type { SoldKit } from "../scoring/provision/kit-sale.ts";
import type { Passage } from "../scoring/provision/passage.ts";
import { timesDue } from "../scoring/provision/service-lines.ts";
import {
  type KitSettings,
  tierLogSufficiency,
  type VesselKit,
} from "../scoring/provision/vessel-kit.ts";
import { type Work, withWorkDone } from "../scoring/provision/work-done.ts";
import type { Snapshot } from "../scoring/snapshot/snapshot.ts";
import type { GraphStore } from "../store/graph-store.ts";
import { cautions } from "./cautions.ts";
import { chooseScene } from "./kit/choose-scene.ts";
import { modelReference } from "./kit/kit-lines.ts";
import { kitNotices } from "./kit/kit-notices.ts";
import { kitSettings } from "./kit/kit-settings.ts";
import { provideKit } from "./kit/provide-kit.ts";
import { purchaseTotals } from "./kit/purchase-totals.ts";
import { turnTaker } from "./take-turns.ts";
import { besideBefore } from "./what-if/beside-before.ts";
import { preparationsSideBySide } from "./what-if/compare-preparations.ts";
import { massWords, moneyWords, plural } from "./words.ts";

type Figures = PrepareAnswer["kit"];
type Saving = PrepareAnswer["all"]["saves"];

export interface PrepareWork {
  /** Told how many pieces of work have been tried; `done` never falls and ends at `total`. */
  readonly progress?: (done: number, total: number) => void;
  readonly signal?: AbortSignal;
}

/**
 * What is better done before leaving: every service that falls due on passage and every wearing piece that ages, tried
 * one by one as done on the day of departure, with the kit solved again; what changes the kit or its risk is listed with how much.
 *
 * @param today ISO day, the caller's clock
 * With `whatIf` the graph is as imagined, its figures and jobs beside those of the graph as it is.
 * Errors: those of `planKit`. Stops with the signal's reason.
 */
export async function prepareDeparture(
  store: GraphStore,
  request: PrepareRequest,
  today: string,
  work: PrepareWork = {},
): Promise<PrepareAnswer> {
  const { whatIf, ...asked } = request;
  if (whatIf === undefined) return preparationAsItIs(store, asked, today, work);
  const { progress } = work;
  let tried: number | undefined;
  const ask = async (from: GraphStore): Promise<PrepareAnswer> => {
    const before = tried;
    const answer = await preparationAsItIs(from, asked, today, {
      ...work,
      ...(progress === undefined
        ? {}
        : {
            progress: (done, total) => progress(done + (before ?? 0), total + (before ?? total)),
          }),
    });
    tried = answer.looked;
    return answer;
  };
  return besideBefore(store, whatIf, ask, preparationsSideBySide);
}

async function preparationAsItIs(
  store: GraphStore,
  request: PrepareRequest,
  today: string,
  work: PrepareWork,
): Promise<PrepareAnswer> {
  const { chosen, snapshot, vessel, vesselName, crossingName } = await chooseScene(
    store,
    request,
    today,
  );
  const { passage } = chosen;
  const units = request.units ?? "metric";
  const settings: KitSettings = {
    ...kitSettings(request),
  };
  const solve = (picture: Snapshot): Promise<SoldKit> =>
    provideKit(picture, vessel, passage, settings, {
      ...(work.signal === undefined ? {} : { signal: work.signal }),
    });
  work.signal?.throwIfAborted();
  const base = await solve(snapshot);
  const before = figuresOf(base);
  const tried = possibleWork(snapshot, vessel, passage);
  const jobs: (PrepareJob & { readonly work: Work })[] = [];
  const turn = turnTaker(work.signal);
  work.progress?.(0, tried.length);
  for (const [at, one] of tried.entries()) {
    const solved = await solve(withWorkDone(snapshot, [one], passage.departsDay));
    const after = figuresOf(solved);
    if (isOther(before, after)) {
      jobs.push({ ...jobOf(snapshot, base, passage, one, before, after, units), work: one });
    }
    await turn(() => work.progress?.(at, tried.length));
  }
  work.progress?.(tried.length, tried.length);
  jobs.sort((a, b) => b.saves.cost.minor - a.saves.cost.minor || b.saves.pieces - a.saves.pieces);
  const together = withWorkDone(
    snapshot,
    jobs.map((job) => job.work),
    passage.departsDay,
  );
  const afterAll = figuresOf(await solve(together));
  const takesAll = jobs.reduce((sum, job) => sum + job.takesCost.minor, 0);
  const all = {
    kit: afterAll,
    saves: saving(before, afterAll),
    takesCost: { minor: takesAll, currency: base.currency },
  };
  return {
    vessel: { id: chosen.vessel.id, name: vesselName },
    crossing: {
      name: crossingName,
      departs: isoOfDay(passage.departsDay),
      daysLongest: passage.daysLongest,
    },
    sentence: sentence(vesselName, crossingName, tried.length, jobs, all),
    kit: before,
    jobs: jobs.map(({ work: _, ...job }) => job),
    all,
    looked: tried.length,
    notices: [...chosen.notices, ...kitNotices(snapshot, base, passage)],
    cautions: [...cautions],
  };
}

/** Services of fitted items that fall due before arrival, and pieces that wear faster with age. */
function possibleWork(snapshot: Snapshot, vessel: number, passage: Passage): readonly Work[] {
  const { items, services, uses } = snapshot;
  const found: Work[] = [];
  for (let item = 0; item < items.id.length; item++) {
    const model = items.model[item] ?? -1;
    if (items.vessel[item] !== vessel || model < 0) continue;
    for (let service = 0; service < services.id.length; service++) {
      if (services.model[service] !== model) continue;
      const due = timesDue(snapshot, item, service, passage);
      if (due !== undefined && due.times > 0) found.push({ kind: "service", item, service });
    }
    const seen = new Set<number>();
    for (let line = uses.start[model] ?? 0; line < (uses.start[model + 1] ?? 0); line++) {
      const part = uses.target[line] ?? -1;
      const ages = (uses.weibullShape[line] ?? Number.NaN) > 1;
      if (!ages || Number.isNaN(uses.meanLifeHours[line] ?? Number.NaN) || seen.has(part)) continue;
      seen.add(part);
      found.push({ kind: "replacement", item, part });
    }
  }
  return found;
}

function figuresOf(kit: SoldKit): Figures {
  const aboard = (tier: 0 | 1 | 2): number =>
    Math.exp(tierLogSufficiency(kit, tier, (row) => kit.rows[row]?.usable ?? 0));
  const { costMinor, massKg } = purchaseTotals(kit);
  return {
    cost: { minor: costMinor, currency: kit.currency },
    massKg: Number(massKg.toFixed(6)),
    pieces: kit.rows.reduce((total, row) => total + row.buy, 0),
    feasible: kit.answer.status !== "infeasible",
    withAboard: { safety: aboard(0), passage: aboard(1), comfort: aboard(2) },
  };
}

const isOther = (one: Figures, other: Figures): boolean =>
  one.cost.minor !== other.cost.minor ||
  one.pieces !== other.pieces ||
  one.feasible !== other.feasible ||
  (["safety", "passage", "comfort"] as const).some(
    (tier) => Math.abs(one.withAboard[tier] - other.withAboard[tier]) > 1e-9,
  );

const saving = (before: Figures, after: Figures): Saving => ({
  cost: { minor: before.cost.minor - after.cost.minor, currency: before.cost.currency },
  massKg: Number((before.massKg - after.massKg).toFixed(6)),
  pieces: before.pieces - after.pieces,
});

function jobOf(
  snapshot: Snapshot,
  base: VesselKit,
  passage: Passage,
  one: Work,
  before: Figures,
  after: Figures,
  units: UnitSystem,
): PrepareJob {
  const { items, services, consumes, parts } = snapshot;
  const partReference = (part: number) => ({
    id: String(parts.id[part] ?? ""),
    name: parts.partNumber[part] ?? "",
  });
  const takes: { part: number; pieces: number }[] = [];
  let what = "";
  let due: ReturnType<typeof timesDue>;
  if (one.kind === "service") {
    what = services.name[one.service] ?? "service";
    due = timesDue(snapshot, one.item, one.service, passage);
    const end = consumes.start[one.service + 1] ?? 0;
    for (let entry = consumes.start[one.service] ?? 0; entry < end; entry++) {
      if (!Number.isNaN(consumes.lossChance[entry] ?? Number.NaN)) continue;
      takes.push({ part: consumes.target[entry] ?? -1, pieces: consumes.quantity[entry] ?? 1 });
    }
  } else {
    what = `${parts.partNumber[one.part] ?? ""} ${parts.description[one.part] ?? ""}`.trim();
    takes.push({ part: one.part, pieces: piecesIn(snapshot, one.item, one.part) });
  }
  const first = due?.dueDays[0];
  const takesCost = takes.reduce(
    (sum, { part, pieces }) =>
      sum + Math.ceil(pieces) * base.prices.price(base.classes.classOf[part] ?? -1).minor,
    0,
  );
  const saves = saving(before, after);
  const gear = items.position[one.item] ?? "";
  const when =
    first === undefined
      ? "renew it"
      : due?.assumed === true
        ? "last done not known, so taken as due at once"
        : first <= 0
          ? "overdue at departure"
          : `due on day ${Math.floor(first) + 1}`;
  return {
    kind: one.kind,
    item: { id: String(items.id[one.item] ?? ""), name: gear },
    model: modelReference(snapshot, items.model[one.item] ?? -1),
    what,
    ...(first === undefined
      ? {}
      : { dueOn: isoOfDay(passage.departsDay + Math.floor(Math.max(0, first))) }),
    overdue: first !== undefined && first <= 0 && due?.assumed !== true,
    assumed: due?.assumed === true,
    takes: takes.map(({ part, pieces }) => ({ part: partReference(part), pieces })),
    takesCost: {
      minor: base.prices.anyKnown ? takesCost : 0,
      currency: base.currency,
    },
    kit: after,
    saves,
    words: `${gear}: ${what} (${when}) before leaving ${savingWords(saves, before, after, units)}.`,
  };
}

function piecesIn(snapshot: Snapshot, item: number, part: number): number {
  const model = snapshot.items.model[item] ?? -1;
  let pieces = 0;
  for (let l = snapshot.uses.start[model] ?? 0; l < (snapshot.uses.start[model + 1] ?? 0); l++) {
    if (snapshot.uses.target[l] === part) pieces += snapshot.uses.quantity[l] ?? 1;
  }
  return pieces;
}

function savingWords(saves: Saving, before: Figures, after: Figures, units: UnitSystem): string {
  if (!before.feasible && after.feasible) return "brings every target within reach";
  if (before.feasible && !after.feasible) return "puts a target out of reach";
  if (saves.pieces === 0 && saves.cost.minor === 0) {
    const tiers = ["safety", "passage", "comfort"] as const;
    const better = tiers.some((tier) => after.withAboard[tier] > before.withAboard[tier]);
    return better
      ? "leaves the kit as it is, and makes it surer"
      : "leaves the kit as it is, and makes it less sure";
  }
  const { cost, pieces, massKg } = saves;
  const figure = (value: number, words: string): string[] =>
    value === 0 ? [] : [`${words} ${value > 0 ? "less" : "more"}`];
  const change = [
    ...figure(cost.minor, moneyWords(Math.abs(cost.minor), cost.currency)),
    ...figure(pieces, plural(Math.abs(pieces), "piece")),
    ...figure(massKg, massWords(Math.abs(massKg), units)),
  ];
  return `makes the kit ${change.join(", ")}`;
}

function sentence(
  vessel: string,
  crossing: string,
  looked: number,
  jobs: readonly PrepareJob[],
  all: PrepareAnswer["all"],
): string {
  if (looked === 0)
    return `No service of ${vessel} falls due on ${crossing} and no piece is known to wear with age: nothing need be done first.`;
  const helpful = jobs.filter((job) => job.saves.cost.minor > 0 || job.saves.pieces > 0);
  const best = helpful[0];
  if (best === undefined)
    return `Of ${plural(looked, "piece")} of work looked at on ${vessel} none makes the kit for ${crossing} smaller if done before leaving.`;
  const { saves, takesCost } = all;
  return `${plural(helpful.length, "piece")} of work done before ${vessel} leaves for ${crossing} would each make the kit smaller, ${best.what} on ${best.item.name} most (${moneyWords(best.saves.cost.minor, best.saves.cost.currency)}); all ${plural(jobs.length, "job")} listed together take ${moneyWords(saves.cost.minor, saves.cost.currency)} and ${plural(saves.pieces, "piece")} off it, and use ${moneyWords(takesCost.minor, takesCost.currency)} of parts ashore.`;
}
