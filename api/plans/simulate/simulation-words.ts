import type { SimulationAnswer } from "../../contract/simulation.contract.ts";
import { groupDigits, plural } from "../words.ts";

type Estimate = SimulationAnswer["tiers"][number]["withKit"]["simulated"];

/** Where the two models differ, on purpose. */
export const modelDifferences: readonly string[] = [
  "Tiers and parts: both count every piece asked for in the whole crossing against the pieces aboard, bought and credited, so the two should agree.",
  "Functions as counted: every demand falls on running gear, as in the formulas. Where services or other gear draw on the same parts, or makes share them, the order of events decides: the formulas give the least and the most it can be, the simulation a figure between.",
  "Functions as lived: gear that has stopped no longer fails, which raises the figure; failures that no spare mends stop their item, which lowers it. The formulas list those apart.",
  "A part of a stopped item may be taken for any other that needs it, in order of time, and an item is given up only if every function it serves can spare it. Safety gear gives and takes nothing, and a safety function counts as lost when any item that serves it stops.",
  "Wear as lived: a life that ends more than 20 times in the crossing is drawn as pure chance, as in the formulas.",
];

const share = (value: number): string => value.toFixed(4);

/** `0.9512 (0.9498 to 0.9525)`; the ends rounded outwards. */
export function estimateWords({ value, low, high }: Estimate): string {
  const down = share(Math.floor(low * 10_000 + 1e-9) / 10_000);
  const up = share(Math.ceil(high * 10_000 - 1e-9) / 10_000);
  return `${share(value)} (${down} to ${up})`;
}

/** What the simulation found, in words made of its figures. */
export function simulationSentence(
  answer: Pick<
    SimulationAnswer,
    "vessel" | "crossing" | "crossings" | "tiers" | "parts" | "functions"
  >,
): string {
  const { vessel, crossing, crossings, parts } = answer;
  const tiers = answer.tiers.filter((tier) => tier.parts > 0);
  if (tiers.length === 0) {
    return `Nothing fitted aboard ${vessel.name} has evidence of failing, so there is nothing to play: give its parts a rate, a life, a history or a rarity class.`;
  }
  const found = tiers
    .map((tier) => `${estimateWords(tier.withKit.simulated)} for ${tier.tier}`)
    .join(", ");
  const figures = [
    ...tiers.flatMap((tier) => [tier.withAboard, tier.withKit]),
    ...parts.flatMap((part) => [part.shortWithAboard, part.shortWithKit]),
  ];
  const outside = figures.filter((figure) => !figure.inside).length;
  const worst = answer.functions.toSorted(
    (a, b) => a.withKit.asLived.value - b.withKit.asLived.value,
  )[0];
  const lost =
    worst === undefined
      ? ""
      : ` The function most often lost with the kit is "${worst.function.name}": kept in ${estimateWords(worst.withKit.asLived)}.`;
  return `Played ${groupDigits(crossings)} times, the crossing ${crossing.name} of ${vessel.name} (${plural(crossing.daysLongest, "day")} at longest) runs short of no part with the kit in a share of ${found} (95 % intervals).${lost} Of ${plural(figures.length, "computed chance")} ${groupDigits(outside)} ${outside === 1 ? "lies" : "lie"} outside ${outside === 1 ? "its" : "their"} interval; up to one in twenty does by chance alone.`;
}
