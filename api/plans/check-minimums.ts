import type { MinimumsAnswer, MinimumsRequest } from "../contract/minimums.contract.ts";
import { isoOfDay } from "../scoring/aboard/calendar.ts";
import { checkMinimum } from "../scoring/minimums/check-minimum.ts";
import type { MinimumRule } from "../scoring/minimums/minimum-rule.ts";
import { usableUntilDay } from "../scoring/provision/passage.ts";
import type { GraphStore } from "../store/graph-store.ts";
import { cautions } from "./cautions.ts";
import { chooseScene } from "./kit/choose-scene.ts";
import { kitLimits } from "./kit/kit-limits.ts";
import { kitSettings } from "./kit/kit-settings.ts";
import { provideKit } from "./kit/provide-kit.ts";
import { bindMinimums, type Provision } from "./minimums/bind-minimums.ts";
import { minimumLists } from "./minimums/minimum-lists.ts";
import { checkWords, minimumsSentence } from "./minimums/minimum-words.ts";
import { readMinimumList } from "./minimums/read-minimum-list.ts";
import { type Beside, besideBefore } from "./what-if/beside-before.ts";

type Check = MinimumsAnswer["lists"][number]["checks"][number];

/**
 * Holds what is aboard one vessel, and what the kit for the same request would add, against published minimum lists
 * and a list of the planner's own.
 *
 * @param today ISO day, the caller's clock
 * With `whatIf` the graph is as imagined, its figures beside those of the graph as it is.
 * Errors: those of `planKit`; `not-found` (list); `input-invalid`, `file-empty`, `file-binary` (own list).
 */
export async function checkMinimums(
  store: GraphStore,
  request: MinimumsRequest,
  today: string,
): Promise<MinimumsAnswer> {
  const { whatIf, ...asked } = request;
  if (whatIf === undefined) return minimumsAsTheyAre(store, asked, today);
  return besideBefore(
    store,
    whatIf,
    (from) => minimumsAsTheyAre(from, asked, today),
    minimumsSideBySide,
  );
}

const minimumsSideBySide: Beside<MinimumsAnswer> = {
  scene: (before) => ({ vessel: before.vessel.id, fittedOn: before.crossing.departs }),
  figures: ({ lists }) =>
    (["met", "met with kit", "short", "to be judged", "not applicable"] as const).map((status) => ({
      figure: `rules ${status}`,
      kind: "count",
      value: lists.flatMap((list) => list.checks).filter((check) => check.status === status).length,
    })),
  sentence: (before, after) => `Before: ${before.sentence} With the change: ${after.sentence}`,
};

async function minimumsAsTheyAre(
  store: GraphStore,
  request: MinimumsRequest,
  today: string,
): Promise<MinimumsAnswer> {
  const { lists: wanted, own, ...asked } = request;
  const published = await minimumLists(own !== undefined && wanted === undefined ? [] : wanted);
  const lists =
    own === undefined
      ? published.chosen
      : [...published.chosen, readMinimumList(own.name, own.text)];
  const { chosen, snapshot, vessel, vesselName, crossingName } = await chooseScene(
    store,
    asked,
    today,
  );
  const kit = await provideKit(snapshot, vessel, chosen.passage, {
    ...kitSettings(asked),
    ...kitLimits(snapshot, vessel, asked),
  });
  const provision = await bindMinimums(store, snapshot, vessel, kit);
  const name = vesselName;
  const checked = lists.map(({ id, title, applies, rules }) => ({
    id,
    title,
    applies,
    checks: rules.map((rule) => checkOf(rule, provision)),
  }));
  return {
    vessel: { id: chosen.vessel.id, name },
    crossing: {
      name: crossingName,
      departs: isoOfDay(chosen.passage.departsDay),
      usableUntil: isoOfDay(usableUntilDay(chosen.passage)),
    },
    sentence: minimumsSentence(name, checked),
    lists: checked,
    known: published.all.map(({ id, title }) => ({ id, name: title })),
    notices: [
      ...chosen.notices,
      {
        code: "lists-partial",
        text: "These lists hold the few lines named here, in our words, not the whole of any text. Rules are checked one by one: a piece may serve two of them. Read the text in force.",
      },
    ],
    cautions: [...cautions],
  };
}

function checkOf(rule: MinimumRule, { units, spares }: Provision): Check {
  const finding = checkMinimum(rule, units, spares);
  const partOf = (at: number) => {
    const spare = spares[at];
    return {
      part: spare?.name ?? "",
      aboard: spare?.aboard ?? 0,
      notUsable: spare?.notUsable ?? 0,
      bought: spare?.bought ?? 0,
    };
  };
  const isThere = (at: number): boolean =>
    (spares[at]?.aboard ?? 0) + (spares[at]?.notUsable ?? 0) + (spares[at]?.bought ?? 0) > 0;
  const total = (of: (share: (typeof finding.shares)[number]) => number): number =>
    finding.shares.reduce((sum, share) => sum + of(share), 0);
  return {
    place: rule.place,
    asks: rule.words,
    source: rule.source,
    dated: rule.dated,
    status: finding.status,
    required: finding.required,
    aboard: total((share) => share.aboard),
    withKit: total((share) => share.withKit),
    gear: finding.units.map((unit) => unit.name),
    leftOut: finding.leftOut.map((unit) => unit.name),
    shares: [...finding.shares],
    parts: finding.spares.map(partOf),
    unlisted: finding.unlisted.filter(isThere).map(partOf),
    words: checkWords(finding),
  };
}
