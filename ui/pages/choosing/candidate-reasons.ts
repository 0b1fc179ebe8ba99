import type { ChoiceCandidate, ChooseAnswer } from "../../../api/contract/choose.contract.ts";
import { moneyAmountText, plural, sufficiencyText } from "../../components/figures.ts";
import type { Explanation } from "../../components/why.tsx";

type Candidate = ChoiceCandidate;
type Money = NonNullable<Candidate["price"]>;
type Reason = (candidate: Candidate, answer: ChooseAnswer) => Explanation;

/** Money with its code, or that it is not known. */
export const moneyWords = (money: Money | null | undefined): string =>
  money === null || money === undefined
    ? "unknown"
    : `${moneyAmountText(money.minor, money.currency)} ${money.currency}`;

/** The chance that a function lasts, as the verdict says it; never shown as certain. */
export const lastsText = (chance: number): string =>
  chance >= 0.9995 ? "over 0.999" : sufficiencyText(chance);

/** What a kit rests on: evidence, and prices that are assumed. */
function restsOn({ partsListed, partsWithoutEvidence, kit, kitUnknown }: Candidate): string {
  if (kit === null)
    return `Its kit is unknown, not nothing: ${kitUnknown ?? "it could not be solved"}.`;
  const evidence =
    partsWithoutEvidence === 0
      ? `${plural(partsListed, "part")} on its list, all with evidence of failing`
      : `${plural(partsListed, "part")} on its list, ${partsWithoutEvidence} of them without evidence of failing and so not provided for`;
  const prices =
    kit.priceAssumedPieces === 0
      ? ""
      : `; prices of ${plural(kit.priceAssumedPieces, "piece")} in the kit of the whole boat are assumed`;
  return `${evidence}${prices}.`;
}

const many = (answer: ChooseAnswer): string =>
  answer.position.units === 1 ? "one unit" : `${answer.position.units} units`;

const evenWith = (candidate: Candidate): string =>
  candidate.breakEven
    .map(
      ({ against, price }) =>
        `at ${moneyWords(price)} each its boat costs what it does with ${against.name}`,
    )
    .join("; ");

export const boatReason: Reason = (candidate, answer) => ({
  what: candidate.words,
  how: `The price of ${many(answer)}, ${moneyWords(candidate.priceAll)}, and the least spares kit of the whole boat with this make fitted, ${moneyWords(candidate.kit?.cost)}, at the same targets for every make.`,
  rests: restsOn(candidate),
  ...(candidate.breakEven.length === 0 ? {} : { change: `Its price: ${evenWith(candidate)}.` }),
});

export const priceReason: Reason = ({ price, priceQuoted, typedIn }, { currency }) => ({
  what:
    price !== null
      ? `One unit costs ${moneyWords(price)}.`
      : priceQuoted === null
        ? "No price is known, so it cannot be ranked."
        : `It is quoted at ${moneyWords(priceQuoted)}; without a rate it cannot be set against ${currency}.`,
  how:
    price !== null && priceQuoted !== null && priceQuoted.currency !== currency
      ? `Quoted at ${moneyWords(priceQuoted)}, and counted by the rate given, rounded up to the whole minor unit.`
      : "As quoted.",
  rests: typedIn ? "What was typed in here." : "The price of the model on file.",
});

export const kitReason: Reason = (candidate, answer) => ({
  what:
    candidate.kit === null
      ? `The kit is unknown, not nothing: ${candidate.kitUnknown ?? "it could not be solved"}.`
      : `${plural(candidate.kit.pieces, "piece")} to buy for the whole boat, ${moneyWords(candidate.kit.cost)}${candidate.kit.extra === null ? "" : `; today's kit costs ${moneyWords(answer.before.kit)}`}.`,
  how: "The least kit that reaches the same targets with this make fitted, by the piece, what is aboard counted; proven least.",
  rests: restsOn(candidate),
  change: "Evidence of failing, prices of parts, targets, days at sea and what is aboard.",
});

export const evenReason: Reason = ({ breakEven }, answer) => {
  const [first] = breakEven;
  return {
    what:
      first === undefined
        ? "There is no other make whose price and kit are both known."
        : `At up to ${moneyWords(first.price)} a unit its boat is no dearer than with ${first.against.name}${first.room === null ? "" : first.room >= 0 ? `: ${moneyWords({ minor: first.room, currency: first.price.currency })} of room` : `: it is ${moneyWords({ minor: -first.room, currency: first.price.currency })} too dear`}.`,
    how: `The other's price and kit, less this one's kit, over ${many(answer)}; rounded down.`,
    rests: "Both kits, solved to the proof.",
  };
};

const variety: Readonly<Record<"newParts" | "newKits" | "newSuppliers", string>> = {
  newParts:
    "Part classes (parts that interchange count once) that the boat's gear asks for with this make and not today.",
  newKits: "Different spares kits aboard with this make, less those of today.",
  newSuppliers:
    "The least number of suppliers that sell everything on sale for the boat's gear, less that of today.",
};

export const varietyReason =
  (id: keyof typeof variety): Reason =>
  (candidate, { before }) => ({
    what:
      candidate[id] === null
        ? `Unknown: ${candidate.kitUnknown ?? "its list is not known"}.`
        : id === "newParts"
          ? `${plural(candidate.newParts ?? 0, "part")} more, ${candidate.goneParts ?? 0} no longer needed; today ${before.parts}.`
          : id === "newKits"
            ? `Today the boat has ${plural(before.kits, "different spares kit")}.`
            : `Today ${plural(before.suppliers, "supplier")} would do.`,
    how: variety[id],
    rests: `${plural(candidate.partsListed, "part")} on its list.`,
  });

export const sizeReason: Reason = (candidate) => ({
  what:
    candidate.kit === null
      ? `Unknown: ${candidate.kitUnknown ?? "its kit is not known"}.`
      : "What is to be bought for the whole boat, not what is aboard already.",
  how: "Pieces to buy times what each weighs and takes up.",
  ...(candidate.kit === null
    ? {}
    : {
        rests: `Weight is unknown of ${candidate.kit.massUnknownPieces} and size of ${candidate.kit.volumeUnknownPieces} of ${plural(candidate.kit.pieces, "piece")}; those are not counted.`,
      }),
});

export const leadReason: Reason = ({ slowestPart, leadTimeUnknownParts, worstLeadTimeDays }) => ({
  what:
    worstLeadTimeDays === null
      ? "How long its parts take to come is not known."
      : `${slowestPart ?? "Its slowest part"} takes ${plural(worstLeadTimeDays, "day")}.`,
  how: "Of each part on its list the quickest supplier counts; of all parts the slowest.",
  rests: `${leadTimeUnknownParts === 0 ? "Every part has a stated time" : `${plural(leadTimeUnknownParts, "part")} without a stated time, not counted`}.`,
});

export const sourceReason: Reason = ({ singleSourceParts, unsoldParts, partsListed }) => ({
  what:
    partsListed === 0
      ? "Unknown: it has no parts list."
      : `${plural(singleSourceParts, "part")} of ${partsListed} can be had from one supplier only${unsoldParts === 0 ? "" : `, ${unsoldParts} from nobody on file`}.`,
  how: "Suppliers on file that sell the part or one that interchanges with it.",
});

export const donorReason: Reason = ({ donorChance, kitUnknown, kit }) => ({
  what:
    donorChance === null
      ? kit === null
        ? `Unknown: ${kitUnknown ?? "its kit is not known"}.`
        : "None of its failures on this crossing stops it, so none asks for a part from other gear."
      : `When a failure stops one, the part is found in other gear that can be spared in ${sufficiencyText(donorChance)} of cases.`,
  how: "Each failure that stops it, weighed by how often it comes; gear of the safety tier lends nothing.",
});

export const lastsReason: Reason = ({ functions, kit, kitUnknown }, { before }) => ({
  what:
    functions.length === 0
      ? kit === null
        ? `Unknown: ${kitUnknown ?? "its kit is not known"}.`
        : "The position serves no named function. Name one to see how likely it is to last."
      : `${functions
          .map(
            ({ function: { name }, atEqualSpend, atEqualProtection }) =>
              `${name}: ${lastsText(atEqualSpend)} for today's money, ${lastsText(atEqualProtection)} at the same targets`,
          )
          .join("; ")}.`,
  how: `The money of today's kit, ${moneyWords(before.kit)}, spent on the surest spares with this make fitted; the least of its functions is shown. The chance of not running short, not of being safe.`,
});

export const evidenceReason: Reason = (candidate) => ({
  what: restsOn(candidate),
  how: "A part counts as known where a rate, a life, an own history, a service or a rarity class is stated. Parts without any ask for no spares: a list with little evidence looks cheaper than it is.",
});
