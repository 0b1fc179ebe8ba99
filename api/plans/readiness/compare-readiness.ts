import type { ReadinessAnswer, VesselReadiness } from "../../contract/readiness.contract.ts";
import type { Beside, ComparedFigure } from "../what-if/beside-before.ts";
import { moneyWords, plural } from "../words.ts";

function vesselFigures(one: VesselReadiness, isOnly: boolean): readonly ComparedFigure[] {
  const { tiers, toBuy, services, singleSource, evidence, items } = one;
  const isKnown = toBuy.status !== "infeasible";
  const figures: readonly ComparedFigure[] = [
    ...tiers
      .filter(({ parts }) => parts > 0)
      .map(({ tier, withAboard }) => ({
        figure: `not short, ${tier}, with what is aboard`,
        kind: "chance" as const,
        value: withAboard,
      })),
    {
      figure: "pieces to buy",
      kind: "count",
      value: isKnown ? toBuy.pieces : undefined,
    },
    ...(toBuy.cost === null
      ? []
      : [
          {
            figure: "kit to buy",
            kind: "money" as const,
            currency: toBuy.cost.currency,
            value: isKnown ? toBuy.cost.minor : undefined,
          },
        ]),
    { figure: "items fitted", kind: "count", value: items },
    { figure: "services due before leaving", kind: "count", value: services.due },
    { figure: "services due on passage", kind: "count", value: services.onPassage },
    { figure: "services short of parts", kind: "count", value: services.shortOfParts },
    {
      figure: "parts that stop gear and only one sells",
      kind: "count",
      value: singleSource.stopping,
    },
    {
      figure: "parts that stop gear and nobody sells",
      kind: "count",
      value: singleSource.unsoldStopping,
    },
    { figure: "parts resting on an assumed rate", kind: "count", value: evidence.assumed },
    { figure: "parts without evidence", kind: "count", value: evidence.without },
    { figure: "failures no spare can mend", kind: "count", value: evidence.unsparable },
  ];
  return isOnly
    ? figures
    : figures.map((row) => ({ ...row, figure: `${one.vessel.name}: ${row.figure}` }));
}

/** What the change does to one vessel's kit, or nothing where it does nothing to it. */
function vesselWords(was: VesselReadiness, is: VesselReadiness): string | undefined {
  const pieces = is.toBuy.pieces - was.toBuy.pieces;
  const money = (is.toBuy.cost?.minor ?? 0) - (was.toBuy.cost?.minor ?? 0);
  if (was.toBuy.status === "infeasible" || is.toBuy.status === "infeasible") {
    return was.toBuy.status === is.toBuy.status
      ? undefined
      : `${is.vessel.name} has its targets ${is.toBuy.status === "infeasible" ? "out of reach" : "within reach"}`;
  }
  if (pieces === 0 && money === 0 && was.ready === is.ready) return undefined;
  const currency = is.toBuy.cost?.currency;
  const cost =
    money === 0 || currency === undefined
      ? ""
      : `, ${moneyWords(Math.abs(money), currency)} ${money > 0 ? "more" : "less"} to pay`;
  const count =
    pieces === 0
      ? "as many pieces"
      : `${plural(Math.abs(pieces), "piece")} ${pieces > 0 ? "more" : "fewer"}`;
  return `${is.vessel.name} has ${count} to buy${cost}${was.ready === is.ready ? "" : is.ready ? ", and is ready" : ", and is no longer ready"}`;
}

/** Sets two pictures of readiness side by side, vessel by vessel, with what needs attention on either side. */
export const readinessSideBySide: Beside<ReadinessAnswer> = {
  scene: ({ vessels, today }) => {
    const departs = new Map(vessels.map((one) => [one.vessel.id, one.crossing.departs]));
    const [only] = vessels;
    return {
      vessel: vessels.length === 1 ? only?.vessel.id : undefined,
      fittedOn: (vessel) => departs.get(String(vessel)) ?? today,
    };
  },
  figures: ({ vessels }) => [
    {
      figure: "vessels provided for",
      kind: "count",
      value: vessels.filter(({ ready }) => ready).length,
    },
    ...vessels.flatMap((one) => vesselFigures(one, vessels.length === 1)),
  ],
  entries: ({ vessels }) =>
    new Map(
      vessels.flatMap(({ vessel, attention }) =>
        attention.map(({ kind, words }): [string, { what: string; words: string }] => [
          `${vessel.id} ${kind}`,
          { what: `${vessel.name}: ${kind}`, words },
        ]),
      ),
    ),
  notices: [
    "New gear counts as fitted on its vessel's day of departure, with no hours run and its services done that day.",
    "What lies in the lockers stays as it is.",
  ],
  sentence: (before, after) => {
    const moved = after.vessels.flatMap((is) => {
      const was = before.vessels.find(({ vessel }) => vessel.id === is.vessel.id);
      return was === undefined ? [] : (vesselWords(was, is) ?? []);
    });
    return moved.length === 0
      ? "With the change no vessel has more or fewer pieces to buy."
      : `With the change ${moved.join("; ")}.`;
  },
};
