import type { SimulationAnswer, SimulationRequest } from "../contract/simulation.contract.ts";
import { Problem } from "../errors/problem.ts";
import { isoOfDay } from "../scoring/aboard/calendar.ts";
import type { VesselKit } from "../scoring/provision/vessel-kit.ts";
import { bindCrossing } from "../scoring/simulation/bind-crossing.ts";
import type { Snapshot } from "../scoring/snapshot/snapshot.ts";
import type { GraphStore } from "../store/graph-store.ts";
import { cautions } from "./cautions.ts";
import { chooseScene } from "./kit/choose-scene.ts";
import { functionSurvivals } from "./kit/kit-functions.ts";
import { kitLimits } from "./kit/kit-limits.ts";
import { tierNames } from "./kit/kit-lines.ts";
import { kitNotices } from "./kit/kit-notices.ts";
import { kitSettings } from "./kit/kit-settings.ts";
import { provideKit } from "./kit/provide-kit.ts";
import { simulateInThreads, type ThreadSettings } from "./simulate/simulate-in-threads.ts";
import {
  estimateWords,
  modelDifferences,
  simulationSentence,
} from "./simulate/simulation-words.ts";
import { type StockFigures, stockFigures } from "./simulate/stock-figures.ts";
import { besideBefore } from "./what-if/beside-before.ts";
import { simulationsSideBySide } from "./what-if/compare-simulations.ts";

const defaultCrossings = 100_000;
const defaultSeed = 1;

/**
 * Plays one vessel's crossing many times, with what is aboard and with the kit that `planKit` would give for the same
 * request, and sets what was counted beside what the formulas say.
 *
 * @param today ISO day, the caller's clock
 * With `whatIf` the graph as imagined is played, its figures beside those of the graph as it is.
 * Errors: those of `planKit`; `rate-invalid` where more failures are expected than can be played.
 */
export async function simulateCrossing(
  store: GraphStore,
  request: SimulationRequest,
  today: string,
  work: Pick<ThreadSettings, "progress" | "signal" | "threads"> = {},
): Promise<SimulationAnswer> {
  const { whatIf, ...asked } = request;
  if (whatIf === undefined) return crossingAsItIs(store, asked, today, work);
  let turn = 0;
  const { progress } = work;
  const half = (): typeof work => {
    const first = turn++;
    if (progress === undefined) return work;
    return { ...work, progress: (done, total) => progress(done + first * total, 2 * total) };
  };
  return besideBefore(
    store,
    whatIf,
    (from) => crossingAsItIs(from, asked, today, half()),
    simulationsSideBySide,
  );
}

async function crossingAsItIs(
  store: GraphStore,
  request: SimulationRequest,
  today: string,
  work: Pick<ThreadSettings, "progress" | "signal" | "threads">,
): Promise<SimulationAnswer> {
  const { crossings = defaultCrossings, seed = defaultSeed, ...asked } = request;
  const { chosen, snapshot, vessel, vesselName, crossingName } = await chooseScene(
    store,
    asked,
    today,
  );
  const robbing = asked.robbing ?? true;
  const kit = await provideKit(
    snapshot,
    vessel,
    chosen.passage,
    {
      ...kitSettings(asked),
      ...kitLimits(snapshot, vessel, asked),
    },
    {
      ...(work.signal === undefined ? {} : { signal: work.signal }),
      ...(asked.seconds === undefined ? {} : { seconds: asked.seconds }),
    },
  );
  const model = bindCrossing(snapshot, vessel, chosen.passage, kit, robbing);
  const stocks = [
    Int32Array.from(kit.rows, (row) => row.usable),
    Int32Array.from(kit.rows, (row) => row.usable + row.buy),
  ];
  const tally = await simulateInThreads(model, stocks, { ...work, crossings, seed });
  const [aboard, withKit] = stocks.map((pieces, at) => {
    const own = tally.stocks[at];
    if (own === undefined) throw new Problem("unexpected", "A simulated stock was not counted.");
    return stockFigures(kit, tally, own, pieces);
  });
  if (aboard === undefined || withKit === undefined)
    throw new Problem("unexpected", "The simulation must judge two stocks.");
  const answer = {
    vessel: { id: chosen.vessel.id, name: vesselName },
    crossing: {
      name: crossingName,
      departs: isoOfDay(chosen.passage.departsDay),
      daysLongest: chosen.passage.daysLongest,
    },
    crossings,
    seed,
    demandsPerCrossing: tally.demands / crossings,
    tiers: ([0, 1, 2] as const).map((tier) => ({
      tier: tierNames[tier],
      parts: kit.rows.filter((row) => row.part.tier === tier).length,
      withAboard: aboard.tier(tier),
      withKit: withKit.tier(tier),
    })),
    functions: simulatedFunctions(snapshot, kit, robbing, aboard, withKit),
    parts: simulatedParts(snapshot, kit, aboard, withKit),
  };
  return {
    ...answer,
    sentence: simulationSentence(answer),
    aboard: aboard.means,
    kit: withKit.means,
    differences: [...modelDifferences],
    notices: [...chosen.notices, ...kitNotices(snapshot, kit, chosen.passage)],
    cautions: [...cautions],
  };
}

function simulatedFunctions(
  snapshot: Snapshot,
  kit: VesselKit,
  robbing: boolean,
  aboard: StockFigures,
  withKit: StockFigures,
): SimulationAnswer["functions"] {
  return functionSurvivals(snapshot, kit, robbing).map((f, at) => {
    const own = withKit.survival(at, f.withKit, f.withKitAtMost);
    return {
      function: f.function,
      tier: f.tier,
      need: f.need,
      fitted: f.fitted,
      withAboard: aboard.survival(at, f.withAboard, f.withAboardAtMost),
      withKit: own,
      words: `${f.need} of ${f.fitted} needed: kept in ${estimateWords(own.asLived)} of the crossings with the kit, ${estimateWords(own.asCounted)} as the formulas count.`,
    };
  });
}

function simulatedParts(
  snapshot: Snapshot,
  kit: VesselKit,
  aboard: StockFigures,
  withKit: StockFigures,
): SimulationAnswer["parts"] {
  return kit.rows
    .map((row, at) => {
      const part = kit.classes.members[row.demand.partClass]?.[0] ?? -1;
      return {
        part: {
          id: String(snapshot.parts.id[part] ?? ""),
          name: snapshot.parts.partNumber[part] ?? "",
        },
        description: snapshot.parts.description[part] ?? "",
        tier: tierNames[row.part.tier],
        aboard: row.usable,
        buy: row.buy,
        shortWithAboard: aboard.partShort(at),
        shortWithKit: withKit.partShort(at),
      };
    })
    .sort((a, b) => b.shortWithKit.simulated.value - a.shortWithKit.simulated.value);
}
