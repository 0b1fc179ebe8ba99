import type { NeedName } from "../../../graph-schema/index.ts";
import { needOf } from "../../../graph-schema/index.ts";
import type { ChoiceCandidate, ChooseAnswer } from "../../contract/choose.contract.ts";
import type { Misfit, PositionNeed } from "../../scoring/choice/meets-needs.ts";
import { moneyWords, plural, sureWords } from "../words.ts";
import type { TurningPoint } from "./turning-points.ts";

type Candidate = ChoiceCandidate;

const figureWords = (name: NeedName, value: number): string => {
  const { unitWords } = needOf(name);
  return unitWords === "" ? String(round(value)) : `${round(value)} ${unitWords}`;
};
const round = (value: number): number => Number(value.toPrecision(6));

/** A need in words: `safe working load at least 1500 kg`. */
export const needWords = ({ name, rule, value }: PositionNeed): string =>
  `${needOf(name).words} ${rule === "equal" ? "of exactly" : "at least"} ${figureWords(name, value)}`;

/** Why a model cannot go into the position. */
export function misfitWords(misfit: Misfit): string {
  if (misfit.kind === "category") {
    return `it is ${misfit.has === "" ? "gear of no known kind" : `a ${misfit.has}`}, not a ${misfit.needed}`;
  }
  const { need } = misfit;
  const what = needOf(need.name).words;
  if (misfit.kind === "unstated") {
    return `its ${what} is not stated; ${figureWords(need.name, need.value)} is needed`;
  }
  return `its ${what} is ${figureWords(need.name, misfit.has)}; ${need.rule === "equal" ? "exactly" : "at least"} ${figureWords(need.name, need.value)} is needed`;
}

const amount = (minor: number, currency: string): string => moneyWords(Math.abs(minor), currency);

/** Whether other gear aboard could lend the part when one fails. */
function donorWords(share: number): string {
  if (share <= 0.005) return "no other gear aboard could lend it a part";
  if (share >= 0.995) return "other gear aboard could lend it the part at any failure";
  const tenths = Math.min(9, Math.round(share * 10));
  return `other gear aboard could lend it the part at ${tenths === 0 ? "fewer than 1" : `about ${tenths}`} of 10 failures`;
}

/** One candidate's figures in a sentence or two. */
export function candidateWords(candidate: Omit<Candidate, "words">): string {
  const { kit, price } = candidate;
  const priced =
    price === null
      ? candidate.priceQuoted === null
        ? "Its price is not known."
        : `It is quoted at ${moneyWords(candidate.priceQuoted.minor, candidate.priceQuoted.currency)} each, which cannot be compared without a rate.`
      : `${moneyWords(price.minor, price.currency)} each.`;
  if (kit === null) {
    return `${priced} Its kit is unknown, not nothing: ${candidate.kitUnknown ?? "it could not be solved"}.`;
  }
  return `${priced} ${extraWords(candidate)} ${varietyWords(candidate)} ${supplyWords(candidate)}`;
}

function extraWords({ kit }: Pick<Candidate, "kit">): string {
  if (kit === null) return "";
  if (kit.extra === null) return `The kit costs ${moneyWords(kit.cost.minor, kit.cost.currency)}.`;
  const { minor, currency } = kit.extra;
  if (minor === 0) return "The kit costs as much as today's.";
  return `The kit costs ${amount(minor, currency)} ${minor > 0 ? "more" : "less"} than today's.`;
}

function varietyWords(candidate: Omit<Candidate, "words">): string {
  const { newParts, newKits, newSuppliers } = candidate;
  if (newParts === null) return "";
  const more = [
    newParts === 0 ? "no new part" : plural(newParts, "new part"),
    ...(newKits !== null && newKits > 0 ? [plural(newKits, "more spares kit")] : []),
    ...(newSuppliers !== null && newSuppliers > 0 ? [plural(newSuppliers, "more supplier")] : []),
  ];
  const fewer = [
    ...(newKits !== null && newKits < 0 ? [plural(-newKits, "spares kit")] : []),
    ...(newSuppliers !== null && newSuppliers < 0 ? [plural(-newSuppliers, "supplier")] : []),
  ];
  const brings = `It brings ${joined(more)}`;
  return fewer.length === 0 ? `${brings}.` : `${brings} and does away with ${joined(fewer)}.`;
}

function supplyWords(candidate: Omit<Candidate, "words">): string {
  const { worstLeadTimeDays, singleSourceParts, unsoldParts, partsListed, donorChance } = candidate;
  const sources =
    singleSourceParts === 0
      ? "none of its parts hangs on one supplier"
      : `${plural(singleSourceParts, "part")} ${singleSourceParts === 1 ? "has" : "have"} one supplier only`;
  const pieces = [
    worstLeadTimeDays === null
      ? "how long its parts take to come is not known"
      : `its slowest part takes ${plural(worstLeadTimeDays, "day")}`,
    ...(unsoldParts > 0 && unsoldParts >= partsListed
      ? ["nobody on file sells its parts"]
      : [
          sources,
          ...(unsoldParts === 0 ? [] : [`nobody on file sells ${unsoldParts} of its parts`]),
        ]),
    ...(donorChance === null ? [] : [donorWords(donorChance)]),
  ];
  const text = joined(pieces);
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;
}

const joined = (pieces: readonly string[], word = "and"): string =>
  pieces.length < 2
    ? (pieces[0] ?? "")
    : `${pieces.slice(0, -1).join(", ")} ${word} ${pieces.at(-1)}`;

interface VerdictFacts {
  readonly position: string;
  readonly vesselName: string;
  readonly units: number;
  /** In order, cheapest boat first. */
  readonly candidates: readonly Candidate[];
  readonly rejected: number;
  readonly lists: ChooseAnswer["lists"];
  readonly turning: ChooseAnswer["turning"];
  /** The tier whose target was varied. */
  readonly tier: string;
  readonly tried: string;
}

/** The answer in one paragraph, made from the figures. */
export function choiceVerdict(facts: VerdictFacts): string {
  const ranked = facts.candidates.filter(({ rank }) => rank !== null);
  const [winner, second] = ranked;
  const where = `"${facts.position}" on ${facts.vesselName}`;
  if (winner === undefined) return withoutWinner(facts, where);
  const { boat, priceAll, kit } = winner;
  if (boat === null || priceAll === null || kit === null) return withoutWinner(facts, where);
  const spent = `${moneyWords(boat.minor, boat.currency)} for ${facts.units === 1 ? "it" : facts.units === 2 ? "both" : `all ${facts.units}`} and the whole boat's spares at the asked protection`;
  const sentences = [
    second === undefined
      ? `For ${where} the ${winner.model.name} is the only one whose price and kit are both known: ${spent}.`
      : `For ${where} the ${winner.model.name} makes the cheapest boat: ${spent}.`,
    `${extraWords(winner)} ${varietyWords(winner)} ${supplyWords(winner)}`,
    ...(second === undefined ? [] : [secondWords(winner, second)]),
    ...evidenceCaution(winner, second),
    ...unreadCaution(winner, facts.lists),
    ...unknownWords(facts.candidates),
    ...turnedWords(facts, winner),
    ...(second === undefined ? [] : [facts.tried]),
  ];
  return sentences
    .map((sentence) => sentence.trim())
    .filter((sentence) => sentence !== "")
    .join(" ");
}

function withoutWinner(facts: VerdictFacts, where: string): string {
  if (facts.candidates.length === 0) {
    return `For ${where} no make meets the needs: ${plural(facts.rejected, "candidate")} looked at, each refused for the reason given with it. Widen the needs, or type in another make.`;
  }
  return `For ${where} no make can be called the cheapest, because none has both its price and its kit known. ${unknownWords(facts.candidates).join(" ")}`.trim();
}

function secondWords(winner: Candidate, second: Candidate): string {
  const dearer = (second.boat?.minor ?? 0) - (winner.boat?.minor ?? 0);
  const currency = second.boat?.currency ?? "EUR";
  const survives = winner.functions
    .map((one, at) => ({ one, other: second.functions[at] }))
    .find(({ one, other }) => other !== undefined && one.function.id === other.function.id);
  const chances = [survives?.one.atEqualSpend ?? 0, survives?.other?.atEqualSpend ?? 0].map(
    sureWords,
  );
  const lasting =
    survives?.other === undefined
      ? ""
      : chances[0] === chances[1]
        ? ` With today's spares money "${survives.one.function.name}" lasts with chance ${chances[0]} with either.`
        : ` With today's spares money, "${survives.one.function.name}" lasts with chance ${chances[0]} with the first and ${chances[1]} with the second.`;
  if (dearer === 0) {
    return `The ${second.model.name} costs exactly as much in all; the order between them is by name only.${lasting}`;
  }
  return `The ${second.model.name} comes next, ${amount(dearer, currency)} dearer in all.${lasting}`;
}

/** A list with little evidence asks for few spares: say so where it may have won for that. */
function evidenceCaution(winner: Candidate, second: Candidate | undefined): string[] {
  const share = ({ partsListed, partsWithoutEvidence }: Candidate): number =>
    partsListed === 0 ? 1 : partsWithoutEvidence / partsListed;
  if (second === undefined || share(winner) <= share(second) + 0.1) return [];
  return [
    `Beware: ${winner.partsWithoutEvidence} of ${winner.partsListed} parts of the ${winner.model.name} have no evidence of failing, against ${second.partsWithoutEvidence} of ${second.partsListed}, and parts without evidence are not provided for; so its kit may look cheaper than it is.`,
  ];
}

/** Parts of a list that could not be read are in no kit: say so where that may have won. */
const unreadCaution = ({ model }: Candidate, lists: ChooseAnswer["lists"]): string[] =>
  lists
    .filter((list) => list.model === model.name && list.list === "parts" && list.rows.rejected > 0)
    .map(
      ({ rows }) =>
        `Beware: ${rows.rejected} of ${plural(rows.read, "row")} of the parts list of the ${model.name} could not be read and ask for no spares; so its kit may look cheaper than it is.`,
    );

/** Why some cannot be ranked; those with one reason in common in one sentence. */
function unknownWords(candidates: readonly Candidate[]): string[] {
  const reasons = new Map<string, Candidate[]>();
  for (const one of candidates.filter(({ rank }) => rank === null)) {
    const reason =
      one.kit === null
        ? `kit ${one.kitUnknown}`
        : one.priceQuoted !== null
          ? `rate ${one.priceQuoted.currency}`
          : one.model.id;
    reasons.set(reason, [...(reasons.get(reason) ?? []), one]);
  }
  return [...reasons.values()].map((alike) => {
    const names = joined(alike.map(({ model }) => `the ${model.name}`));
    const begin = `${names.charAt(0).toUpperCase()}${names.slice(1)} cannot be ranked`;
    const [one] = alike;
    const isOne = alike.length === 1;
    if (one === undefined) return "";
    if (one.kit === null) {
      const why = one.kitUnknown ?? "it could not be solved";
      return isOne
        ? `${begin}: its kit is unknown, not nothing, since ${why}.`
        : `${begin}: their kits are unknown, not nothing, since ${ofSeveral(why)}.`;
    }
    if (one.priceQuoted !== null) {
      return `${begin}: ${isOne ? "it is" : "they are"} quoted in ${one.priceQuoted.currency} and no rate was given.`;
    }
    const against = one.breakEven[0];
    return `${begin}: its price is not known${against === undefined ? "" : `; up to ${moneyWords(against.price.minor, against.price.currency)} each it would not be dearer than the ${against.against.name}`}.`;
  });
}

/** A reason for an unknown kit, of several makes at once. */
const ofSeveral = (why: string): string =>
  why
    .replace(/^it has no /, "none of them has a ")
    .replace("of its list", "of their lists")
    .replace("of its parts list", "of their parts lists")
    .replace("its parts", "their parts")
    .replace("with it fitted", "with any of them fitted");

/** What would turn the verdict, a sentence to each make that would then be the cheapest. */
function turnedWords({ turning, tier }: VerdictFacts, winner: Candidate): string[] {
  const next = new Map<string, string[]>();
  for (const turn of turning) {
    const piece =
      turn.kind === "price"
        ? `if the ${winner.model.name} cost ${moneyWords(turn.at, winner.boat?.currency ?? "EUR")} each or more`
        : turnWords(turn, tier);
    next.set(turn.winner.name, [...(next.get(turn.winner.name) ?? []), piece]);
  }
  return [...next].map(
    ([name, pieces]) => `The ${name} would take its place ${joined(pieces, "or")}.`,
  );
}

/** The change of one figure: `with 1 unit instead of 2`. */
function turnWords(
  { kind, from, at }: Pick<TurningPoint, "kind" | "from" | "at">,
  tier: string,
): string {
  if (kind === "units") return `with ${plural(at, "unit")} instead of ${from}`;
  if (kind === "passage")
    return `on a crossing of ${plural(at, "day")} at longest instead of ${from}`;
  return `at a ${tier} target of ${at} instead of ${from}`;
}

/** A turning point in words. */
export function turningWords(
  turn: TurningPoint,
  names: { readonly winner: string; readonly next: string; readonly tier: string },
  currency: string,
): string {
  const { from, at, kind } = turn;
  if (kind === "price") {
    return `If the ${names.winner} cost ${moneyWords(at, currency)} each or more instead of ${moneyWords(from, currency)}, the ${names.next} would make the cheaper boat.`;
  }
  const words = turnWords(turn, names.tier);
  return `${words.charAt(0).toUpperCase()}${words.slice(1)} it would be the ${names.next}.`;
}
