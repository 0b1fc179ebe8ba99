import type { KitAnswer } from "../../../api/contract/kit.contract.ts";
import { moneyAmountText, plural } from "../../components/figures.ts";
import { massText, massUnit, roomText, roomUnit, type Units } from "../../components/units.ts";
import { type Explanation, WhyNumber } from "../../components/why.tsx";

const objectiveWord = { cost: "money", mass: "weight", volume: "room", pieces: "pieces" } as const;

/** A sum, or that nothing of it is known. */
const sumText = (sum: string, unknown: number, pieces: number, what: string): string =>
  pieces > 0 && unknown >= pieces ? `${what} not known` : sum;

/** What a sum lacks: said, so that it is never passed off as the whole. */
const lackText = (unknown: number, pieces: number, what: string): string =>
  unknown > 0 && unknown < pieces ? ` and ${plural(unknown, "piece")} of unknown ${what}` : "";

/** How near the best the kit is proven to be. */
function proofText({ status, sale, objective }: KitAnswer): string {
  const isCapped = sale.caps.length > 0;
  if (status === "infeasible")
    return isCapped
      ? "The caps do not allow the safety target; this is the surest kit within them."
      : "A target is out of reach of any stock.";
  const within = isCapped ? " within the caps" : "";
  if (sale.aim === "most")
    return status === "optimal"
      ? "Proven: no kit within the caps is surer, tiers weighed together."
      : "Stopped by the clock: within the caps a surer kit may exist.";
  return status === "optimal"
    ? `Proven: no kit smaller in ${objectiveWord[objective]} reaches these targets${within}.`
    : `Stopped by the clock: at most ${Math.ceil((100 * sale.gap) / Math.max(1, sale.value))} % above the least possible${within}.`;
}

const assumedPrices = ({ total }: KitAnswer): string =>
  total.priceAssumedPieces === 0
    ? "Every price is an offer's."
    : `${plural(total.priceAssumedPieces, "piece")} of ${plural(total.buyPieces, "piece")} to buy ${total.priceAssumedPieces === 1 ? "has" : "have"} no price: the median of the known ones stands in.`;

const unknownSize = (unknown: number, pieces: number, what: string): string =>
  unknown === 0
    ? `The ${what} of every piece to buy is stated.`
    : `${plural(unknown, "piece")} of ${plural(pieces, "piece")} to buy ${unknown === 1 ? "has" : "have"} no stated ${what} and ${unknown === 1 ? "is" : "are"} not in the sum.`;

const change = "Another target, a shorter crossing, fewer hours a day, or pieces already aboard.";

function whys(answer: KitAnswer): Readonly<Record<string, Explanation>> {
  const { total, objective } = answer;
  return {
    buy: {
      what: `${plural(total.buyPieces, "piece")} are to be bought beside the usable ones aboard.`,
      how: `Of all kits that reach the targets of every tier, the one with the least ${objectiveWord[objective]}: pieces are added where one more lowers the chance of running short most for what it takes, and the whole is then proven.`,
      rests: proofText(answer),
      change,
    },
    cost: {
      what: "What the pieces to buy cost, as they are sold: packs and least orders whole, without delivery and duty.",
      how: "Units to buy times the price of a unit, at the cheapest offer in the planning currency, added up.",
      rests: assumedPrices(answer),
      change:
        "Prices, exchange rates, another supplier. “What to order” reckons delivery, duty and least orders too.",
    },
    mass: {
      what: "What the pieces to buy weigh together.",
      how: "Units to buy times the weight of a unit, added up. What is aboard already is not counted.",
      rests: unknownSize(total.massUnknownPieces, total.buyPieces, "weight"),
      change: "Weights written into the parts list; or keep weight small under “Keep small”.",
    },
    room: {
      what: "The room the pieces to buy take together.",
      how: "Units to buy times the room of a unit, added up. What is aboard already is not counted.",
      rests: unknownSize(total.volumeUnknownPieces, total.buyPieces, "size"),
      change: "Sizes written into the parts list; or keep room small under “Keep small”.",
    },
    carry: {
      what: `${plural(total.carryPieces, "piece")} of ${plural(total.distinctParts, "part")} are aboard when sailing.`,
      how: "Usable pieces aboard plus the pieces to buy. A piece is usable when its condition is good and its date holds past the longest-case arrival.",
      change,
    },
  };
}

/** What the kit comes to, and how near the best it is proven to be; each figure opens its reason. */
export function KitTotals({
  answer,
  units,
}: {
  readonly answer: KitAnswer;
  readonly units: Units;
}) {
  const { total } = answer;
  const why = whys(answer);
  const figure = (key: string, name: string, text: string) => (
    <WhyNumber name={name} explain={() => why[key] ?? { what: text, how: "" }}>
      {text}
    </WhyNumber>
  );
  return (
    <p className="totals">
      To buy: {figure("buy", "pieces to buy", plural(total.buyPieces, "piece"))} for{" "}
      {figure(
        "cost",
        "money to spend",
        `${moneyAmountText(total.cost.minor, total.cost.currency)} ${total.cost.currency}`,
      )}
      {total.priceAssumedPieces > 0
        ? ` (${plural(total.priceAssumedPieces, "piece")} at an assumed price)`
        : ""}
      ,{" "}
      {figure(
        "mass",
        "weight to buy",
        sumText(
          `${massText(total.massKg, units)} ${massUnit(units)}`,
          total.massUnknownPieces,
          total.buyPieces,
          "weight",
        ),
      )}
      {lackText(total.massUnknownPieces, total.buyPieces, "weight")},{" "}
      {figure(
        "room",
        "room to buy",
        sumText(
          `${roomText(total.volumeLitres, units)} ${roomUnit(units)}`,
          total.volumeUnknownPieces,
          total.buyPieces,
          "size",
        ),
      )}
      {lackText(total.volumeUnknownPieces, total.buyPieces, "size")}. To carry in all:{" "}
      {figure(
        "carry",
        "pieces to carry",
        `${plural(total.carryPieces, "piece")} of ${plural(total.distinctParts, "part")}`,
      )}
      . {proofText(answer)}
    </p>
  );
}
