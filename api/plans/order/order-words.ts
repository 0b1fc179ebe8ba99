import type { OrderAnswer } from "../../contract/order.contract.ts";
import { moneyWords, plural } from "../words.ts";

/** The order in one sentence, made from its figures. */
export function orderSentence(
  answer: Pick<
    OrderAnswer,
    "status" | "sheets" | "total" | "eachAlone" | "unmet" | "vessel" | "lowerBound" | "neededBy"
  >,
): string {
  const { status, sheets, total, eachAlone, unmet, vessel, lowerBound } = answer;
  const left =
    unmet.length === 0
      ? ""
      : ` ${plural(unmet.length, "part", "parts")} cannot be had ${answer.neededBy === undefined ? "so" : `by ${answer.neededBy}`}: see below.`;
  if (status === "infeasible") {
    return `No order for ${vessel.name} keeps to the suppliers' least orders and packs.${left}`;
  }
  const pieces = sheets.reduce(
    (sum, sheet) => sum + sheet.lines.reduce((own, line) => own + line.pieces, 0),
    0,
  );
  if (sheets.length === 0) {
    return unmet.length === 0
      ? `Nothing needs to be ordered for ${vessel.name}.`
      : `Nothing can be ordered for ${vessel.name}.${left}`;
  }
  const proof =
    status === "optimal"
      ? "and no order costs less"
      : `and none is below ${moneyWords(lowerBound.minor, lowerBound.currency)} (time ran out before the proof)`;
  const saving =
    eachAlone === undefined || eachAlone.minor <= total.minor
      ? ""
      : `; each part from whoever asks least for it would come to ${moneyWords(eachAlone.minor, eachAlone.currency)} with delivery`;
  return `${plural(pieces, "piece", "pieces")} for ${vessel.name} from ${plural(sheets.length, "supplier", "suppliers")}: ${moneyWords(total.minor, total.currency)} with delivery and duty, ${proof}${saving}.${left}`;
}

/** Why a part cannot be ordered, and what to do. */
export function unmetWords(
  why: OrderAnswer["unmet"][number]["why"],
  supplier: string,
  daysLate: number | undefined,
  currency: string,
): string {
  switch (why) {
    case "nobody offers":
      return "No supplier is known to sell it: ask, or find one.";
    case "no price":
      return `${supplier} sells it, but the price is not known: ask for one.`;
    case "no rate":
      return `${supplier} sells it, in a currency that has no rate to ${currency}: give one.`;
    case "too late":
      return `The quickest is ${supplier}, ${plural(daysLate ?? 0, "day", "days")} too late.`;
    case "lead time unknown":
      return `${supplier} sells it, but how long it takes is not known: ask, or accept unknown lead times.`;
    case "left out":
      return `Only suppliers that were left out sell it: ${supplier}.`;
  }
}
