import { availableParallelism } from "node:os";
import type { StandardiseAnswer, StandardiseRequest } from "../contract/standardise.contract.ts";
import { Problem } from "../errors/problem.ts";
import { fittedKits } from "../scoring/choice/fitted-kits.ts";
import { partsSupply } from "../scoring/choice/gear-footprint.ts";
import { partClasses } from "../scoring/classes/part-classes.ts";
import { commonCurrency } from "../scoring/provision/class-price.ts";
import { moneyIn } from "../scoring/provision/money-in.ts";
import { mergingOf } from "../scoring/provision/vessel-kit.ts";
import type { Snapshot } from "../scoring/snapshot/snapshot.ts";
import { bindFleet } from "../scoring/standardise/bind-fleet.ts";
import { solveStandard } from "../scoring/standardise/solve-standard.ts";
import { keepAll, standardCost } from "../scoring/standardise/standard-problem.ts";
import type { GraphStore } from "../store/graph-store.ts";
import { cautions } from "./cautions.ts";
import { quotedPrice } from "./choose/weigh-candidate.ts";
import { nodeByWord } from "./choose-scope.ts";
import { choosePassage } from "./kit/choose-passage.ts";
import { modelReference } from "./kit/kit-lines.ts";
import { stockSettings, tierTargets } from "./kit/kit-settings.ts";
import { solveInThread } from "./solve/solve-in-thread.ts";
import {
  bestFirst,
  type FleetFigures,
  type FleetMove,
  FleetReckoner,
  type FleetVessel,
  movesOf,
  paybackYears,
  payingMoves,
} from "./standardise/fleet-moves.ts";
import { fleetOpportunities } from "./standardise/fleet-opportunities.ts";
import { heldRows, standardSentence, yearsWords } from "./standardise/standard-words.ts";
import { besideBefore } from "./what-if/beside-before.ts";
import { standardsBeside } from "./what-if/compare-standards.ts";
import { moneyWords, plural } from "./words.ts";

/** What the caller hears and may stop. */
export interface StandardiseWork {
  readonly progress?: (stage: string, done: number, total: number) => void;
  readonly signal?: AbortSignal;
}

/** Parts of a large fleet solved at once. */
const mostThreads = 4;

const defaults = { years: 5, supplier: 10_000, kit: 2_500, seconds: 20 } as const;

/**
 * What to keep and what to change within a budget, so that change cost, kits at equal protection, and yearly charges for
 * suppliers and spares kits over a horizon are least; the changes in the order in which they pay; what each pair of makes
 * of a kind would do; and what standardising risks. Nothing is written.
 *
 * The choice is made in a planning model (bind-fleet.ts) and proven there, or bounded when time runs out; every figure told
 * of it is then solved exactly.
 *
 * With `whatIf` the gear is as imagined, its figures beside those of the gear as it is; each side has its own time.
 *
 * @param today ISO day, the caller's clock
 * Errors: `not-found`, `crossing-invalid`, `rate-invalid`, `solver-failed`; with `whatIf` also `input-invalid`, `key-taken`.
 * Stops with the signal's reason.
 */
export async function standardiseGear(
  store: GraphStore,
  request: StandardiseRequest,
  today: string,
  work: StandardiseWork = {},
): Promise<StandardiseAnswer> {
  const { whatIf, ...asked } = request;
  if (whatIf === undefined) return standardiseAsItIs(store, asked, today, work);
  const { progress } = work;
  return besideBefore(
    store,
    whatIf,
    (from) =>
      standardiseAsItIs(from, asked, today, {
        ...work,
        ...(progress === undefined
          ? {}
          : {
              progress: (stage, done, total) =>
                progress(`as ${from === store ? "it is" : "imagined"}, ${stage}`, done, total),
            }),
      }),
    standardsBeside(asked, today),
  );
}

async function standardiseAsItIs(
  store: GraphStore,
  request: StandardiseRequest,
  today: string,
  { progress, signal }: StandardiseWork,
): Promise<StandardiseAnswer> {
  const { vessel: wanted } = request;
  const whole = await store.snapshot();
  const currency = request.currency ?? commonCurrency(whole);
  const only = wanted === undefined ? undefined : await nodeByWord(store, "Vessel", wanted);
  const rows = [...whole.vessels.id.keys()].filter(
    (row) =>
      (only === undefined || whole.vessels.id[row] === only.id) && whole.items.vessel.includes(row),
  );
  const targets = tierTargets(request);
  const settings = { ...stockSettings(request), currency };
  const vessels: FleetVessel[] = [];
  const notices: StandardiseAnswer["notices"] = [];
  for (const row of rows) {
    const id = whole.vessels.id[row];
    if (id === undefined) throw new Problem("unexpected", "A vessel's row has no id.");
    const chosen = await choosePassage(store, { ...request, vessel: id }, today);
    const own = await store.snapshot(id);
    const snapshot: Snapshot = { ...whole, imaginedFrom: own.imaginedFrom ?? own };
    if (row === rows[0]) notices.push(...chosen.notices);
    vessels.push({
      row,
      snapshot,
      passage: chosen.passage,
      targets,
      kits: fittedKits(snapshot, row, settings),
    });
  }
  const years = request.horizonYears ?? defaults.years;
  const charges = {
    supplier: request.supplierYearlyMinor ?? defaults.supplier,
    kit: request.kitYearlyMinor ?? defaults.kit,
    years,
  };
  // Over several vessels one set of classes: what is safety gear on any of them is so for all.
  const classes = partClasses(whole, mergingOf(settings, undefined));
  const planned = ({ row, snapshot, passage, kits }: FleetVessel) =>
    (classes.safetyApart.length === 0
      ? kits
      : fittedKits(snapshot, row, { ...settings, fleetClasses: true })
    ).pieceKit(snapshot, [], passage, targets);
  const foreign = new Set<string>();
  const kinds = request.categories?.map((name) => name.trim().toLowerCase());
  const bound = bindFleet(
    whole,
    classes,
    vessels.map((vessel) => ({
      row: vessel.row,
      passage: vessel.passage,
      targets,
      kit: planned(vessel),
    })),
    {
      priceOf: (model) => {
        const quoted = quotedPrice(whole, model);
        if (quoted === undefined) return undefined;
        const price = moneyIn(currency, quoted, request.rates ?? {});
        if (price === undefined) foreign.add(quoted.currency);
        return price;
      },
      fittingCost: request.fittingMinor ?? 0,
      mayChange: (category) => kinds === undefined || kinds.includes(category.trim().toLowerCase()),
      supplierCharge: Math.round(charges.supplier * years),
      kitCharge: Math.round(charges.kit * years),
      budget: request.budgetMinor ?? Number.POSITIVE_INFINITY,
    },
  );
  const seconds = request.seconds ?? defaults.seconds;
  signal?.throwIfAborted();
  const solved = await solveStandard(
    bound.problem,
    solveInThread,
    {
      seconds,
      ...(signal === undefined ? {} : { signal }),
      ...(progress === undefined
        ? {}
        : {
            progress: (at) =>
              progress("seconds of proof at most", Math.min(seconds, at.seconds), seconds),
          }),
    },
    Math.min(mostThreads, availableParallelism()),
  );
  const reckoner = new FleetReckoner(vessels, bound, charges);
  const moves = payingMoves(reckoner, movesOf(whole, bound, solved.taken), signal);
  const steps = bestFirst(reckoner, moves, years, signal);
  const money = (minor: number) => ({ minor, currency });
  const before = reckoner.figures([]);
  const after = reckoner.figures(moves);
  const saving =
    before.total === undefined || after.total === undefined
      ? undefined
      : before.total - after.total;
  const opportunities = fleetOpportunities(
    whole,
    classes,
    bound,
    reckoner,
    rows,
    years,
    currency,
    signal,
  );
  const kitSaving = (before.kit ?? 0) - (after.kit ?? 0);
  const payback =
    moves.length === 0
      ? undefined
      : paybackYears(after.change, kitSaving, before.yearly - after.yearly);
  const moved = (move: FleetMove) => ({
    vessel: {
      id: String(whole.vessels.id[move.vessel]),
      name: whole.vessels.name[move.vessel] ?? "",
    },
    category: whole.models.category[move.from] ?? "",
    positions: move.items.map((item) => whole.items.position[item] ?? ""),
    from: modelReference(whole, move.from),
    to: modelReference(whole, move.to),
    cost: money(move.cost),
  });
  const positions = bound.problem.groups
    .filter(({ options }) => options.length > 1)
    .reduce((sum, { count }) => sum + count, 0);
  const side = (figures: FleetFigures) => ({
    kit: figures.kit === undefined ? null : money(figures.kit),
    kits: figures.kits,
    suppliers: figures.suppliers,
    yearly: money(figures.yearly),
    total: figures.total === undefined ? null : money(figures.total),
  });
  const changes = moves.map(moved);
  const budget = request.budgetMinor === undefined ? null : money(request.budgetMinor);
  const keep = standardCost(bound.problem, keepAll(bound.problem)).total;
  const scope =
    only === undefined
      ? rows.length === 1
        ? (whole.vessels.name[rows[0] ?? 0] ?? "the vessel")
        : `the ${rows.length} vessels`
      : (whole.vessels.name[rows[0] ?? -1] ?? String(only.properties["name"] ?? ""));
  return {
    scope:
      only === undefined
        ? {}
        : { vessel: { id: only.id, name: String(only.properties["name"] ?? "") } },
    currency,
    sentence: standardSentence({
      scope,
      changes,
      positions,
      before: side(before),
      after: side(after),
      changeCost: money(after.change),
      saving: saving === undefined ? null : money(saving),
      payback: payback ?? null,
      budget,
      horizonYears: years,
      best: opportunities[0],
      modelSeesGain: solved.cost.total < keep,
    }),
    status: solved.status,
    model: {
      total: money(solved.cost.total),
      lowerBound: money(solved.lowerBound),
      gap: solved.gap,
      foundBy: solved.foundBy,
      positions,
      words:
        solved.status === "optimal"
          ? `In the planning model (mean demands taken as pure chance, robbing left aside, today's price of protection) no choice within the budget costs less than ${moneyWords(solved.cost.total, currency)}; keeping all costs ${moneyWords(keep, currency)}. The kits here are solved exactly.`
          : `Time ran out: the best choice found costs ${moneyWords(solved.cost.total, currency)} in the planning model, and none can cost less than ${moneyWords(solved.lowerBound, currency)} (${(100 * solved.gap).toFixed(1)} % below). The kits here are solved exactly.`,
    },
    budget,
    horizonYears: years,
    changeCost: money(after.change),
    saving: saving === undefined ? null : money(saving),
    paybackYears: payback ?? null,
    before: side(before),
    after: side(after),
    changes,
    sequence: steps.map(({ move, kitSaving: kit, yearlySaving }) => {
      const own = paybackYears(move.cost, kit, yearlySaving);
      const what = moved(move);
      return {
        ...what,
        kitSaving: money(kit),
        yearlySaving: money(yearlySaving),
        paybackYears: own ?? null,
        words: `${plural(move.items.length, "item")} of ${what.from.name} to ${what.to.name} on ${what.vessel.name}: costs ${moneyWords(move.cost, currency)}, the kits then cost ${moneyWords(Math.abs(kit), currency)} ${kit >= 0 ? "less" : "more"}, ${chargeWords(yearlySaving, currency)}; it pays ${own === undefined ? "only together with other changes" : yearsWords(own)}.`,
      };
    }),
    opportunities,
    held: heldRows(bound.held),
    counterweight: counterweight(whole, classes, rows, moves),
    notices: [
      ...notices,
      ...chargeNotices(request, currency, years),
      {
        code: "by-the-piece",
        text: "The planning model counts pieces singly. The kits told here are bought as they are sold, in packs and service kits.",
      },
      ...(reckoner.isProven
        ? []
        : [
            {
              code: "kits-not-proven",
              text: "Some kit holds service kits too entangled to be settled here: its cost is the best found, not proven least. The kit itself settles it.",
            },
          ]),
      ...[...foreign].sort().map((code) => ({
        code: "currency-without-rate",
        text: `Gear priced in ${code} was left out: no rate to ${currency} was given.`,
      })),
      ...(before.kit === undefined
        ? [
            {
              code: "today-infeasible",
              text: "With the gear fitted now no stock of spares reaches the targets on every vessel, so savings cannot be told.",
            },
          ]
        : []),
    ],
    cautions: [...cautions],
  };
}

function chargeWords(saving: number, currency: string): string {
  if (saving === 0) return "the yearly charges stay as they are";
  return `charges ${saving > 0 ? "fall" : "rise"} by ${moneyWords(Math.abs(saving), currency)} a year`;
}

/** Charges nobody gave are assumed, and said to be. */
function chargeNotices(
  request: StandardiseRequest,
  currency: string,
  years: number,
): StandardiseAnswer["notices"] {
  const assumed = [
    ...(request.supplierYearlyMinor === undefined
      ? [`${moneyWords(defaults.supplier, currency)} a year for each supplier`]
      : []),
    ...(request.kitYearlyMinor === undefined
      ? [`${moneyWords(defaults.kit, currency)} a year for each different spares kit`]
      : []),
    ...(request.horizonYears === undefined ? [`a horizon of ${years} years`] : []),
    ...(request.fittingMinor === undefined ? ["nothing for the work of fitting"] : []),
  ];
  return assumed.length === 0
    ? []
    : [{ code: "charges-assumed", text: `Assumed, for want of your own: ${assumed.join(", ")}.` }];
}

/** What the changes put into one basket: the share of a kind that hangs on one make, and on one supplier. */
function counterweight(
  snapshot: Snapshot,
  classes: Parameters<typeof partsSupply>[1],
  rows: readonly number[],
  moves: readonly FleetMove[],
): string[] {
  const { items, models } = snapshot;
  const now = Int32Array.from(items.model);
  for (const { items: own, to } of moves) for (const item of own) now[item] = to;
  const found: string[] = [];
  for (const to of new Set(moves.map((move) => move.to))) {
    const category = models.category[to] ?? "";
    const alike = [...items.id.keys()].filter(
      (item) =>
        rows.includes(items.vessel[item] ?? -1) &&
        (models.category[items.model[item] ?? -1] ?? "") === category,
    );
    const share = alike.filter((item) => now[item] === to).length;
    const supply = partsSupply(snapshot, classes, to);
    const sole =
      supply.singleSource === 0
        ? "each of its parts on sale has more than one supplier"
        : `${plural(supply.singleSource, "part")} of it ${supply.singleSource === 1 ? "has" : "have"} one supplier only`;
    found.push(
      `${share} of the ${plural(alike.length, "item")} of the kind "${category}" would be ${modelReference(snapshot, to).name}: a shared defect, a bad batch or a maker that stops would touch all of them at once; ${sole}.`,
    );
  }
  return found.length > 0
    ? found
    : [
        "Nothing changes, so nothing more is put into one basket. Sharing parts also shares a defect, a batch and a supplier.",
      ];
}
