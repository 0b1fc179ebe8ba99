import type { KitAnswer } from "../../contract/kit.contract.ts";
import type { Passage } from "../../scoring/provision/passage.ts";
import type { VesselKit } from "../../scoring/provision/vessel-kit.ts";
import { meanWords, moneyWords, plural, sureWords } from "../words.ts";

interface SentenceFigures {
  readonly vesselName: string;
  readonly crossingName: string;
  readonly passage: Passage;
  readonly kit: VesselKit;
  readonly lines: KitAnswer["lines"];
  readonly tiers: KitAnswer["tiers"];
  readonly total: KitAnswer["total"];
}

/** The kit in one or two sentences, made from its figures; what a screen reader hears first. */
export function kitSentence(figures: SentenceFigures): string {
  const { vesselName, crossingName, passage, kit, lines, tiers, total } = figures;
  const used = tiers.filter((tier) => tier.parts > 0);
  if (used.length === 0) {
    return `Nothing fitted aboard ${vesselName} has evidence of failing, so no kit can be worked out: give its parts a rate, a life, a history or a rarity class.`;
  }
  const length = `${plural(passage.daysLongest, "day")} at longest`;
  const sure = used.map((tier) => `${sureWords(tier.withKit)} ${tier.tier}`).join(", ");
  if (kit.answer.status === "infeasible") {
    const short = kit.answer.tiers.find((tier) => tier.status === "infeasible");
    const row = kit.rows[short?.blocking[0] ?? -1];
    const part = lines.find(
      (line) =>
        row !== undefined && line.part.id !== "" && line.shortWithAboard > 0 && line.buy === 0,
    );
    const reach = used.find((tier) => tier.reachable < tier.target);
    return `No stock carries ${vesselName} over ${crossingName} at the asked targets: ${reach?.tier ?? "one tier"} reaches ${sureWords(reach?.reachable ?? 0)} at best${part === undefined ? "" : `, and ${part.partNumber} stands in the way`}.`;
  }
  const aboard = lines.reduce((sum, line) => sum + line.aboard, 0);
  if (total.buyPieces === 0) {
    return `What is aboard ${vesselName} carries ${crossingName} (${length}) at ${sure}: nothing need be bought.`;
  }
  const money = kit.prices.anyKnown ? `, ${moneyWords(total.cost.minor, total.cost.currency)}` : "";
  const mass = total.massKg > 0 ? ` and ${meanWords(total.massKg)} kg` : "";
  const buying = lines.filter((line) => line.buy > 0).length;
  const proof =
    kit.answer.status === "time-limited"
      ? " The proof was cut short: a cheaper kit may exist, but none below the bound shown."
      : "";
  return `${plural(total.buyPieces, "piece")} of ${plural(buying, "part")} to buy${money}${mass}, with ${aboard} usable aboard, carry ${vesselName} over ${crossingName} (${length}) at ${sure}.${proof}`;
}
