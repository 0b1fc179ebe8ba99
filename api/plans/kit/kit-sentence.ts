import type { KitAnswer } from "../../contract/kit.contract.ts";
import type { Passage } from "../../scoring/provision/passage.ts";
import type { SoldKit } from "../../scoring/provision/sold-kit.ts";
import { meanWords, moneyWords, plural, sureWords } from "../words.ts";

interface SentenceFigures {
  readonly vesselName: string;
  readonly crossingName: string;
  readonly passage: Passage;
  readonly kit: SoldKit;
  readonly lines: KitAnswer["lines"];
  readonly tiers: KitAnswer["tiers"];
  readonly total: KitAnswer["total"];
  readonly sale: KitAnswer["sale"];
}

/** The kit in one or two sentences, made from its figures; what a screen reader hears first. */
export function kitSentence(figures: SentenceFigures): string {
  const { vesselName, crossingName, passage, kit, lines, tiers, total, sale } = figures;
  const used = tiers.filter((tier) => tier.parts > 0);
  if (used.length === 0) {
    return `Nothing fitted aboard ${vesselName} has evidence of failing, so no kit can be worked out: give its parts a rate, a life, a history or a rarity class.`;
  }
  const length = `${plural(passage.daysLongest, "day")} at longest`;
  const sure = used.map((tier) => `${sureWords(tier.withKit)} ${tier.tier}`).join(", ");
  if (kit.sale.outcome?.isSafe === false) {
    const why =
      sale.shortfalls.length > 0
        ? sale.shortfalls.map(({ words }) => words).join(" ")
        : "Each cap alone would allow it; together they do not.";
    const safety = used.find(({ tier }) => tier === "safety");
    return `The caps do not let ${vesselName} reach the safety target for ${crossingName}. ${why} Within them safety reaches ${sureWords(safety?.withKit ?? 0)} at best.`;
  }
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
      ? " The proof was cut short: a better kit may exist, but none beyond the bound shown."
      : "";
  const missed = used.filter((tier) => tier.withKit < tier.target);
  const within =
    sale.aim === "most"
      ? ` That is the most the caps allow${missed.length > 0 ? `, short of the target for ${missed.map(({ tier }) => tier).join(" and ")}` : ""}.`
      : "";
  return `${plural(total.buyPieces, "piece")} of ${plural(buying, "part")} to buy${money}${mass}, with ${aboard} usable aboard, carry ${vesselName} over ${crossingName} (${length}) at ${sure}.${within}${proof}`;
}
