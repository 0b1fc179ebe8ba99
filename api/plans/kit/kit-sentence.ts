import type { KitAnswer } from "../../contract/kit.contract.ts";
import type { SoldKit } from "../../scoring/provision/kit-sale.ts";
import type { Passage } from "../../scoring/provision/passage.ts";
import type { VesselKit } from "../../scoring/provision/vessel-kit.ts";
import type { Snapshot } from "../../scoring/snapshot/snapshot.ts";
import { chanceWords, groupDigits, massWords, moneyWords, plural, sureWords } from "../words.ts";
import { tierNames } from "./kit-lines.ts";

/** What stands in the way of an answer: parts no stock makes sure enough, functions that too little gear serves. */
export interface KitObstacles {
  readonly blocking: readonly string[];
  readonly unmet: readonly string[];
}

export function kitObstacles(snapshot: Snapshot, kit: VesselKit): KitObstacles {
  const rows = kit.answer.tiers.flatMap((tier) => tier.blocking);
  const name = (row: number): string => {
    const part = kit.rows[row]?.demand.lines[0]?.part;
    const own = part ?? kit.classes.members[kit.rows[row]?.demand.partClass ?? -1]?.[0] ?? -1;
    return `${snapshot.parts.partNumber[own] ?? ""} ${snapshot.parts.description[own] ?? ""}`.trim();
  };
  return {
    blocking: [...new Set(rows.map(name))],
    unmet: kit.demand.functions
      .filter((f) => f.items.length < f.need)
      .map((f) => snapshot.functions.name[f.row] ?? ""),
  };
}

interface SentenceFigures {
  readonly obstacles: KitObstacles;
  readonly vesselName: string;
  readonly crossingName: string;
  readonly passage: Passage;
  readonly kit: SoldKit;
  readonly lines: KitAnswer["lines"];
  readonly tiers: KitAnswer["tiers"];
  readonly total: KitAnswer["total"];
  readonly sale: KitAnswer["sale"];
  readonly units: KitAnswer["units"];
}

/** The kit in one or two sentences, made from its figures; what a screen reader hears first. */
export function kitSentence(figures: SentenceFigures): string {
  const { vesselName, crossingName, passage, kit, lines, tiers, total, sale } = figures;
  const used = tiers.filter((tier) => tier.parts > 0);
  if (used.length === 0) {
    return `Nothing fitted aboard ${vesselName} has evidence of failing, so no kit can be worked out: give its parts a rate, a life, a history or a rarity class.`;
  }
  const lost = figures.obstacles.unmet.map((name) => `"${name}"`).join(", ");
  const unmet =
    lost === "" ? "" : ` But ${lost} can't be met with what is fitted, whatever is carried.`;
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
    const out = used.find((tier) => tier.tier === tierNames[short?.tier ?? 1]);
    const most = 3;
    const named = figures.obstacles.blocking.slice(0, most).join(", ");
    const more = figures.obstacles.blocking.length - most;
    const way =
      named === ""
        ? ""
        : `; in the way: ${named}${more > 0 ? ` and ${plural(more, "more", "more")}` : ""}`;
    return `No stock carries ${vesselName} over ${crossingName} at the asked targets: with any number of spares the ${out?.tier ?? "strictest"} tier still runs short in ${chanceWords(1 - (out?.reachable ?? 0))} crossings${way}. Lower that target, or have less that can fail.${unmet}`;
  }
  const aboard = lines.reduce((sum, line) => sum + line.aboard, 0);
  if (total.buyPieces === 0) {
    return `What is aboard ${vesselName} carries ${crossingName} (${length}) at ${sure}: nothing need be bought.${unmet}`;
  }
  const money = kit.prices.anyKnown ? `, ${moneyWords(total.cost.minor, total.cost.currency)}` : "";
  const mass = total.massKg > 0 ? ` and ${massWords(total.massKg, figures.units)}` : "";
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
  return `${plural(total.buyPieces, "piece")} of ${plural(buying, "part")} to buy${money}${mass}, with ${groupDigits(aboard)} usable aboard, carry ${vesselName} over ${crossingName} (${length}) at ${sure}.${within}${proof}${unmet}`;
}
