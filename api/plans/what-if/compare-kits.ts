import type { KitAnswer } from "../../contract/kit.contract.ts";
import { massWords, moneyWords, plural } from "../words.ts";
import type { Beside } from "./beside-before.ts";

const more = (difference: number, words: (amount: number) => string): string =>
  `${words(Math.abs(difference))} ${difference > 0 ? "more" : "less"}`;

/** Sets two kits side by side: money, pieces, weight, and the chance that each function lasts. */
export const kitsSideBySide: Beside<KitAnswer> = {
  scene: (before) => ({ vessel: before.vessel.id, fittedOn: before.crossing.departs }),
  figures: ({ total, status, tiers, functions, unsparable, withoutEvidence }) => {
    const known = status === "infeasible" ? undefined : total;
    return [
      {
        figure: "kit to buy",
        kind: "money",
        currency: total.cost.currency,
        value: known?.cost.minor,
      },
      { figure: "pieces to buy", kind: "count", value: known?.buyPieces },
      { figure: "different parts carried", kind: "count", value: known?.distinctParts },
      { figure: "weight to buy", kind: "kg", value: known?.massKg },
      { figure: "volume to buy", kind: "litres", value: known?.volumeLitres },
      { figure: "failures no spare can mend", kind: "count", value: unsparable.length },
      { figure: "parts without evidence", kind: "count", value: withoutEvidence.length },
      ...tiers.map((tier) => ({
        figure: `not short, ${tier.tier}, with what is aboard`,
        kind: "chance" as const,
        value: tier.withAboard,
      })),
      ...functions.map((one) => ({
        figure: `${one.function.name}, with the kit`,
        kind: "chance" as const,
        value: one.withKit,
      })),
    ];
  },
  pieces: ({ lines }) =>
    new Map(lines.map(({ partNumber, maker, buy }) => [`${maker} ${partNumber}`.trim(), buy])),
  sentence: (before, after) => {
    if (before.status === "infeasible" || after.status === "infeasible") {
      return `The targets are ${after.status === "infeasible" ? "out of reach after the change" : "within reach only after the change"}, so the two kits cannot be set against each other in money.`;
    }
    const money = after.total.cost.minor - before.total.cost.minor;
    const mass = after.total.massKg - before.total.massKg;
    const pieces = after.total.buyPieces - before.total.buyPieces;
    if (money === 0 && pieces === 0) return "The change leaves the kit as it is.";
    const { currency } = after.total.cost;
    return `With the change the kit costs ${money === 0 ? "the same" : more(money, (m) => moneyWords(m, currency))}: ${plural(after.total.buyPieces, "piece")} to buy instead of ${plural(before.total.buyPieces, "piece")}${Math.abs(mass) < 0.05 ? "" : `, ${more(mass, (kg) => massWords(kg, after.units))}`}.`;
  },
};
