import type { DoubtAnswer } from "../../contract/doubt.contract.ts";
import { groupDigits, moneyWords, plural, sureWords } from "../words.ts";

/** A change of cost in units of the objective: `+12.40 EUR`, `-300 g`. */
export function changeWords(
  value: number,
  { objective, currency }: Pick<DoubtAnswer, "objective" | "currency">,
): string {
  const sign = value < 0 ? "−" : "+";
  const size = Math.abs(value);
  if (objective === "cost") return `${sign}${moneyWords(size, currency)}`;
  const unit = { mass: "g", volume: "ml", pieces: "pieces" }[objective];
  return `${sign}${groupDigits(size)} ${unit}`;
}

const percent = (share: number): string => {
  const value = share * 100;
  return value > 0 && value < 1 ? "under 1 %" : `${Math.round(value)} %`;
};

/** What the doubt amounts to, in a sentence or two. */
export function doubtSentence(answer: Omit<DoubtAnswer, "sentence">): string {
  const [first] = answer.rates;
  const most =
    first === undefined || answer.ratesThatMatter === 0
      ? "no single rate, halved or doubled, changes the kit"
      : `of ${plural(answer.ratesInAll, "failure rate")}, ${groupDigits(answer.ratesThatMatter)} would change it if halved or doubled, most of all that of ${first.description || first.part.name} (${changeWords(first.halved.cost, answer)} to ${changeWords(first.doubled.cost, answer)})`;
  const { risk, demand } = answer.assumed;
  return `${percent(risk)} of the risk that the kit for ${answer.vessel.name} leaves, and ${percent(demand)} of the demand it is sized on, rest on assumed rates; ${most}.`.replace(
    /^under/,
    "Under",
  );
}

/** What rough passages ask for besides. */
export function roughWords(
  answer: Pick<DoubtAnswer, "tiers" | "objective" | "currency">,
  cost: number,
  pieces: number,
  reached: boolean,
): string {
  const tiers = answer.tiers
    .filter((tier) => tier.parts > 0)
    .map((tier) => `${tier.tier} ${sureWords(tier.roughWithKit)} (asked ${tier.target})`);
  const more =
    pieces === 0 && cost === 0
      ? "The kit needs nothing more for it."
      : `Keeping the targets on such passages takes ${plural(Math.max(0, pieces), "more piece", "more pieces")}, ${changeWords(cost, answer)}.`;
  return `If passages differ in roughness as the surveyed ones did, the kit's own figures become ${tiers.join(", ")}. ${reached ? more : "No stock keeps every target on such passages; what more can be had is counted here."} That larger kit is found by asking more of plain passages; it reaches its targets, and is not proven least.`;
}
