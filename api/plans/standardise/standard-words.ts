import type { StandardiseAnswer } from "../../contract/standardise.contract.ts";
import type { HeldReason } from "../../scoring/standardise/bind-fleet.ts";
import { groupDigits, moneyWords, plural } from "../words.ts";

const heldWords: Readonly<Record<HeldReason, string>> = {
  safety:
    "serve a safety function or take safety parts: safety gear is never thinned out by standardising",
  "unknown model": "have no known model",
  "no list": "have no parts list, so their kit is unknown, not nothing",
  "no other": "have no other priced make of their kind that meets the needs",
  "not asked": "are of a kind that was not asked about, or of no known kind",
};

/** How many positions stay as they are, and why. */
export function heldRows(held: ReadonlyMap<number, HeldReason>): StandardiseAnswer["held"] {
  const counts = new Map<HeldReason, number>();
  for (const reason of held.values()) counts.set(reason, (counts.get(reason) ?? 0) + 1);
  return [...counts]
    .sort((a, b) => b[1] - a[1])
    .map(([reason, positions]) => ({
      positions,
      reason: `${plural(positions, "position")} ${heldWords[reason].replace(/^serve |^have |^are /, (verb) => (positions === 1 ? singular(verb) : verb))}.`,
    }));
}

const singular = (verb: string): string =>
  ({ "serve ": "serves ", "have ": "has ", "are ": "is " })[verb] ?? verb;

export function yearsWords(years: number): string {
  if (years === 0) return "at once";
  if (years < 1) return `in ${plural(Math.max(1, Math.ceil(years * 12)), "month")}`;
  return `in ${years.toFixed(1)} years`;
}

interface Facts {
  readonly scope: string;
  readonly changes: StandardiseAnswer["changes"];
  readonly positions: number;
  readonly before: StandardiseAnswer["before"];
  readonly after: StandardiseAnswer["after"];
  readonly changeCost: StandardiseAnswer["changeCost"];
  readonly saving: StandardiseAnswer["saving"];
  readonly payback: number | null;
  readonly budget: StandardiseAnswer["budget"];
  readonly horizonYears: number;
  readonly best: StandardiseAnswer["opportunities"][number] | undefined;
  readonly modelSeesGain: boolean;
}

/** The answer in words, made from its figures. */
export function standardSentence(facts: Facts): string {
  const { scope, changes, positions, budget, horizonYears } = facts;
  if (positions === 0) {
    return `Nothing aboard ${scope} can be standardised: no position has another priced make that meets its needs and has a parts list. Give prices and parts lists of other makes.`;
  }
  if (changes.length === 0) {
    const limit =
      budget === null
        ? ""
        : budget.minor === 0
          ? " With a budget of nothing, nothing can change."
          : ` within ${moneyWords(budget.minor, budget.currency)}`;
    const nearest =
      facts.best === undefined || facts.best.savingPerCost === null
        ? ""
        : ` The change that comes nearest, ${facts.best.by.name} in place of ${facts.best.replace.name}, brings back ${Math.max(0, Math.round(facts.best.savingPerCost * 100))} % of what it costs within ${plural(horizonYears, "year")}.`;
    if (budget?.minor === 0) {
      return `Keep everything aboard ${scope} as it is.${limit}${nearest}`;
    }
    const doubt = facts.modelSeesGain
      ? " The planning model saw a gain, but the kits solved exactly do not bear it out."
      : "";
    return `Keep everything aboard ${scope} as it is: of ${plural(positions, "position")} that could change, none pays for its price${limit} over ${plural(horizonYears, "year")}.${doubt}${nearest}`;
  }
  const count = changes.reduce((sum, { positions: own }) => sum + own.length, 0);
  const list = changes
    .slice(0, 3)
    .map(
      (one) =>
        `${groupDigits(one.positions.length)} ${one.from.name} to ${one.to.name} on ${one.vessel.name}`,
    )
    .join(", ");
  const more = changes.length > 3 ? `, and ${plural(changes.length - 3, "more change")}` : "";
  const saved =
    facts.saving === null
      ? ""
      : ` Over ${plural(horizonYears, "year")} that saves ${moneyWords(facts.saving.minor, facts.saving.currency)} beyond its cost of ${moneyWords(facts.changeCost.minor, facts.changeCost.currency)}`;
  const pays = facts.payback === null ? "." : ` and pays for itself ${yearsWords(facts.payback)}.`;
  const kits = facts.before.kits - facts.after.kits;
  const suppliers = facts.before.suppliers - facts.after.suppliers;
  const kitMoney =
    facts.before.kit === null || facts.after.kit === null
      ? ""
      : ` The kits cost ${moneyWords(facts.after.kit.minor, facts.after.kit.currency)} instead of ${moneyWords(facts.before.kit.minor, facts.before.kit.currency)} at the same protection`;
  return `Change ${plural(count, "position")}: ${list}${more}.${saved}${pays}${kitMoney}, with ${plural(facts.after.kits, "spares kit")} instead of ${facts.before.kits}${suppliers === 0 ? "" : ` and ${plural(facts.after.suppliers, "supplier")} instead of ${facts.before.suppliers}`}${kits === 0 && suppliers === 0 ? ", and as many suppliers" : ""}.`;
}
