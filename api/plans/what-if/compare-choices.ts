import type { ChoiceCandidate, ChooseAnswer } from "../../contract/choose.contract.ts";
import { moneyWords } from "../words.ts";
import type { Sides } from "./beside-before.ts";

/** Sets two choices side by side: the verdict, today's kit, and what each make's boat costs. */
export const choicesBeside: Sides<ChooseAnswer> = {
  figures: ({ before, candidates, cheapest, currency, rejected }) => {
    const best = candidates.find(({ model }) => model.id === cheapest?.id);
    return [
      {
        figure: "kit with the gear fitted now",
        kind: "money",
        currency,
        value: before.kit?.minor,
      },
      {
        figure: "the cheapest boat, make and kit",
        kind: "money",
        currency,
        value: best?.boat?.minor,
      },
      { figure: "makes that meet the needs", kind: "count", value: candidates.length },
      { figure: "makes that do not", kind: "count", value: rejected.length },
      { figure: "different parts of the gear fitted now", kind: "count", value: before.parts },
      { figure: "suppliers of the gear fitted now", kind: "count", value: before.suppliers },
    ];
  },
  entries: ({ candidates, rejected }) =>
    new Map([
      ...candidates.map(
        (one) => [one.model.id, { what: one.model.name, words: words(one) }] as const,
      ),
      ...rejected.map(
        ({ model }) => [model.id, { what: model.name, words: "does not meet the needs" }] as const,
      ),
    ]),
  sentence: (before, after) => {
    const was = before.cheapest?.name;
    const is = after.cheapest?.name;
    if (was === is)
      return is === undefined
        ? "Neither before nor with the change can one make be called the cheapest boat."
        : `With the change ${is} still makes the cheapest boat.`;
    if (is === undefined)
      return `With the change no make can be called the cheapest boat; before, ${was} was.`;
    return was === undefined
      ? `With the change ${is} makes the cheapest boat; before, none could be called so.`
      : `The change turns the verdict: ${is} makes the cheapest boat instead of ${was}.`;
  },
};

function words({ boat, kit, kitUnknown, rank }: ChoiceCandidate): string {
  const place = rank === null ? "" : `, number ${rank}`;
  if (boat !== null) return `make and kit ${moneyWords(boat.minor, boat.currency)}${place}`;
  if (kit !== null)
    return `kit ${moneyWords(kit.cost.minor, kit.cost.currency)}, its own price unknown`;
  return kitUnknown === null ? "kit out of reach" : "kit unknown";
}
