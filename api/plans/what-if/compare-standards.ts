import type { StandardiseAnswer, StandardiseRequest } from "../../contract/standardise.contract.ts";
import { moneyWords, plural } from "../words.ts";
import type { Beside } from "./beside-before.ts";

/** Sets what to standardise on for the gear as it is beside the same for the gear as imagined. */
export const standardsBeside = (
  { vessel, departs }: StandardiseRequest,
  today: string,
): Beside<StandardiseAnswer> => ({
  scene: () => ({ vessel, fittedOn: departs ?? today }),
  figures: ({ before, after, changeCost, changes, saving, currency }) => [
    { figure: "kits with the gear kept", kind: "money", currency, value: before.kit?.minor },
    { figure: "kits with what pays changed", kind: "money", currency, value: after.kit?.minor },
    { figure: "cost of the changes", kind: "money", currency, value: changeCost.minor },
    { figure: "saved over the horizon", kind: "money", currency, value: saving?.minor },
    { figure: "changes that pay", kind: "count", value: changes.length },
    { figure: "spares kits with the gear kept", kind: "count", value: before.kits },
    { figure: "spares kits with what pays changed", kind: "count", value: after.kits },
    { figure: "suppliers with the gear kept", kind: "count", value: before.suppliers },
    { figure: "suppliers with what pays changed", kind: "count", value: after.suppliers },
  ],
  entries: ({ changes }) =>
    new Map(
      changes.map(({ vessel: boat, from, to, positions, cost }) => [
        `${boat.id} ${from.id} ${to.id}`,
        {
          what: `${from.name} to ${to.name}, ${boat.name}`,
          words: `${plural(positions.length, "item")}, ${moneyWords(cost.minor, cost.currency)}`,
        },
      ]),
    ),
  sentence: (before, after) => {
    const paying = ({ changes }: StandardiseAnswer): string =>
      changes.length === 0
        ? "no change pays"
        : `${plural(changes.length, "change")} ${changes.length === 1 ? "pays" : "pay"}`;
    const saved = ({ saving }: StandardiseAnswer): string =>
      saving === null || saving.minor === 0
        ? ""
        : ` and saves ${moneyWords(saving.minor, saving.currency)}`;
    return `As imagined, ${paying(after)}${saved(after)}; as it is, ${paying(before)}${saved(before)}.`;
  },
});
