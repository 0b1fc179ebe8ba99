import type { OrderAnswer } from "../../contract/order.contract.ts";
import type { Beside } from "../what-if/beside-before.ts";
import { moneyWords, plural } from "../words.ts";

/** Sets two orders side by side: money, suppliers, pieces, what cannot be had. */
export const ordersSideBySide: Beside<OrderAnswer> = {
  scene: (before) => ({ vessel: before.vessel.id, fittedOn: before.crossing.departs }),
  figures: ({ total, sheets, unmet, status }) => [
    {
      figure: "order in all",
      kind: "money",
      currency: total.currency,
      value: status === "infeasible" ? undefined : total.minor,
    },
    { figure: "suppliers dealt with", kind: "count", value: sheets.length },
    {
      figure: "pieces ordered",
      kind: "count",
      value: sheets.reduce(
        (sum, { lines }) => sum + lines.reduce((own, line) => own + line.pieces, 0),
        0,
      ),
    },
    { figure: "parts that cannot be had", kind: "count", value: unmet.length },
  ],
  sentence: (before, after) => {
    const money = after.total.minor - before.total.minor;
    const change =
      money === 0
        ? "the order costs the same"
        : `the order costs ${moneyWords(Math.abs(money), after.total.currency)} ${money > 0 ? "more" : "less"}`;
    return `With the change ${change}, from ${plural(after.sheets.length, "supplier")} instead of ${plural(before.sheets.length, "supplier")}; ${plural(after.unmet.length, "part")} cannot be had instead of ${plural(before.unmet.length, "part")}.`;
  },
};
