import type { VoyageAnswer } from "../../contract/voyage.contract.ts";
import { moneyWords, plural } from "../words.ts";
import type { Beside } from "./beside-before.ts";

type Departure = VoyageAnswer["departures"][number];

const leaving = ({ from }: Departure, at: number): string =>
  at === 0 ? `leaving ${from}` : `at ${from}`;

/** Sets two voyages side by side, departure by departure, and the chance of the whole. */
export const voyagesSideBySide: Beside<VoyageAnswer> = {
  scene: ({ vessel, departures }) => ({
    vessel: vessel.id,
    fittedOn: departures[0]?.departs ?? "1970-01-01",
  }),
  figures: ({ departures, tiers, withoutCalls }) => [
    ...departures.flatMap((one, at) => {
      const { kit, status, supplies } = one;
      const where = leaving(one, at);
      const isKnown = status !== "infeasible";
      const what = at === 0 ? "to buy" : "level to hold";
      return [
        {
          figure: `${where}: ${what}`,
          kind: "money" as const,
          currency: kit.cost.currency,
          value: isKnown ? kit.cost.minor : undefined,
        },
        {
          figure: `${where}: pieces ${what}`,
          kind: "count" as const,
          value: isKnown ? kit.pieces : undefined,
        },
        {
          figure: `${where}: weight ${what}`,
          kind: "kg" as const,
          value: isKnown ? kit.massKg : undefined,
        },
        ...(at === 0
          ? []
          : [
              {
                figure: `${where}: parts that can be had`,
                kind: "count" as const,
                value: supplies.parts,
              },
            ]),
        ...one.tiers
          .filter(({ parts }) => parts > 0)
          .map((tier) => ({
            figure: `${where}: not short, ${tier.tier}`,
            kind: "chance" as const,
            value: tier.withKit,
          })),
      ];
    }),
    ...tiers.map(({ tier, whole }) => ({
      figure: `not short on the whole voyage, ${tier}`,
      kind: "chance" as const,
      value: whole,
    })),
    {
      figure: "kit if nothing could be had on the way",
      kind: "money",
      currency: withoutCalls.cost.currency,
      value: withoutCalls.cost.minor,
    },
  ],
  pieces: ({ departures }) =>
    new Map(
      departures.flatMap((one, at) =>
        one.lines.map(({ part, carry, buy }): [string, number] => [
          `${leaving(one, at)}: ${part.name}`,
          at === 0 ? buy : carry,
        ]),
      ),
    ),
  sentence: (before, after) => {
    const [was, is] = [before.departures[0], after.departures[0]];
    if (was === undefined || is === undefined)
      return "One side of the comparison has no departure.";
    if (was.status === "infeasible" || is.status === "infeasible") {
      return `At ${is.from} a target is ${is.status === "infeasible" ? "out of reach after the change" : "within reach only after the change"}, so the two cannot be set against each other in money.`;
    }
    const money = is.kit.cost.minor - was.kit.cost.minor;
    const { currency } = is.kit.cost;
    const moved = after.departures
      .slice(1)
      .filter((one, at) => {
        const other = before.departures[at + 1];
        return other?.kit.cost.minor !== one.kit.cost.minor || other.kit.pieces !== one.kit.pieces;
      })
      .map(({ from }) => from);
    const ports =
      after.departures.length < 2
        ? ""
        : moved.length === 0
          ? "; what to hold at its ports of call stays the same"
          : `; what to hold changes at ${moved.join(", ")}`;
    const cost =
      money === 0
        ? "costs the same"
        : `costs ${moneyWords(Math.abs(money), currency)} ${money > 0 ? "more" : "less"}`;
    return `With the change the kit at ${is.from} ${cost}: ${plural(is.kit.pieces, "piece")} to buy instead of ${was.kit.pieces}${ports}.`;
  },
};
