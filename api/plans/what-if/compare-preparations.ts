import type { PrepareAnswer } from "../../contract/prepare.contract.ts";
import { moneyWords, plural } from "../words.ts";
import type { Beside } from "./beside-before.ts";

const sayMoney = ({ minor, currency }: { minor: number; currency: string }): string =>
  moneyWords(minor, currency);

/** Sets two answers on work before leaving side by side: the kit, what all the work takes off it, and each job. */
export const preparationsSideBySide: Beside<PrepareAnswer> = {
  scene: ({ vessel, crossing }) => ({ vessel: vessel.id, fittedOn: crossing.departs }),
  figures: ({ kit, all, jobs, looked }) => {
    const { currency } = kit.cost;
    const bothKnown = kit.feasible && all.kit.feasible;
    return [
      {
        figure: "kit as things stand",
        kind: "money",
        currency,
        value: kit.feasible ? kit.cost.minor : undefined,
      },
      {
        figure: "all the work takes off it",
        kind: "money",
        currency,
        value: bothKnown ? all.saves.cost.minor : undefined,
      },
      {
        figure: "pieces it takes off",
        kind: "count",
        value: bothKnown ? all.saves.pieces : undefined,
      },
      { figure: "parts the work uses ashore", kind: "money", currency, value: all.takesCost.minor },
      { figure: "pieces of work that move the kit", kind: "count", value: jobs.length },
      { figure: "pieces of work tried", kind: "count", value: looked },
      ...(["safety", "passage", "comfort"] as const).map((tier) => ({
        figure: `not short, ${tier}, with what is aboard`,
        kind: "chance" as const,
        value: kit.withAboard[tier],
      })),
    ];
  },
  entries: ({ jobs }) =>
    new Map(
      jobs.map((job) => [
        `${job.item.id} ${job.kind} ${job.what}`,
        { what: `${job.item.name}: ${job.what}`, words: job.words },
      ]),
    ),
  sentence: (before, after) => {
    const work = `With the change ${plural(after.jobs.length, "piece")} of work ${after.jobs.length === 1 ? "moves" : "move"} the kit instead of ${before.jobs.length}`;
    return before.all.saves.cost.minor === after.all.saves.cost.minor
      ? `${work}; all of it takes ${sayMoney(after.all.saves.cost)} off, as before.`
      : `${work}; all of it takes ${sayMoney(after.all.saves.cost)} off instead of ${sayMoney(before.all.saves.cost)}.`;
  },
};
